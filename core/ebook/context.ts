/**
 * What the writers of one ebook share (`BookContext`) and what the writers of one of its files share (`FileContext`):
 * which ids are taken, where page breaks fall, which pictures are used.
 */
import type { Node } from 'prosemirror-model';
import type { EditionView, ViewNote } from '#book';
import type { EbookDesign } from '#design';
import { elementIdOf } from './names.ts';
import type { PageBreaks } from './pages.ts';
import type { Pictures } from './pictures.ts';
import type { EbookWords } from './words.ts';

export interface BookContext {
  readonly view: EditionView;
  readonly design: EbookDesign;
  /** The book's language, a well-formed tag. */
  readonly language: string;
  readonly words: EbookWords;
  readonly pages: PageBreaks;
  readonly pictures: Pictures;
  /** The file (a name in the text folder) that holds a block, note or section, or undefined. */
  readonly fileOf: (id: string) => string | undefined;
  /** The file that holds a note. */
  readonly noteFileOf: (note: ViewNote) => string;
  /** The file that holds the reference of a note. */
  readonly referenceFileOf: (note: ViewNote) => string;
}

export class FileContext {
  private readonly taken = new Set<string>();

  /**
   * @param name the file as seen from the text folder.
   * @param path the file as seen from the package document.
   */
  constructor(
    readonly book: BookContext,
    readonly name: string,
    readonly path = `${TEXT_FOLDER}/${name}`,
  ) {}

  /** ` id="..."` for a block, or nothing where it has no id or the file has that id already. */
  idAttribute(id: unknown): string {
    if (typeof id !== 'string' || id === '') return '';
    const element = elementIdOf(id);
    if (this.taken.has(element)) return '';
    this.taken.add(element);
    return ` id="${element}"`;
  }

  /** The markers of the pages that begin with a block that is no text. */
  pageBreaksAt(id: unknown): string {
    return typeof id === 'string' ? this.book.pages.writeAll(id, this.path) : '';
  }

  /** The markers of the pages that begin with a text block's first character, to stand before its heading. */
  firstPageBreaksOf(textblock: Node): string {
    return this.book.pages.writeFirst(String(textblock.attrs['id'] ?? ''), this.path);
  }

  /** The address of a block, note or section that stands in the file `target`, as seen from this one. */
  addressOf(target: string, id: string): string {
    return `${target === this.name ? '' : target}#${elementIdOf(id)}`;
  }
}

/** Where the text files stand, from the package document. */
export const TEXT_FOLDER = 'text';
