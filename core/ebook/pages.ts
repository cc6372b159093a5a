/**
 * The print edition's page breaks. In: where its pages begin; out: a marker at each of those places that this edition
 * has too, and the list of all markers in reading order. A page whose first character is not in this edition has none
 * (EPUB Accessibility 1.1, "page breaks": pages that are not reproduced need no entry).
 */
import type { PageStart } from './types.ts';
import { escapeAttribute } from './xml.ts';

/** A marker that has been written. */
export interface PageMark {
  readonly label: string;
  /** Path from the package document, with the marker's id as fragment. */
  readonly href: string;
}

export class PageBreaks {
  private readonly byBlock = new Map<string, { readonly start: PageStart; readonly id: string }[]>();
  private readonly marks: PageMark[] = [];

  constructor(starts: readonly PageStart[]) {
    const used = new Set<string>();
    for (const start of starts) {
      const list = this.byBlock.get(start.block);
      const entry = { start, id: markerId(start.label, used) };
      if (list) list.push(entry);
      else this.byBlock.set(start.block, [entry]);
    }
    for (const list of this.byBlock.values()) list.sort((a, b) => a.start.offset - b.start.offset);
  }

  /** The offsets at which pages begin inside a block, ascending, or null for none. */
  offsetsIn(block: string): readonly number[] | null {
    return this.byBlock.get(block)?.map((entry) => entry.start.offset) ?? null;
  }

  /** Writes the `index`th marker of a block, to stand in the file `path`. */
  write(block: string, index: number, path: string): string {
    const entry = this.byBlock.get(block)?.[index];
    if (!entry) throw new RangeError(`no page break ${index} in block ${block}`);
    this.marks.push({ label: entry.start.label, href: `${path}#${entry.id}` });
    return markerElement(entry.id, entry.start.label);
  }

  /** Writes all markers of a block at once, for blocks that are no text. */
  writeAll(block: string, path: string): string {
    let out = '';
    const count = this.byBlock.get(block)?.length ?? 0;
    for (let index = 0; index < count; index++) out += this.write(block, index, path);
    return out;
  }

  /**
   * Writes the markers of the pages that begin with a block's first character, to stand before something that comes
   * before the block (its heading). The block itself then has them no more.
   */
  writeFirst(block: string, path: string): string {
    const list = this.byBlock.get(block) ?? [];
    const count = list.filter((entry) => entry.start.offset <= 0).length;
    let out = '';
    for (let index = 0; index < count; index++) out += this.write(block, index, path);
    list.splice(0, count);
    return out;
  }

  /** Every marker written so far, in the order of writing. */
  get written(): readonly PageMark[] {
    return this.marks;
  }
}

/** An empty element named by its page, so that the number is not read out with the text (FACTS E-60, E-61). */
function markerElement(id: string, label: string): string {
  return `<span id="${id}" epub:type="pagebreak" role="doc-pagebreak" aria-label="${escapeAttribute(label)}"></span>`;
}

function markerId(label: string, used: Set<string>): string {
  const stem = `x-page-${label.replace(/[^A-Za-z0-9.-]/g, '_')}`;
  let id = stem;
  for (let count = 2; used.has(id); count++) id = `${stem}_${count}`;
  used.add(id);
  return id;
}
