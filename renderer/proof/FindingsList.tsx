/** The findings, the gravest first: what and where, with what mends it, or the author's word that it may stay. */
import { useId, useState } from 'react';
import type { Finding, SectionId } from '#base';
import { type Change, findingId, type Muted } from '#book';
import { MuteDialog, useHearing } from '../findings/index.ts';
import { useWorkbench } from '../state/index.ts';
import { texts as allTexts, Button, Icon, useTools } from '../ui/index.ts';
import { proof } from '../ui/texts/proof.en.ts';
import { groupFindings } from './findings.ts';
import { useLayout, useProofRoom } from './hooks.ts';
import { pageOfFolio } from './places.ts';

type BookFinding = Finding<Change>;

const texts = proof.findings;

/** What the command that leads to the findings puts the focus on. */
export const FINDINGS_LIST = 'findings-list';

export function FindingsList() {
  const findings = useLayout((state) => state.findings);
  const checked = useLayout((state) => state.checked);
  const muted = useLayout((state) => state.muted);
  const [muting, setMuting] = useState<BookFinding | null>(null);
  const groups = groupFindings(findings);
  return (
    <section className="findings" id={FINDINGS_LIST} tabIndex={-1} aria-label={texts.title}>
      <h2 className="desk-heading">{texts.title}</h2>
      {groups.length === 0 && <p className="quiet">{checked ? texts.none : texts.unchecked}</p>}
      {groups.map(({ severity, findings: some }) => (
        <div key={severity} className="finding-group" data-severity={severity}>
          <h3>
            <Icon name={severity} /> {allTexts.common.severities[severity]} <span className="quiet">{some.length}</span>
          </h3>
          <ul>
            {some.map((finding) => (
              <FindingItem key={findingId(finding)} finding={finding} onMute={() => setMuting(finding)} />
            ))}
          </ul>
        </div>
      ))}
      {muted.length > 0 && <MutedFindings muted={muted} />}
      {muting && <MuteDialog finding={muting} onClose={() => setMuting(null)} toFocus={focusList} />}
    </section>
  );
}

/** Where the focus goes when what had it is gone. */
function focusList(): void {
  document.getElementById(FINDINGS_LIST)?.focus();
}

function FindingItem({ finding, onMute }: { readonly finding: BookFinding; readonly onMute: () => void }) {
  const { books, place, layout } = useWorkbench();
  const { view } = useProofRoom();
  const { tell, problem } = useTools();
  const { at, section, page, fix } = finding;
  // What the buttons are about: the same words stand at every finding.
  const id = useId();
  const target = section ?? sectionOf(finding, books.get()?.book.text.children ?? []);
  const go = (): void => {
    const shown = page === undefined ? null : pageOfFolio(layout.get().pages, page);
    if (target !== null) place.goTo(target, at ?? { block: String(target), offset: 0 }, 'findings');
    else if (shown !== null) view.showPage(shown);
  };
  const mend = (): void => {
    if (!fix) return;
    const done = books.apply(fix, { origin: 'findings' });
    if (done.ok) tell({ kind: 'done', text: texts.fixed });
    else problem(done.problem);
  };
  return (
    <li className="finding">
      <p id={id}>
        {page !== undefined && <span className="finding-folio figures">{texts.folio(page)}</span>} {finding.message}
      </p>
      <div className="finding-deeds">
        {(target !== null || page !== undefined) && (
          <Button look="bare" aria-describedby={id} onPress={go}>
            {texts.go}
          </Button>
        )}
        {fix && (
          <Button look="bare" aria-describedby={id} onPress={mend}>
            {texts.fix}
          </Button>
        )}
        <Button look="bare" aria-describedby={id} onPress={onMute}>
          {texts.mute}
        </Button>
      </div>
    </li>
  );
}

/** The section that holds a finding's block, where the finding does not say. */
function sectionOf({ at }: Finding, sections: readonly { readonly attrs: Readonly<Record<string, unknown>> }[]) {
  const own = sections.find((each) => each.attrs['id'] === at?.block);
  return (own?.attrs['id'] as SectionId | undefined) ?? null;
}

/** What was muted stays within reach: folded, each with its reason. */
function MutedFindings({ muted }: { readonly muted: readonly Muted<BookFinding>[] }) {
  const hear = useHearing();
  return (
    <details className="finding-group">
      <summary>{texts.muted(muted.length)}</summary>
      <ul>
        {muted.map(({ finding, reason }) => (
          <li key={findingId(finding)} className="finding">
            <p>{finding.message}</p>
            <p className="quiet">{texts.because(reason)}</p>
            <div className="finding-deeds">
              <Button
                look="bare"
                onPress={() => {
                  hear(finding);
                  focusList();
                }}
              >
                {texts.unmute}
              </Button>
            </div>
          </li>
        ))}
      </ul>
    </details>
  );
}
