/** The docket of one edition: the book to scale, its facts, what stands between it and the press, and its making. */
import { ProgressBar } from 'react-aria-components';
import type { Size } from '#base';
import { authorsOf, type Edition, hyphenatedIsbn, namesInARow } from '#book';
import { paperOf, spineThickness } from '#design';
import { useBook, useStore, useWorkbench } from '../state/index.ts';
import { Button, DropMenu, grouped, Icon, IconButton, texts, useTools } from '../ui/index.ts';
import { BookDrawing } from './bookDrawing.tsx';
import { designName } from './designs.ts';
import type { EditionCheck } from './editionChecks.ts';
import { duplicatedEdition, sectionsIn } from './editions.ts';
import { LastMade } from './lastMade.tsx';
import type { Pressing } from './pressing.ts';
import { spineText, trimText } from './sizes.ts';
import { type Standing, standingOf } from './standing.ts';

const words = texts.press;

export interface DocketProps {
  readonly edition: Edition;
  /** What is known of its pages and findings. */
  readonly check: EditionCheck;
  /** Pixels to the point. */
  readonly scale: number;
  readonly pressing: Pressing;
  readonly onSettings: () => void;
}

/** The proportion of a cover in the shops: eight to five (common practice, no source). */
export const EBOOK_SIZE: Size = { width: 320, height: 512 };

export function Docket({ edition, check, scale, pressing, onSettings }: DocketProps) {
  const { metadata } = useBook();
  const { press } = useWorkbench();
  const busy = useStore(press, (state) => state.running !== null);
  const isPrint = edition.kind === 'print';
  const size = isPrint ? edition.trim : EBOOK_SIZE;
  const thickness = isPrint ? spineThickness(check.count ?? 0, paperOf(edition)) : null;
  return (
    <article className="docket" aria-label={edition.name}>
      <header className="docket-head">
        <Icon name={edition.kind} />
        <h3>{edition.name}</h3>
        <DocketMenu edition={edition} />
      </header>
      <div className="docket-drawing">
        <BookDrawing
          name={words.docket.drawing(edition.name, isPrint ? trimText(size) : words.docket.ebook)}
          title={metadata.title}
          author={namesInARow(authorsOf(metadata), metadata.language)}
          size={size}
          thickness={thickness}
          scale={scale}
        />
      </div>
      <Facts edition={edition} pages={check.count} />
      <WhatStands edition={edition} check={check} />
      <LastMade edition={edition} pressing={pressing} />
      <footer className="docket-foot">
        <Progress edition={edition} />
        <Button aria-label={words.docket.settingsOf(edition.name)} onPress={onSettings}>
          {words.docket.settings}
        </Button>
        <Button
          look="main"
          isDisabled={busy}
          aria-label={words.makeNamed(edition.name)}
          onPress={() => void pressing.make([edition.id])}
        >
          {words.make}
        </Button>
      </footer>
    </article>
  );
}

function DocketMenu({ edition }: { readonly edition: Edition }) {
  const { books } = useWorkbench();
  const tools = useTools();
  const apply = (change: Parameters<typeof books.apply>[0]): boolean => {
    const outcome = books.apply(change);
    if (!outcome.ok) tools.problem(outcome.problem);
    return outcome.ok;
  };
  const drop = (): void => {
    if (!apply({ kind: 'dropEdition', edition: edition.id })) return;
    const action = { text: texts.common.undo, run: () => void books.undo() };
    tools.tell({ kind: 'done', text: words.docket.dropped(edition.name), action });
  };
  const label = words.docket.menu(edition.name);
  const choices = [
    {
      id: 'duplicate',
      text: words.docket.duplicate,
      run: () => void apply(duplicatedEdition(books.current.book, edition)),
    },
    { id: 'drop', text: words.docket.drop, run: drop },
  ];
  return (
    <DropMenu label={label} blocks={[{ choices }]}>
      <IconButton icon="more" name={label} />
    </DropMenu>
  );
}

function Facts({ edition, pages }: { readonly edition: Edition; readonly pages: number | null }) {
  const book = useBook();
  const isPrint = edition.kind === 'print';
  return (
    <dl className="docket-facts">
      {isPrint && <Fact name={words.docket.trim} text={trimText(edition.trim)} />}
      {isPrint && <Fact name={words.docket.pages} text={pages === null ? words.docket.counting : grouped(pages)} />}
      {isPrint && pages !== null && (
        <Fact name={words.docket.spine} text={spineText(spineThickness(pages, paperOf(edition)))} />
      )}
      {isPrint && <Fact name={words.docket.paper} text={paperOf(edition).name} />}
      <Fact
        name={words.docket.isbn}
        text={edition.isbn === null ? words.docket.noIsbn : hyphenatedIsbn(edition.isbn)}
      />
      <Fact name={words.docket.design} text={designName(book, edition.design)} />
      <Fact name={words.docket.notes} text={words.notes[edition.notes]} />
      <Fact name={words.docket.matter} text={words.docket.sections(sectionsIn(book, edition.id))} />
    </dl>
  );
}

function Fact({ name, text }: { readonly name: string; readonly text: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd className="figures">{text}</dd>
    </div>
  );
}

function WhatStands({ edition, check }: Pick<DocketProps, 'edition' | 'check'>) {
  const book = useBook();
  const { place } = useWorkbench();
  const { commands } = useTools();
  const standing = standingOf(book, edition, check);
  const look = (): void => {
    if (edition.kind === 'print') place.showEdition('print', edition.id);
    commands.run('view.findings');
  };
  return (
    <div className="docket-standing">
      <h4 className="unseen">{words.docket.standing}</h4>
      {standing.length > 0 && (
        <ul>
          {standing.map((each) => (
            <StandingLine key={each.text} standing={each} look={look} edition={edition.name} />
          ))}
        </ul>
      )}
      <p className="quiet">{checkedText(check, standing.length === 0)}</p>
    </div>
  );
}

/** How far what stands above can be relied on. */
function checkedText({ findings, fresh }: EditionCheck, nothing: boolean): string {
  if (findings === null) return words.docket.unchecked;
  if (!fresh) return words.docket.checking;
  return nothing ? words.docket.nothing : words.docket.checked;
}

interface StandingLineProps {
  readonly standing: Standing;
  readonly look: () => void;
  /** The edition's name. */
  readonly edition: string;
}

function StandingLine({ standing, look, edition }: StandingLineProps) {
  return (
    <li data-severity={standing.severity}>
      <Icon name={standing.severity} />
      <span>{standing.text}</span>
      {standing.found && (
        <Button look="bare" aria-label={words.docket.lookNamed(edition)} onPress={look}>
          {words.docket.look}
        </Button>
      )}
    </li>
  );
}

function Progress({ edition }: { readonly edition: Edition }) {
  const { press } = useWorkbench();
  const progress = useStore(press, (state) => state.running?.progress.get(edition.id));
  if (!progress) return null;
  const label = words.stages[progress.stage];
  return (
    <ProgressBar className="docket-progress" value={progress.done} minValue={0} maxValue={1} aria-label={label}>
      {({ percentage }) => (
        <>
          <span>{label}</span>
          <div className="progress">
            <div style={{ width: `${percentage ?? 0}%` }} />
          </div>
        </>
      )}
    </ProgressBar>
  );
}
