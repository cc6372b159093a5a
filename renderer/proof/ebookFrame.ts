/**
 * The ebook's screen: the exported document in a frame that runs no script, turned by columns and measured from outside. In:
 * a section's proof and how it is looked at; out: its pages, and the way from points to places in the text and back.
 */
import type { Anchor, AssetId } from '#base';
import type { SectionProof } from '#ebook';
import { anchorOfCaret, blockOf, type CaretPlace, placeOfAnchor } from './ebookPlaces.ts';
import { readingSheet, type ScreenLook } from './readingSheet.ts';

/** What stands in the frame before a document does: standards mode, nothing else. */
export const EMPTY_DOCUMENT = '<!DOCTYPE html><html lang="en"><head><title>Ebook</title></head><body></body></html>';

export interface EbookFrameParts {
  readonly frame: HTMLIFrameElement;
  readonly addressOf: (asset: AssetId) => string | null;
  /** The window's own address, to which fonts are relative. */
  readonly base: string;
  /** The number of pages or the page shown has changed. */
  readonly onPages: () => void;
}

export class EbookFrame {
  private proof: SectionProof | null = null;
  private look: ScreenLook | null = null;
  private bookSheet: CSSStyleSheet | null = null;
  private readingSheet: CSSStyleSheet | null = null;
  private ornaments: string[] = [];
  private shown = 0;
  private pages = 1;
  private beginning: 'start' | 'end' = 'start';

  constructor(private readonly parts: EbookFrameParts) {}

  /** The page that is shown, from 0. */
  get page(): number {
    return this.shown;
  }

  get count(): number {
    return this.pages;
  }

  /** Puts a document into the frame; the same section stays on its page, another begins at its first. */
  show(proof: SectionProof): void {
    const same = this.proof?.section === proof.section;
    const sameStyle = this.proof?.css === proof.css;
    this.proof = proof;
    if (!sameStyle) this.dress(proof);
    this.fill(proof);
    if (!same) this.shown = 0;
    this.measure();
    if (!same && this.beginning === 'end') this.turnTo(this.pages - 1);
    if (!same) this.beginning = 'start';
  }

  /** At which end the next section is opened. */
  beginAt(end: 'start' | 'end'): void {
    this.beginning = end;
  }

  /** Looks at the same document another way, staying at the words that stand at the top. */
  lookAs(look: ScreenLook): void {
    const top = this.proof ? this.topAnchor() : null;
    this.look = look;
    this.readingSheet ??= this.newSheet();
    this.readingSheet?.replaceSync(readingSheet(look));
    this.adopt();
    this.measure();
    if (top) this.goTo(top);
  }

  turnTo(page: number): void {
    this.shown = Math.max(0, Math.min(this.pages - 1, page));
    this.place();
    this.parts.onPages();
  }

  /** Turns to the page on which a place of the text stands; false where the document does not have it. */
  goTo(anchor: Anchor): boolean {
    const box = this.boxOf(anchor);
    if (!box || !this.look) return false;
    const page = this.shown + Math.floor((box.left + 1) / this.look.width) * this.direction;
    this.turnTo(page);
    return true;
  }

  /** The place in the text under a point of the screen, in its own pixels. */
  anchorAt(x: number, y: number): Anchor | null {
    const caret = this.document?.caretPositionFromPoint(x, y);
    return caret ? anchorOfCaret(caret as CaretPlace) : null;
  }

  /** The place in the text at the top of the screen. */
  topAnchor(): Anchor | null {
    return this.look && this.anchorAt(this.look.side + 2, this.look.above + 2);
  }

  /** Whether a box of the document is on the screen that is shown. */
  isShown(box: DOMRect): boolean {
    return this.look !== null && box.left >= 0 && box.left < this.look.width;
  }

  /** The block that an address inside the ebook leads to, or null. */
  blockOfLink(href: string): string | null {
    const id = /^[^:]*#(.+)$/.exec(href)?.[1];
    return id === undefined ? null : blockOf(id);
  }

  /** Where a link under a point leads, or null. */
  linkAt(x: number, y: number): string | null {
    return this.document?.elementFromPoint(x, y)?.closest('a')?.getAttribute('href') ?? null;
  }

  /** Where a place of the text stands on the screen, in its own pixels; null where the document does not have it. */
  boxOf(anchor: Anchor): DOMRect | null {
    const place = this.document && placeOfAnchor(this.document, anchor);
    return place ? boxOfCaret(place) : null;
  }

