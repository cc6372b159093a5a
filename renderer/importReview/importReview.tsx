/**
 * What was understood of a manuscript, to be looked through before it is taken in: at the left how it came, at the right the
 * sections of the book with the reasons for each. Whatever is mended here is a change of the proposed book.
 */
import { useMemo, useState } from 'react';
import type { SectionId } from '#base';
import { type Change, countWords } from '#book';
import type { ImportedManuscript } from '#host';
import { splitAt } from '../runningOrder/index.ts';
import { useBook, useBookState, useOutline, useWorkbench } from '../state/index.ts';
import { Button, texts, useTools } from '../ui/index.ts';
import { importing as words } from '../ui/texts/import.en.ts';
import { CleanUps } from './cleanUps.tsx';
import { LeftOut, PairRow } from './pairRow.tsx';
import { lettersOf, type NumberedLine, pairsOf, type Split } from './pairs.ts';
import './importReview.css';

export function ImportReview() {
  const imported = useBookState((state) => state.imported);
  return imported && <Review imported={imported} />;
}

function Review({ imported }: { readonly imported: ImportedManuscript }) {
  const book = useBook();
  const rows = useOutline();
  const { books } = useWorkbench();
  const { problem } = useTools();
  const [splits, setSplits] = useState<readonly Split[]>([]);
  const reasons = useMemo(() => new Map(imported.sections.map((each) => [each.section, each])), [imported]);
  const sections = rows.map((row) => row.id);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the order of the sections is what counts, as one string
  const pairs = useMemo(() => pairsOf(imported.lines, sections, splits), [imported, sections.join(' '), splits]);

  const make = (change: Change): boolean => {
    const made = books.apply(change, { origin: 'review' });
    if (!made.ok) problem(made.problem);
    return made.ok;
  };
  const split = (from: SectionId, { at, line }: NumberedLine): void => {
    const block = blockOf(book, from, line.text);
    const added = block === null ? null : splitAt(book, from, block);
    if (added && make(added.change)) setSplits([...splits, { at, from, section: added.section }]);
  };
  return (
    <section className="review" aria-label={words.title(imported.name)}>
      <ReviewHead imported={imported} />
      <div className="review-scroll">
        <CleanUps imported={imported} />
        <div className="review-heads" aria-hidden="true">
          <span>{words.manuscript}</span>
          <span>{words.understood}</span>
        </div>
        <ol className="review-pairs">
          {pairs.map(({ section, lines }) => {
            const row = rows.find((each) => each.id === section);
            if (!row) return <LeftOut key={`out ${lines[0]?.at}`} lines={lines} />;
            return (
              <PairRow
                key={row.id}
                row={row}
                lines={lines}
                reason={reasons.get(row.id) ?? null}
                last={row.id === sections.at(-1)}
                make={make}
                canSplit={(line) => line.at !== lines[0]?.at && blockOf(book, row.id, line.line.text) !== null}
                onSplit={(line) => split(row.id, line)}
              />
            );
          })}
        </ol>
      </div>
    </section>
  );
}

/** The block of a section that a line became, known by its letters; null where no block begins with it. */
function blockOf(book: ReturnType<typeof useBook>, section: SectionId, text: string): string | null {
  const letters = lettersOf(text);
  if (letters === '') return null;
  const node = book.text.children.find((each) => each.attrs['id'] === section);
  const block = node?.children.find((each, at) => at > 0 && lettersOf(each.textContent) === letters);
  return block ? String(block.attrs['id']) : null;
}

function ReviewHead({ imported }: { readonly imported: ImportedManuscript }) {
  const { books, host, home } = useWorkbench();
  const { asking, problem, say } = useTools();
  const book = useBook();
  const count = book.text.children.reduce((sum, section) => sum + countWords(section), 0);
  const give = async (): Promise<void> => {
    const answer = await asking.ask<'give' | 'stay'>({
      title: words.giveTitle,
      text: [words.giveText],
      answers: [
        { id: 'stay', text: words.stay },
        { id: 'give', text: words.give, look: 'grave' },
      ],
      otherwise: 'stay',
    });
    if (answer !== 'give') return;
    const { session } = books.current;
    await books.settled();
    const closed = await host.close({ session, discard: true });
    if (!closed.ok) problem(closed.problem);
    books.close();
    await home.refresh();
  };
  const take = (): void => {
    books.acceptImport();
    say(texts.frame.said.taken(book.text.childCount));
  };
  return (
    <header className="review-head">
      <div>
        <h1 className="desk-heading" data-landing tabIndex={-1}>
          {words.title(imported.name)}
        </h1>
        <p className="quiet">
          {words.sections(book.text.childCount, texts.common.words(count))}. {words.promise}
        </p>
      </div>
      <Button onPress={() => void give()}>{words.give}</Button>
      <Button look="main" onPress={take}>
        {words.take}
      </Button>
    </header>
  );
}
