/** The margin beside the text: notes edited in place, findings with their fix, remarks of the import, each level with its line. */

import type { Node, ResolvedPos } from 'prosemirror-model';
import { type ReactNode, useCallback, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { Finding } from '#base';
import type { Change } from '#book';
import { MuteDialog } from '../../findings/index.ts';
import { useLately, useWorkbench } from '../../state/index.ts';
import { Button, Icon, IconButton, useTools } from '../../ui/index.ts';
import { editor as texts } from '../../ui/texts/editor.en.ts';
import type { SectionEditor } from '../sectionEditor.ts';
import type { Signal } from '../signal.ts';
import { markedKey, NOTHING_MARKED } from '../text/decorations.ts';
import { blockAt, blocksOf, positionOf } from '../text/places.ts';
import { notesOf } from '../text/section.ts';
import { NoteEditor } from './noteEditor.ts';
import { Remarks, useRemarks } from './remarks.tsx';
import { stacked } from './stack.ts';

export interface MarginProps {
  readonly editor: SectionEditor;
  readonly moved: Signal;
  /** The note that is to be written now, if any. */
  readonly note: string | null;
  readonly onNote: (note: string | null) => void;
}

export function Margin({ editor, moved, note, onNote }: MarginProps) {
  const column = useRef<HTMLElement>(null);
  const notes = useNotes(editor, moved);
  const findings = useFindings(editor);
  const remarks = useRemarks(editor.sectionId);
  usePlaces(column, editor, moved, `${notes} ${findings.length} ${remarks.length}`);
  useFoundMarks(editor, findings);
  const ids = notes === '' ? [] : notes.split(' ');
  const toText = (): void => editor.view.focus();
  return (
    <aside className="margin" ref={column} aria-label={texts.margin.label}>
      <Remarks remarks={remarks} column={column} toText={toText} />
      {ids.map((id, at) => (
        <NoteCard
          key={id}
          editor={editor}
          moved={moved}
          id={id}
          number={at + 1}
          wanted={note === id}
          onLeave={() => onNote(null)}
        />
      ))}
      {findings.map((finding, at) => (
        <FindingCard
          // biome-ignore lint/suspicious/noArrayIndexKey: of two findings that say the same at one place, only the order differs
          key={`${finding.rule} ${finding.at?.block} ${finding.at?.offset} ${at}`}
          finding={finding}
          toText={toText}
        />
      ))}
    </aside>
  );
}

/** The ids of the section's notes, as one string so that nothing is drawn anew while they stay the same. */
function useNotes(editor: SectionEditor, moved: Signal): string {
  const read = (): string =>
    notesOf(editor.view.state.doc)
      .map((each) => each.id)
      .join(' ');
  const [notes, setNotes] = useState(read);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `read` is the editor's
  useEffect(() => {
    setNotes(read());
    return moved.listen(() => setNotes(read()));
  }, [editor, moved]);
  return notes;
}

const NONE: readonly Finding<Change>[] = [];

/** Milliseconds that the cards of findings may lag behind the text. */
const LAG = 150;

/** The findings about blocks of the section; the same list while they are the same, however much is typed. */
function useFindings({ sectionId }: SectionEditor): readonly Finding<Change>[] {
  const { books, layout } = useWorkbench();
  const last = useRef(NONE);
  const read = useCallback(() => {
    const { findings } = layout.get();
    const section = books.get()?.book.text.children.find((each) => each.attrs['id'] === sectionId);
    const found = section && findings.length > 0 ? findingsIn(section, findings) : NONE;
    const { current } = last;
    const same = found.length === current.length && found.every((each, at) => each === current[at]);
    if (!same) last.current = found;
    return last.current;
  }, [books, layout, sectionId]);
  return useLately([books, layout], read, LAG);
}

function findingsIn(section: Node, findings: readonly Finding<Change>[]): readonly Finding<Change>[] {
  const blocks = blocksOf(section);
  return findings.filter(({ at }) => at !== undefined && blocks.has(at.block));
}

function useFoundMarks(editor: SectionEditor, findings: readonly Finding<Change>[]): void {
  useEffect(() => {
    const found = new Map(findings.map(({ at, severity }) => [at?.block ?? '', severity] as const));
    const before = markedKey.getState(editor.view.state) ?? NOTHING_MARKED;
    if (found.size > 0 || before.found.size > 0) editor.mark({ ...before, found });
  }, [editor, findings]);
}

/** Puts each card level with its line, whenever text or cards move. */
function usePlaces(
  column: React.RefObject<HTMLElement | null>,
  editor: SectionEditor,
  moved: Signal,
  cards: string,
): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: another list of cards is measured anew
  useLayoutEffect(() => {
    let waiting = 0;
    const place = (): void => {
      waiting = 0;
      if (column.current) placeCards(column.current, editor);
    };
    const soon = (): void => {
      waiting ||= requestAnimationFrame(place);
    };
    place();
    const watch = new ResizeObserver(soon);
    watch.observe(editor.view.dom);
    for (const card of column.current?.children ?? []) watch.observe(card);
    const deaf = moved.listen(soon);
    return () => {
      cancelAnimationFrame(waiting);
      watch.disconnect();
      deaf();
    };
  }, [column, editor, moved, cards]);
}

