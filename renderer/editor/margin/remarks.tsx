/** What an import did, beside the text that it did it to. In: the book's remarks; out: cards that go one by one or all at once. */
import { type RefObject, useMemo } from 'react';
import type { SectionId } from '#base';
import { type Book, type Change, type ImportRemark, remarksIn } from '#book';
import { useBookState, useWorkbench } from '../../state/index.ts';
import { Button, IconButton, texts as shared, useDeeds, useTools } from '../../ui/index.ts';
import { editor as texts } from '../../ui/texts/editor.en.ts';

/** The remarks of a section, in the order of the text. What is typed in it costs no look at them. */
export function useRemarks(section: SectionId): readonly ImportRemark[] {
  const { books } = useWorkbench();
  const remarks = useBookState(({ book }) => book.remarks);
  // Remarks move to another section only with their blocks, and go with them.
  const blocks = useBookState(({ book }) => sectionOf(book, section)?.childCount ?? 0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the book itself is another with every key
  return useMemo(() => remarksIn(books.current.book, section), [remarks, blocks, section, books]);
}

function sectionOf({ text }: Book, id: SectionId) {
  return text.children.find((each) => each.attrs['id'] === id);
}

export interface RemarksProps {
  readonly remarks: readonly ImportRemark[];
  readonly column: RefObject<HTMLElement | null>;
  /** Puts the focus into the text. */
  readonly toText: () => void;
}

export function Remarks({ remarks, column, toText }: RemarksProps) {
  const { books } = useWorkbench();
  const { commands, problem } = useTools();
  const dropAll = useDropAll();
  const all = useBookState(({ book }) => book.remarks.length);
  useDeeds(commands, { 'text.remarks': { run: dropAll, enabled: () => books.current.book.remarks.length > 0 } });
  const drop = (remark: ImportRemark): void => {
    const next = remarks[remarks.indexOf(remark) + 1];
    const made = books.apply({ kind: 'dropRemark', remark: remark.id }, { origin: 'margin' });
    if (!made.ok) problem(made.problem);
    else if (!next || !focusCard(column.current, next)) toText();
  };
  return remarks.map((remark, at) => (
    <div key={remark.id} className="card remark-card" data-block={remark.block} data-offset={0} data-remark={remark.id}>
      <p>
        <span className="unseen">{texts.margin.remark}: </span>
        {remark.message}
      </p>
      <IconButton icon="close" name={texts.margin.dropRemark} onPress={() => drop(remark)} />
      {at === 0 && all > 1 && (
        <Button look="bare" onPress={dropAll}>
          {texts.margin.dropRemarks(all)}
        </Button>
      )}
    </div>
  ));
}

/** Where the hand is on one card, it is on the next when that goes. */
function focusCard(column: HTMLElement | null, { id }: ImportRemark): boolean {
  const button = column?.querySelector<HTMLElement>(`[data-remark="${CSS.escape(id)}"] button`);
  button?.focus();
  return button !== null && button !== undefined;
}

/** Takes all remarks out of the book, as one deed. */
function useDropAll(): () => void {
  const { books } = useWorkbench();
  const { tell, problem } = useTools();
  return () => {
    const { remarks } = books.current.book;
    const changes = remarks.map(({ id }): Change => ({ kind: 'dropRemark', remark: id }));
    const made = books.apply({ kind: 'group', changes }, { origin: 'margin' });
    const action = { text: shared.common.undo, run: () => void books.undo() };
    if (made.ok) tell({ kind: 'done', text: texts.margin.remarksDropped(remarks.length), action });
    else problem(made.problem);
  };
}
