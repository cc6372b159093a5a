/**
 * The editor of one section at a time. In: the stores of the window and a place on the page; out: ProseMirror over the very
 * section of the book. What is typed becomes a change of the book; what changes the book from elsewhere comes in by steps.
 */
import type { Node } from 'prosemirror-model';
import { Fragment, Slice } from 'prosemirror-model';
import {
  type Command,
  EditorState,
  NodeSelection,
  Selection,
  TextSelection,
  type Transaction,
} from 'prosemirror-state';
import { EditorView } from 'prosemirror-view';
import type { Anchor, SectionId } from '#base';
import { type Book, type Change, type Json, schema } from '#book';
import type { CommandId } from '#host';
import type { Workbench } from '../state/index.ts';
import { decorationsPlugin, type Marked, markedKey } from './text/decorations.ts';
import { idsPlugin } from './text/ids.ts';
import { textKeys } from './text/keys.ts';
import { cleanedHtml, clipboardParser, clipboardSerializer, plainParagraphs } from './text/paste.ts';
import { anchorOf, blockAt, idOf, positionOf } from './text/places.ts';
import { TypingRuns } from './text/runs.ts';
import { FROM_BOOK, headDiffers, levelled } from './text/section.ts';
import { typingPlugin } from './text/typing.ts';
import { nodeViews, numberNotes, type ViewParts } from './text/views.ts';

/** The word under which a transaction is undone together with what came before it. */
const MERGE = 'merge';

/** Whose changes and places these are. */
export const EDITOR = 'editor';

export interface EditorParts {
  readonly workbench: Pick<Workbench, 'books' | 'place'>;
  readonly views: ViewParts;
  readonly limited: (editions: readonly string[]) => string;
  readonly label: string;
  readonly spellCheck: boolean;
  readonly problem: (sentence: string) => void;
  /** The command that a key press asks for, null for none; and how it is carried out. */
  readonly commandFor: (event: KeyboardEvent) => CommandId | null;
  readonly runCommand: (command: CommandId) => void;
  /** Told after every transaction, so that the margin can follow. */
  readonly moved: () => void;
  readonly now: () => number;
}

export class SectionEditor {
  readonly view: EditorView;
  private section: SectionId;
  private readonly runs: TypingRuns;
  /** What the fields in the text were filled from. */
  private shown: Pick<Book, 'metadata' | 'editions'>;
  /** The note that is being written, if the cursor is in one. */
  private inNote: { readonly view: EditorView } | null = null;

  constructor(
    mount: HTMLElement,
    section: SectionId,
    private readonly parts: EditorParts,
  ) {
    this.section = section;
    this.shown = this.book;
    this.runs = new TypingRuns(parts.now);
    const { label, spellCheck, views } = parts;
    this.view = new EditorView(
      { mount },
      {
        state: this.freshState(),
        nodeViews: nodeViews(views),
        attributes: {
          'aria-label': label,
          'aria-multiline': 'true',
          role: 'textbox',
          lang: this.book.metadata.language,
          spellcheck: String(spellCheck),
          class: 'copy',
        },
        clipboardParser,
        clipboardSerializer,
        transformPastedHTML: cleanedHtml,
        clipboardTextParser: (text, $context) => plainSlice(text, $context.parent.isTextblock),
        // ProseMirror keeps some keys from the browser's own editing: the window's commands come before it.
        handleKeyDown: (_view, event) => this.takeKeys(event),
        handleDOMEvents: {
          focus: () => {
            this.inNote = null;
          },
        },
        dispatchTransaction: (transaction) => this.dispatch(transaction),
      },
    );
    numberNotes(this.view.dom, views);
  }

  /** Carries out the window's command for a key press, in the section or in a note of it; whether there was one. */
  takeKeys(event: KeyboardEvent): boolean {
    const command = this.parts.commandFor(event);
    if (command !== null) this.parts.runCommand(command);
    return command !== null;
  }

  get book(): Book {
    return this.parts.workbench.books.current.book;
  }

  get sectionId(): SectionId {
    return this.section;
  }

  /** Where the cursor is: in the section, or in a note of it. */
  get active(): { readonly view: EditorView } {
    return this.inNote ?? this;
  }

  /** A note has the cursor now, until the section has it again: a menu that is opened between leaves it be. */
  enterNote(note: { readonly view: EditorView }): void {
    this.inNote = note;
  }

  leaveNote(note: { readonly view: EditorView }): void {
    if (this.inNote === note) this.inNote = null;
  }

  /**
   * Carries a command out on the selection; whether it could.
   * @param merge what was done to the book under this word just before is undone together with it.
   */
  run(command: Command, merge: string | null = null): boolean {
    const dispatch = (transaction: Transaction): void => this.view.dispatch(transaction.setMeta(MERGE, merge));
    return command(this.view.state, dispatch, this.view);
  }

  can(command: Command): boolean {
    return command(this.view.state, undefined, this.view);
  }