function placeCards(column: HTMLElement, editor: SectionEditor): void {
  const cards = [...column.querySelectorAll<HTMLElement>(':scope > [data-block]')];
  if (cards.length === 0) return;
  const top = column.getBoundingClientRect().top;
  const wished = cards
    .map((card) => ({ card, wish: wishOf(card, editor, top) - top, height: card.offsetHeight }))
    .sort((one, other) => one.wish - other.wish);
  const tops = stacked(wished);
  for (const [at, { card }] of wished.entries()) {
    const wanted = `${tops[at] ?? 0}px`;
    if (card.style.top !== wanted) card.style.top = wanted;
  }
}

/** Where a card would like to stand: level with its line, or at the top of the column where it has none. */
function wishOf(card: HTMLElement, { view }: SectionEditor, top: number): number {
  const anchor = { block: card.dataset['block'] ?? '', offset: Number(card.dataset['offset'] ?? 0) };
  const { doc } = view.state;
  const note = card.dataset['note'] === 'yes' ? (blockAt(doc, anchor.block)?.at ?? null) : null;
  const position = note ?? positionOf(doc, anchor);
  if (position === null) return top;
  try {
    return view.coordsAtPos(outsideNote(doc.resolve(position))).top;
  } catch {
    return top;
  }
}

/** What stands in a note has no line of its own in the text: that of the note's reference is its line. */
function outsideNote($position: ResolvedPos): number {
  for (let depth = 1; depth <= $position.depth; depth++) {
    if ($position.node(depth).type.name === 'note') return $position.before(depth);
  }
  return $position.pos;
}

interface NoteCardProps {
  readonly editor: SectionEditor;
  readonly moved: Signal;
  readonly id: string;
  readonly number: number;
  readonly wanted: boolean;
  readonly onLeave: () => void;
}

function NoteCard({ editor, moved, id, number, wanted, onLeave }: NoteCardProps) {
  const mount = useRef<HTMLDivElement>(null);
  const inner = useRef<NoteEditor | null>(null);
  useEffect(() => {
    if (!mount.current) return undefined;
    const made = new NoteEditor(mount.current, editor, id, texts.margin.noteLabel(number));
    inner.current = made;
    const deaf = moved.listen(() => made.follow());
    return () => {
      deaf();
      made.dispose();
      inner.current = null;
    };
  }, [editor, moved, id, number]);
  useEffect(() => {
    if (wanted) inner.current?.view.focus();
  }, [wanted]);
  const drop = (): void => {
    const note = blockAt(editor.view.state.doc, id);
    if (note) editor.view.dispatch(editor.view.state.tr.delete(note.at, note.at + note.node.nodeSize));
    editor.view.focus();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the note's own text takes the keys; Escape leads back from it
    <div
      className="card note-card"
      data-block={id}
      data-note="yes"
      onBlur={onLeave}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        editor.selectNode(id);
        editor.view.focus();
      }}
    >
      <span className="note-number" aria-hidden="true">
        {number}
      </span>
      <div ref={mount} />
      <IconButton icon="close" name={texts.margin.dropNote} onPress={drop} />
    </div>
  );
}

interface FindingCardProps {
  readonly finding: Finding<Change>;
  /** Puts the focus into the text. */
  readonly toText: () => void;
}

function FindingCard({ finding, toText }: FindingCardProps): ReactNode {
  const { books } = useWorkbench();
  const { problem } = useTools();
  const [muting, setMuting] = useState(false);
  const { at, severity, message, fix } = finding;
  const mend = (): void => {
    const made = fix ? books.apply(fix, { origin: 'finding' }) : null;
    if (made && !made.ok) problem(made.problem);
  };
  return (
    <div className={`card finding-card ${severity}`} data-block={at?.block} data-offset={at?.offset ?? 0}>
      <p>
        <Icon name={severity} />
        <span className="unseen">{texts.margin.severities[severity]}: </span>
        {message}
      </p>
      {fix && (
        <Button look="bare" onPress={mend}>
          {texts.margin.fix}
        </Button>
      )}
      <Button look="bare" onPress={() => setMuting(true)}>
        {texts.margin.mute}
      </Button>
      {muting && <MuteDialog finding={finding} onClose={() => setMuting(false)} toFocus={toText} />}
    </div>
  );
}
