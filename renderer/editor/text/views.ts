/**
 * How blocks look in the text that is edited, where the schema's plain elements say too little: classes for forms and
 * indents, filled-in fields, numbers for notes, pictures. In: nodes; out: node views of ProseMirror.
 */
import type { Node } from 'prosemirror-model';
import type { NodeView, NodeViewConstructor } from 'prosemirror-view';
import type { FieldName, NodeName, SetOffForm } from '#book';

export interface ViewParts {
  /** What a field says in the edition that is looked at. */
  readonly field: (name: FieldName) => string;
  /** The address of a picture's bytes. */
  readonly picture: (asset: string) => string;
  readonly words: {
    readonly note: (number: number) => string;
    readonly sceneBreak: string;
    readonly verse: string;
    readonly epigraph: string;
    readonly forms: Readonly<Record<SetOffForm, string>>;
    readonly noAlt: string;
    readonly decorative: string;
    readonly field: (name: string) => string;
  };
  /** Opens a picture's settings. */
  readonly editFigure: (id: string) => void;
  /** Puts the cursor into a note. */
  readonly openNote: (id: string) => void;
}

type Views = { [Name in NodeName]?: NodeViewConstructor };

export function nodeViews(parts: ViewParts): Views {
  const { words } = parts;
  return {
    paragraph: (node) => new Paragraph(node, 'p', ({ attrs }) => (attrs['align'] ? `align-${attrs['align']}` : '')),
    verse: (node) => new NamedShell(node, 'div', { classOf: () => 'verse', nameOf: () => words.verse }),
    stanza: (node) => new Shell(node, 'div', () => 'stanza'),
    verseLine: (node) => new Shell(node, 'p', ({ attrs }) => `verse-line indent-${attrs['indent']}`),
    setOff: (node) =>
      new NamedShell(node, 'div', {
        classOf: ({ attrs }) => `set-off form-${attrs['form']}`,
        nameOf: ({ attrs }) => words.forms[attrs['form'] as SetOffForm],
      }),
    epigraph: (node) => new NamedShell(node, 'blockquote', { classOf: () => 'epigraph', nameOf: () => words.epigraph }),
    quotation: (node) => new Shell(node, 'blockquote', () => 'quotation'),
    attribution: (node) => new Shell(node, 'p', () => 'attribution'),
    tableRow: (node) => new Shell(node, 'tr', ({ attrs }) => (attrs['header'] ? 'header-row' : '')),
    sectionTitle: (node) => new Shell(node, 'h1', () => 'section-title'),
    sectionSubtitle: (node) => new Shell(node, 'p', () => 'section-subtitle'),
    sceneBreak: (node) => new SceneBreakView(node, parts),
    field: (node) => new FieldView(node, parts),
    note: (node) => new NoteView(node, parts),
    figure: (node) => new FigureView(node, parts),
  };
}

/** An element around a node's content, with a class that follows its attributes. */
class Shell implements NodeView {
  readonly dom: HTMLElement;
  readonly contentDOM: HTMLElement;

  constructor(
    protected node: Node,
    tag: string,
    private readonly classOf: (node: Node) => string,
  ) {
    this.dom = document.createElement(tag);
    this.contentDOM = this.dom;
    this.dress();
  }

  update(node: Node): boolean {
    if (node.type !== this.node.type) return false;
    this.node = node;
    this.dress();
    return true;
  }

  protected dress(): void {
    const wanted = this.classOf(this.node);
    if (this.dom.className !== wanted && !(wanted === '' && !this.dom.className)) this.dom.className = wanted;
  }
}

interface NamedLook {
  readonly classOf: (node: Node) => string;
  readonly nameOf: (node: Node) => string;
}

/** A block whose kind shows in its look alone: a group with a name says it to those who do not see it. */
class NamedShell extends Shell {
  private readonly nameOf: (node: Node) => string;

  constructor(node: Node, tag: string, { classOf, nameOf }: NamedLook) {
    super(node, tag, classOf);
    this.nameOf = nameOf;
    if (tag === 'div') this.dom.setAttribute('role', 'group');
    this.dress();
  }

  protected override dress(): void {
    super.dress();
    // The first dressing comes before the name is known.
    const name = this.nameOf?.(this.node);
    if (name && this.dom.getAttribute('aria-label') !== name) this.dom.setAttribute('aria-label', name);
  }
}

/** Characters on a line of the text's measure, about. */
const LINE = 64;

/** A paragraph out of view is not laid out: how high it may be is guessed from its length, for the scroll bar. */
class Paragraph extends Shell {
  private lines = 0;

