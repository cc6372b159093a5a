/** The foot of the window: words, pages, language, findings, and what is under way with its progress. */
import { ProgressBar } from 'react-aria-components';
import type { Edition } from '#book';
import { shareDone, useBookState, useOutline, usePlace, useStore, useWorkbench } from '../state/index.ts';
import { Button, DropMenu, Icon, type IconName, texts, useTools } from '../ui/index.ts';

const words = texts.frame.foot;
const LANGUAGES = new Intl.DisplayNames(['en'], { type: 'language' });

export function StatusFoot() {
  const rows = useOutline();
  const editions = useBookState((state) => state.book.editions);
  const language = useBookState((state) => state.book.metadata.language);
  const total = rows.reduce((sum, row) => sum + row.words, 0);
  return (
    <footer className="foot">
      <span className="figures">{texts.common.words(total)}</span>
      <PrintEdition editions={editions} />
      <span>{words.language(languageName(language))}</span>
      <Findings />
      <span className="foot-gap" />
      <Work />
    </footer>
  );
}

function languageName(tag: string): string {
  try {
    return LANGUAGES.of(tag) ?? tag;
  } catch (problem) {
    if (problem instanceof RangeError) return tag;
    throw problem;
  }
}

/** Pages of the edition in proof; another can be chosen where there are several. */
function PrintEdition({ editions }: { readonly editions: readonly Edition[] }) {
  const { layout, place } = useWorkbench();
  const count = useStore(layout, (state) => state.count);
  const shown = usePlace((state) => state.printEdition);
  const prints = editions.filter((each) => each.kind === 'print');
  const current = prints.find((each) => each.id === shown);
  if (!current) return null;
  const pages = count > 0 ? texts.common.pages(count) : '…';
  if (prints.length < 2) return <span className="figures">{pages}</span>;
  const choices = prints.map((each) => ({
    id: each.id,
    text: each.name,
    chosen: each.id === shown,
    run: () => place.showEdition('print', each.id),
  }));
  return (
    <DropMenu label={words.edition} blocks={[{ choices }]}>
      <Button look="bare">
        <span className="figures">
          {current.name}: {pages}
        </span>
      </Button>
    </DropMenu>
  );
}

const SEVERITIES = ['error', 'warning', 'note'] as const;

function Findings() {
  const { layout } = useWorkbench();
  const findings = useStore(layout, (state) => state.findings);
  const { commands } = useTools();
  if (findings.length === 0) return <span className="quiet">{words.noFindings}</span>;
  return (
    <Button look="bare" onPress={() => commands.run('view.findings')}>
      <span className="unseen">{words.findings}</span>
      {SEVERITIES.map((severity) => {
        const count = findings.filter((each) => each.severity === severity).length;
        if (count === 0) return null;
        return (
          <span key={severity} className="finding-count figures" data-severity={severity}>
            <Icon name={severity satisfies IconName} />
            {count} <span className="unseen">{texts.common.severities[severity]}</span>
          </span>
        );
      })}
    </Button>
  );
}

/** An export under way goes before the making up of pages. */
function Work() {
  const { layout, press } = useWorkbench();
  const running = useStore(press, (state) => state.running);
  const working = useStore(layout, (state) => state.stage === 'working' || state.stage === 'opening');
  const progress = useStore(layout, (state) => state.progress);
  const problem = useStore(layout, (state) => state.problem);
  if (running)
    return <Progress label={texts.press.exporting} value={shareDone(running)} onCancel={() => press.cancel()} />;
  if (problem !== null) return <span className="foot-problem">{problem}</span>;
  return working ? <Progress label={words.laying} value={progress} /> : null;
}

interface ProgressProps {
  readonly label: string;
  readonly value: number;
  readonly onCancel?: () => void;
}

function Progress({ label, value, onCancel }: ProgressProps) {
  return (
    <span className="foot-work">
      <ProgressBar value={value} minValue={0} maxValue={1} aria-label={label} className="foot-progress">
        {({ percentage }) => (
          <>
            <span>{label}</span>
            <div className="progress">
              <div style={{ width: `${percentage ?? 0}%` }} />
            </div>
          </>
        )}
      </ProgressBar>
      {onCancel && (
        <Button look="bare" onPress={onCancel}>
          {texts.common.cancel}
        </Button>
      )}
    </span>
  );
}
