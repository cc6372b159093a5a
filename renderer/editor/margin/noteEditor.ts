/**
 * A note, edited in the margin. In: the editor of the section and a note's id; out: a small editor over the note's own
 * content, whose steps go into the section at the note's place, and come back from it.
 */

import type { Transaction } from 'prosemirror-state';
import { EditorState } from 'prosemirror-state';
import { StepMap } from 'prosemirror-transform';
import { EditorView } from 'prosemirror-view';
import type { SectionEditor } from '../sectionEditor.ts';
import { textKeys } from '../text/keys.ts';
import { cleanedHtml, clipboardParser, clipboardSerializer } from '../text/paste.ts';
import { blockAt } from '../text/places.ts';
import { FROM_BOOK, levelled } from '../text/section.ts';
import { typingPlugin } from '../text/typing.ts';

export class NoteEditor {
  readonly view: EditorView;

  constructor(
    mount: HTMLElement,
    private readonly outer: SectionEditor,
    private readonly id: string,
    label: string,
  ) {
    const note = blockAt(outer.view.state.doc, id);
    if (!note) throw new RangeError(`the section has no note ${id}`);
    const { language } = outer.book.metadata;
    this.view = new EditorView(
      { mount },
      {
        state: EditorState.create({ doc: note.node, plugins: [typingPlugin(language), textKeys()] }),
        attributes: {
          'aria-label': label,
          'aria-multiline': 'true',
          role: 'textbox',
          lang: language,
          spellcheck: outer.view.dom.getAttribute('spellcheck') ?? 'true',
          class: 'note-text',
        },
        clipboardParser,
        clipboardSerializer,
        transformPastedHTML: cleanedHtml,
        handleKeyDown: (_view, event) => outer.takeKeys(event),
        handleDOMEvents: {
          focus: () => {
            outer.enterNote(this);
          },
        },
        dispatchTransaction: (transaction) => this.dispatch(transaction),
      },
    );
  }

  /** Takes in what the note has become in the section. */
  follow(): void {
    const note = blockAt(this.outer.view.state.doc, this.id);
    const transaction = note && levelled(this.view.state, note.node);
    if (transaction) this.view.dispatch(transaction);
  }

  dispose(): void {
    this.outer.leaveNote(this);
    this.view.destroy();
  }

  private dispatch(transaction: Transaction): void {
    const { state, transactions } = this.view.state.applyTransaction(transaction);
    this.view.updateState(state);
    if (transaction.getMeta(FROM_BOOK)) return;
    const note = blockAt(this.outer.view.state.doc, this.id);
    if (!note) return;
    const inSection = this.outer.view.state.tr;
    const moved = StepMap.offset(note.at + 1);
    for (const { steps } of transactions) {
      for (const step of steps) {
        const mapped = step.map(moved);
        if (mapped) inSection.step(mapped);
      }
    }
    if (inSection.docChanged) this.outer.view.dispatch(inSection);
    // The section may have given ids to new paragraphs.
    this.follow();
  }
}