  protected override dress(): void {
    super.dress();
    const lines = Math.max(1, Math.ceil(this.node.content.size / LINE));
    if (lines === this.lines) return;
    this.lines = lines;
    this.dom.style.setProperty('--lines', String(lines));
  }
}

class SceneBreakView implements NodeView {
  readonly dom = document.createElement('div');

  constructor(
    private node: Node,
    { words }: ViewParts,
  ) {
    this.dom.setAttribute('role', 'separator');
    this.dom.setAttribute('aria-label', words.sceneBreak);
    this.dom.contentEditable = 'false';
    this.update(node);
  }

  update(node: Node): boolean {
    if (node.type !== this.node.type) return false;
    this.node = node;
    this.dom.className = `scene-break ${node.attrs['mark'] === 'space' ? 'white' : 'marked'}`;
    return true;
  }

  ignoreMutation(): boolean {
    return true;
  }
}

class FieldView implements NodeView {
  readonly dom = document.createElement('span');

  constructor(
    private node: Node,
    private readonly parts: ViewParts,
  ) {
    this.dom.className = 'field-text';
    this.fill();
  }

  update(node: Node): boolean {
    if (node.type !== this.node.type) return false;
    this.node = node;
    this.fill();
    return true;
  }

  private fill(): void {
    const name = this.node.attrs['name'] as FieldName;
    const { field, words } = this.parts;
    this.dom.textContent = field(name) || words.field(name);
    this.dom.title = words.field(name);
    this.dom.dataset['empty'] = field(name) === '' ? 'yes' : 'no';
  }
}

/** The reference of a note. Its number hangs on the notes before it: `numberNotes` writes all of them. */
class NoteView implements NodeView {
  readonly dom = document.createElement('button');

  constructor(
    private node: Node,
    parts: ViewParts,
  ) {
    this.dom.className = NOTE_MARK;
    this.dom.type = 'button';
    this.dom.tabIndex = -1;
    this.dom.addEventListener('click', () => parts.openNote(String(this.node.attrs['id'])));
  }

  update(node: Node): boolean {
    if (node.type !== this.node.type) return false;
    this.node = node;
    return true;
  }

  selectNode(): void {
    this.dom.classList.add('chosen');
  }

  deselectNode(): void {
    this.dom.classList.remove('chosen');
  }

  stopEvent(event: Event): boolean {
    return event.type === 'click';
  }

  ignoreMutation(): boolean {
    return true;
  }
}

const NOTE_MARK = 'note-mark';

/** Numbers the references of notes in the order in which they stand. */
export function numberNotes(text: HTMLElement, { words }: ViewParts): void {
  text.querySelectorAll(`.${NOTE_MARK}`).forEach((mark, at) => {
    const number = String(at + 1);
    if (mark.textContent === number) return;
    mark.textContent = number;
    mark.setAttribute('aria-label', words.note(at + 1));
  });
}

/** A picture with its caption; what it says to those who can't see it stands below it. */
class FigureView implements NodeView {
  readonly dom = document.createElement('figure');
  readonly contentDOM = document.createElement('div');
  private readonly image = document.createElement('img');
  private readonly alt = document.createElement('button');

  constructor(
    private node: Node,
    private readonly parts: ViewParts,
  ) {
    this.alt.type = 'button';
    this.alt.className = 'figure-alt';
    this.alt.contentEditable = 'false';
    this.image.contentEditable = 'false';
    this.alt.addEventListener('click', () => parts.editFigure(String(this.node.attrs['id'])));
    this.dom.append(this.image, this.contentDOM, this.alt);
    this.show();
  }

  update(node: Node): boolean {
    if (node.type !== this.node.type) return false;
    this.node = node;
    this.show();
    return true;
  }

  stopEvent(event: Event): boolean {
    return event.target === this.alt;
  }

  ignoreMutation(mutation: { readonly target: globalThis.Node }): boolean {
    return !this.contentDOM.contains(mutation.target);
  }

  private show(): void {
    const { asset, alt, decorative, width } = this.node.attrs;
    const { picture, words } = this.parts;
    const source = picture(String(asset));
    if (this.image.getAttribute('src') !== source) this.image.src = source;
    this.image.alt = String(alt);
    this.image.style.width = typeof width === 'number' ? `${width * 100}%` : '';
    this.alt.textContent = decorative ? words.decorative : String(alt) || words.noAlt;
    this.alt.classList.toggle('missing', !decorative && alt === '');
  }
}
