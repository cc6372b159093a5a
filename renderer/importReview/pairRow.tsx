/** One section of the review: the lines of the manuscript at the left, what they became at the right, joined by a line. */
import { useState } from 'react';
import { type Change, SECTION_KINDS, type SectionKind } from '#book';
import type { SectionReason } from '#host';
import { retitle, typedTitle } from '../runningOrder/index.ts';
import { nameOfRow, type SectionRow, useBook } from '../state/index.ts';
import { Button, Chooser, Icon, TextInput, texts } from '../ui/index.ts';
import { importing as words } from '../ui/texts/import.en.ts';
import type { NumberedLine } from './pairs.ts';

/** Lines shown of a section until all are asked for: enough to see its beginning. */
const FEW = 5;

/** Below this a section is one to look at. */
const SURE = 0.6;

export interface PairRowProps {
  readonly row: SectionRow;
  readonly lines: readonly NumberedLine[];
  readonly reason: SectionReason | null;
  readonly last: boolean;
  readonly make: (change: Change) => boolean;
  readonly canSplit: (line: NumberedLine) => boolean;
  readonly onSplit: (line: NumberedLine) => void;
}

export function PairRow(props: PairRowProps) {
  const { row, lines, reason } = props;
  if (lines.length === 0 && !reason) return <MadeRow row={row} make={props.make} />;
  const unsure = reason !== null && reason.confidence < SURE;
  return (
    <li className="pair">
      <Lines lines={lines} canSplit={props.canSplit} onSplit={props.onSplit} />
      <div className="pair-line" aria-hidden="true" />
      <article className={unsure ? 'understood unsure' : 'understood'} aria-label={nameOfRow(row)}>
        <Head {...props} />
        {unsure && (
          <p className="unsure-note">
            <Icon name="warning" />
            {words.unsure}
          </p>
        )}
        <p className="quiet">
          {reason && (
            <>
              {words.because}
              {reason.reasons.join('; ')}.
            </>
          )}
        </p>
      </article>
    </li>
  );
}

/** A section that the book makes from its details: there is nothing to mend. */
function MadeRow({ row, make }: Pick<PairRowProps, 'row' | 'make'>) {
  return (
    <li className="pair made">
      <article className="understood" aria-label={nameOfRow(row)}>
        <strong>{nameOfRow(row)}</strong>
        <span className="quiet">{words.made}</span>
        <Button look="bare" onPress={() => make({ kind: 'dropSection', section: row.id })}>
          {words.drop}
        </Button>
      </article>
    </li>
  );
}

function Head({ row, last, make }: PairRowProps) {
  const book = useBook();
  const before = typedTitle(book, row.id);
  const [title, setTitle] = useState(before ?? '');
  const [was, setWas] = useState(before);
  if (was !== before) {
    setWas(before);
    setTitle(before ?? '');
  }
  const done = (): void => {
    const change = before === null || title === before ? null : retitle(book, row.id, title);
    if (change) make(change);
  };
  return (
    <div className="understood-head">
      <span className="understood-number figures">{row.number}</span>
      {before === null ? (
        <strong>{nameOfRow(row)}</strong>
      ) : (
        <TextInput
          label={words.retitle}
          value={title}
          onChange={setTitle}
          onDone={done}
          placeholder={words.noTitle}
          lang={book.metadata.language}
        />
      )}
      <Chooser<SectionKind>
        label={words.kind}
        value={row.kind}
        options={SECTION_KINDS.map((value) => ({ value, text: texts.order.kinds[value] }))}
        onChange={(kind) => {
          make({ kind: 'setSection', section: row.id, set: { kind } });
        }}
      />
      <span className="quiet figures">{texts.common.words(row.words)}</span>
      <span className="understood-deeds">
        {!last && (
          <Button look="bare" onPress={() => make({ kind: 'joinSections', section: row.id })}>
            {words.join}
          </Button>
        )}
        <Button look="bare" onPress={() => make({ kind: 'dropSection', section: row.id })}>
          {words.drop}
        </Button>
      </span>
    </div>
  );
}

interface LinesProps {
  readonly lines: readonly NumberedLine[];
  readonly canSplit?: (line: NumberedLine) => boolean;
  readonly onSplit?: (line: NumberedLine) => void;
}

/** The manuscript's own look, compact. */
function Lines({ lines, canSplit, onSplit }: LinesProps) {
  const [all, setAll] = useState(false);
  const written = lines.filter(({ line }) => line.text.trim() !== '');
  const shown = all ? written : written.slice(0, FEW);
  return (
    <div className="came">
      {shown.map((each) => (
        <div key={each.at} className="came-line">
          <p className={lookOf(each)}>{each.line.text}</p>
          {all && canSplit?.(each) && (
            <Button look="bare" onPress={() => onSplit?.(each)}>
              {words.splitHere}
            </Button>
          )}
        </div>
      ))}
      {written.length > FEW && (
        <Button look="bare" icon={all ? 'up' : 'down'} onPress={() => setAll(!all)}>
          {all ? words.fewerLines : words.moreLines(written.length - FEW)}
        </Button>
      )}
    </div>
  );
}

function lookOf({ line }: NumberedLine): string {
  const looks = [`align-${line.align}`];
  if (line.bold) looks.push('bold');
  if (line.italic) looks.push('italic');
  if (line.size !== null && line.size >= 15) looks.push('large');
  if (line.pageBreakBefore) looks.push('page-break');
  return looks.join(' ');
}

export function LeftOut({ lines }: { readonly lines: readonly NumberedLine[] }) {
  return (
    <li className="pair left-out">
      <Lines lines={lines} />
      <div className="pair-line none" aria-hidden="true" />
      <p className="quiet" title={words.leftOutHelp}>
        {words.leftOut(lines.length)}
      </p>
    </li>
  );
}
