/**
 * What a page says, for those who do not see it: the canvas has nothing that can be read out. In: a page and the section
 * that it shows; out: its blocks in their order, as what they are.
 */
import type { Node } from 'prosemirror-model';
import type { GlyphRun, Page } from '#page';

export interface PageReading {
  /** The block's id; a page has each once. */
  readonly block: string;
  readonly kind: 'heading' | 'paragraph' | 'picture';
  readonly text: string;
}

const HEADINGS: ReadonlySet<string> = new Set(['sectionTitle', 'heading']);

export function readPage(page: Page, section: Node | null): readonly PageReading[] {
  const headings = headingsOf(section);
  const read: { block: string; kind: PageReading['kind']; pieces: Pieces }[] = [];
  for (const item of page.items) {
    if (item.kind === 'image' && item.alt !== '' && !item.furniture) {
      read.push({ block: item.at.block, kind: 'picture', pieces: new Pieces(item.alt) });
    }
    if (item.kind !== 'glyphs' || item.furniture || item.text === '') continue;
    const block = item.at?.block ?? '';
    const last = read.at(-1);
    if (last?.block === block && last.kind !== 'picture') last.pieces.add(item);
    else {
      const pieces = new Pieces('');
      pieces.add(item);
      read.push({ block, kind: headings.has(block) ? 'heading' : 'paragraph', pieces });
    }
  }
  return read.map(({ block, kind, pieces }) => ({ block, kind, text: pieces.whole })).filter(({ text }) => text !== '');
}

function headingsOf(section: Node | null): ReadonlySet<string> {
  const found = new Set<string>();
  section?.forEach((child) => {
    if (HEADINGS.has(child.type.name)) found.add(String(child.attrs['id']));
  });
  return found;
}

/** The runs of a block, whose divided words become whole again. */
class Pieces {
  private last: GlyphRun | null = null;

  constructor(private text: string) {}

  add(item: GlyphRun): void {
    const { last } = this;
    const sameLine = last !== null && Math.abs(item.y - last.y) < item.size * 0.6;
    if (last && !sameLine && !this.text.endsWith('\u00AD') && !this.text.endsWith(' ')) this.text += ' ';
    this.text = (this.text.endsWith('\u00AD') && !sameLine ? this.text.slice(0, -1) : this.text) + item.text;
    this.last = item;
  }

  get whole(): string {
    return this.text
      .replace(/\u00AD$/, '')
      .replace(/\s+/g, ' ')
      .trim();
  }
}