  dispose(): void {
    this.forgetOrnaments();
  }

  private get document(): Document | null {
    return this.parts.frame.contentDocument;
  }

  /** Columns go on to the left where the text is read from the right. */
  private get direction(): 1 | -1 {
    return this.document?.documentElement.dir === 'rtl' ? -1 : 1;
  }

  /** A sheet of the frame's own document: no other may be adopted there. */
  private newSheet(): CSSStyleSheet | null {
    const view = this.parts.frame.contentWindow as (Window & { readonly CSSStyleSheet: typeof CSSStyleSheet }) | null;
    return view ? new view.CSSStyleSheet({ baseURL: this.parts.base }) : null;
  }

  private adopt(): void {
    const sheets = [this.bookSheet, this.readingSheet].filter((sheet) => sheet !== null);
    if (this.document) this.document.adoptedStyleSheets = sheets;
  }

  private dress({ css, ornaments, mark }: SectionProof): void {
    this.forgetOrnaments();
    let own = css;
    for (const { href, svg } of ornaments) {
      const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
      this.ornaments.push(address);
      own = own.replaceAll(`url("${href}")`, `url("${address}")`);
    }
    const address = mark && this.parts.addressOf(mark.asset);
    if (mark && address)
      own = own.replaceAll(`url("${mark.href}")`, `url("${new URL(address, this.parts.base).href}")`);
    this.bookSheet = this.newSheet();
    this.bookSheet?.replaceSync(own);
    this.adopt();
  }

  private forgetOrnaments(): void {
    for (const address of this.ornaments) URL.revokeObjectURL(address);
    this.ornaments = [];
  }

  private fill(proof: SectionProof): void {
    const { document } = this;
    if (!document) return;
    const made = new DOMParser().parseFromString(proof.xhtml, 'application/xhtml+xml');
    const { body, documentElement: root } = made;
    if (!body) throw new RangeError('the ebook wrote a document without a body');
    this.hangPictures(body, proof);
    const own = document.documentElement;
    own.lang = root.lang;
    own.dir = root.dir;
    document.title = proof.title;
    document.body.replaceWith(document.importNode(body, true));
    for (const image of document.images) image.addEventListener('load', () => this.measure());
  }

  /** Pictures by address; widths through the object model, since the window's policy allows no style written in a document. */
  private hangPictures(body: HTMLElement, { pictures }: SectionProof): void {
    const addresses = new Map(pictures.map(({ src, asset }) => [src, this.parts.addressOf(asset)]));
    for (const image of body.querySelectorAll('img')) {
      const address = addresses.get(image.getAttribute('src') ?? '');
      if (address) image.setAttribute('src', new URL(address, this.parts.base).href);
      else image.removeAttribute('src');
      const width = /width:\s*(\d+)%/.exec(image.getAttribute('style') ?? '')?.[1];
      image.removeAttribute('style');
      if (width) image.setAttribute('width', `${width}%`);
    }
  }

  private measure(): void {
    const { document, look } = this;
    if (!document || !look) return;
    // Measured untouched: what was moved counts as it stands.
    document.body.style.transform = '';
    this.pages = Math.max(1, Math.ceil((document.body.scrollWidth - 1) / look.width));
    this.shown = Math.min(this.shown, this.pages - 1);
    this.place();
    this.parts.onPages();
  }

  private place(): void {
    const { document, look } = this;
    if (!document || !look) return;
    const across = -this.shown * look.width * this.direction;
    document.body.style.transform = this.shown === 0 ? '' : `translateX(${across}px)`;
  }
}

/** A caret's own box, or that of what it stands beside. */
function boxOfCaret({ offsetNode: node, offset }: CaretPlace): DOMRect {
  const range = node.ownerDocument!.createRange();
  if (node.nodeType === Node.TEXT_NODE) {
    const length = node.nodeValue?.length ?? 0;
    const from = Math.min(offset, Math.max(0, length - 1));
    range.setStart(node, from);
    range.setEnd(node, Math.min(length, from + 1));
    const [first] = range.getClientRects();
    if (first) return first;
  }
  // A node of the frame is no instance of this window's classes.
  const element = node.nodeType === Node.ELEMENT_NODE ? (node as Element) : node.parentElement;
  return (element ?? node.ownerDocument!.documentElement).getBoundingClientRect();
}