  /** Shows a place of the section and puts the cursor there. */
  show(anchor: Anchor, focus: boolean): void {
    const position = positionOf(this.view.state.doc, anchor);
    if (position === null) return;
    const { doc, tr } = this.view.state;
    const $at = doc.resolve(Math.min(position, doc.content.size));
    const selection = $at.parent.isTextblock ? TextSelection.create(doc, $at.pos) : Selection.near($at);
    this.view.dispatch(tr.setSelection(selection).scrollIntoView());
    if (focus) this.view.focus();
    // The library scrolls to a selection that has the focus; who walks through a list of places keeps it there.
    if (!this.view.hasFocus()) this.reveal(selection.head);
  }

  /** Scrolls to a place that is out of view. Heights above it are guesses until they come into view: it looks again then. */
  private reveal(position: number, again = true): void {
    const scroller = this.view.dom.closest('.copy-scroll');
    if (!scroller || position > this.view.state.doc.content.size) return;
    const { top, height } = scroller.getBoundingClientRect();
    const place = this.view.coordsAtPos(position);
    if (place.top >= top && place.bottom <= top + height) return;
    scroller.scrollTop += place.top - top - height / 3;
    if (again) requestAnimationFrame(() => this.view.isDestroyed || this.reveal(position, false));
  }

  /** Selects a note's reference. */
  selectNode(id: string): void {
    const found = blockAt(this.view.state.doc, id);
    if (!found) return;
    this.view.dispatch(this.view.state.tr.setSelection(NodeSelection.create(this.view.state.doc, found.at)));
  }

  /** Hits of a search and places of findings. */
  mark(marked: Marked): void {
    this.view.dispatch(this.view.state.tr.setMeta(markedKey, marked));
  }

  /** Takes in what the book has become, unless it came from here. */
  follow(origin: string): void {
    const section = this.sectionNode();
    if (!section || origin === EDITOR) return;
    this.refillFields();
    if (headDiffers(this.view.state.doc, section)) {
      this.view.updateState(this.freshState(this.view.state.selection.head));
      numberNotes(this.view.dom, this.parts.views);
      return;
    }
    const transaction = levelled(this.view.state, section);
    if (transaction) this.view.dispatch(transaction);
  }

  dispose(): void {
    this.view.destroy();
  }

  /** Fields say what the book details and the editions say. */
  private refillFields(): void {
    const { metadata, editions } = this.book;
    if (metadata === this.shown.metadata && editions === this.shown.editions) return;
    this.shown = { metadata, editions };
    this.view.setProps({ nodeViews: nodeViews(this.parts.views) });
    numberNotes(this.view.dom, this.parts.views);
  }

  private dispatch(transaction: Transaction): void {
    const { state, transactions } = this.view.state.applyTransaction(transaction);
    const fromBook = transactions.some((each) => each.getMeta(FROM_BOOK) === true);
    const steps = transactions.flatMap((each) => each.steps);
    if (
      steps.length > 0 &&
      !fromBook &&
      !this.tell(
        transaction,
        steps.map((step) => step.toJSON() as Json),
      )
    )
      return;
    this.view.updateState(state);
    numberNotes(this.view.dom, this.parts.views);
    if (transactions.some((each) => each.selectionSet || each.docChanged) && !fromBook) this.tellPlace(state);
    this.parts.moved();
  }

  /** Makes the book what the editor is about to be; false where the book refuses. */
  private tell(transaction: Transaction, steps: readonly Json[]): boolean {
    const { books } = this.parts.workbench;
    const change: Change = { kind: 'editText', section: this.section, steps };
    const run = this.runs.keyOf(transaction, this.view.state);
    const merge = (transaction.getMeta(MERGE) as string | null | undefined) ?? run;
    const made = books.apply(change, { origin: EDITOR, ...(merge === null ? {} : { merge }) });
    if (!made.ok) this.parts.problem(made.problem);
    return made.ok;
  }

  private tellPlace({ selection, doc }: EditorState): void {
    if (!this.view.hasFocus()) return;
    this.parts.workbench.place.follow(this.section, anchorOf(selection.$head, doc), EDITOR);
  }

  private sectionNode(): Node | null {
    return this.book.text.children.find((each) => each.attrs['id'] === this.section) ?? null;
  }

  private freshState(cursor = 0): EditorState {
    const doc = this.sectionNode();
    if (!doc) throw new RangeError(`the book has no section ${this.section}`);
    const language = this.book.metadata.language;
    return EditorState.create({
      doc,
      selection: Selection.near(doc.resolve(Math.min(cursor, doc.content.size))),
      plugins: [
        typingPlugin(language),
        textKeys(),
        idsPlugin((id) => this.isElsewhere(id)),
        decorationsPlugin(this.parts.limited),
      ],
    });
  }

  private isElsewhere(id: string): boolean {
    return this.book.text.children.some(
      (section) => section.attrs['id'] !== this.section && (idOf(section) === id || blockAt(section, id) !== null),
    );
  }
}

/** Plain text as it is pasted: into the line where it is one paragraph, else as paragraphs. */
function plainSlice(text: string, inline: boolean): Slice {
  const paragraphs = plainParagraphs(text);
  const nodes = paragraphs.map((each) => schema.nodes.paragraph.create(null, schema.text(each)));
  const open = inline && nodes.length > 0 ? 1 : 0;
  return new Slice(Fragment.from(nodes), open, open);
}
