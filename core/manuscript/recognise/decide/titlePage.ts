/**
 * The manuscript's title page: title, subtitle, author, and what else authors put there. In: the items before the first
 * heading; out: the metadata found and the items that it used up, so that nothing is set twice and nothing goes unseen.
 */
import type { Base } from '../collect/base.ts';
import type { Item, Line } from '../collect/lines.ts';
import { isBigger } from '../evidence/candidates.ts';
import { phraseOf } from '../evidence/reading.ts';
import type { Vocabulary } from '../vocabulary/vocabulary.ts';
import { kindOfPage, type PageGroup, pageGroups } from './pages.ts';
import {
  ARTICLES,
  fitsTitlePage,
  isBareTitleLine,
  isContact,
  looksLikeName,
  type Particular,
  particularOf,
  sameWords,
  tallest,
} from './titleLines.ts';

export interface TitlePage {
  readonly title: string | null;
  readonly subtitle: string | null;
  readonly author: string | null;
  readonly translator: string | null;
  readonly used: ReadonlySet<number>;
  /** Lines that are neither title nor author: addresses, word counts, the name of a series. */
  readonly leftOver: readonly string[];
}

interface Clues {
  readonly title: string | null;
  readonly author: string | null;
}

/** So much stands above the first heading where it is nothing but title and author, by no style or word. */
const BARE_WORDS = 24;
const BARE_LINES = 4;
/** What `kindOfPage` says with no more confidence is a guess. */
const UNSURE = 0.6;

/** A page with more words is no title page. */
const LONGEST_PAGE = 90;

/** Where a line stands on the title page. */
interface PlaceOnPage {
  /** Below the title. */
  readonly below: boolean;
  /** Nothing but addresses and the like follows. */
  readonly last: boolean;
  readonly before: Line | undefined;
}

export interface TitlePageInput {
  readonly items: readonly Item[];
  /** The first item that is certainly not of the title page. */
  readonly end: number;
  /** The item that is the book's title because it is styled as a heading, null where none is. */
  readonly headed: number | null;
  readonly base: Base;
  readonly vocabulary: Vocabulary;
  readonly clues: Clues;
  readonly wordsBefore: Uint32Array;
  readonly dropped: ReadonlySet<number>;
}

export function readTitlePage(input: TitlePageInput): TitlePage {
  const finder = new TitlePageFinder(input);
  return finder.find();
}

/** Looks at page after page until one holds the title, and takes what stands before it along. */
class TitlePageFinder {
  private readonly used = new Set<number>();
  private readonly leftOver: string[] = [];
  /** Pages of addresses and word counts: set aside only where a title page follows. */
  private readonly contactPages: (readonly (readonly [number, Line])[])[] = [];
  private title: string | null = null;
  private subtitle: string | null = null;
  private author: string | null = null;
  private translator: string | null = null;

  constructor(private readonly input: TitlePageInput) {}

  find(): TitlePage {
    const { items, end, wordsBefore } = this.input;
    const groups = pageGroups(items, 0, end, wordsBefore).filter((group) => !this.isOfRights(group));
    for (const group of groups) this.readPage(group, groups);
    if (this.title === null) this.readBareTitle(groups[0]);
    if (this.title !== null) for (const page of this.contactPages) this.takeContacts(page);
    if (this.used.size === 0) this.readStyledLines();
    const { title, subtitle, author, translator, used, leftOver } = this;
    return { title, subtitle, author, translator, used, leftOver };
  }

  private readPage(group: PageGroup, groups: readonly PageGroup[]): void {
    if (group.words > LONGEST_PAGE || group.words === 0) return;
    const lines = this.linesOf(group);
    if (lines.length === 0) return;
    if (this.readLabelled(lines)) return;
    const titleAt = this.titleIn(lines, group, groups);
    if (titleAt !== null) this.takePage(lines, titleAt);
    else if (this.title === null && lines.some(([, line]) => isContact(line.plain))) this.contactPages.push(lines);
  }

  /** "Title: The Lamp", "Author: Ada Quill": a page of particulars under their names. */
  private readLabelled(lines: readonly (readonly [number, Line])[]): boolean {
    const found = lines.map(([, line]) => particularOf(line.plain));
    const said = (name: Particular['name']): string | null => found.find((each) => each?.name === name)?.value ?? null;
    const title = said('title');
    if (this.title !== null || title === null || found.filter((each) => each !== null).length < 2) return false;
    this.title = this.titleText(title);
    this.subtitle = said('subtitle');
    this.author = said('author');
    lines.forEach(([at, line], index) => {
      this.used.add(at);
      if (!found[index]?.name) this.leftOver.push(line.plain);
    });
    return true;
  }

  /** A copyright page or a list of books; some stand before the title page. */
  private isOfRights(group: PageGroup): boolean {
    const kind = kindOfPage(this.input.items, group, this.input.vocabulary)?.kind;
    return kind === 'copyright' || kind === 'alsoBy';
  }

  private linesOf(group: PageGroup): readonly (readonly [number, Line])[] {
    const lines: [number, Line][] = [];
    for (let at = group.from; at < group.to; at++) {
      const item = this.input.items[at];
      if (item?.kind === 'line' && item.words > 0 && !this.input.dropped.has(at)) lines.push([at, item]);
    }
    return lines;
  }

  /** Which line of the page is the title, null where the page is no title page. */
  private titleIn(
    lines: readonly (readonly [number, Line])[],
    group: PageGroup,
    groups: readonly PageGroup[],
  ): number | null {
    const { clues, base } = this.input;
    const find = (test: (line: Line) => boolean): number | null => {
      const at = lines.findIndex(([, line]) => test(line));
      return at === -1 ? null : at;
    };
    const wanted = this.title ?? clues.title;
    const named = wanted === null ? null : find((line) => sameWords(line.plain, wanted));
    const styled = find((line) => /^(?:title|book title)$/i.test(line.source.style ?? ''));
    if (this.title !== null) return named;
    const headed = lines.findIndex(([at]) => at === this.input.headed);
    if (headed >= 0) return headed;
    if (styled !== null || named !== null) return styled ?? named;
    const byLine = this.byLineIn(lines);
    if (byLine !== null && byLine > 0) return tallest(lines.slice(0, byLine));
    const last = groups[groups.length - 1];
    const apart = lines.every(([, line]) => line.centred && !base.centred) && group.words <= 40 && group === groups[0];
    const stands = lines.some(([, line]) => line.bold || line.capitals || isBigger(line, base));
    return apart && stands && (group !== last || this.input.end < this.input.items.length) ? tallest(lines) : null;
  }

  /**
   * A few short lines that open the manuscript are its title, and perhaps its author, where no page says so in another
   * way: a dedication begins like one, an epigraph quotes.
   */
  private readBareTitle(group: PageGroup | undefined): void {
    const { items, end, vocabulary } = this.input;
    if (group === undefined || group.words > BARE_WORDS || end === items.length) return;
    const lines = this.linesOf(group);
    const kind = kindOfPage(items, group, vocabulary);
    if (lines.length > BARE_LINES || kind === null || kind.confidence > UNSURE) return;
    if (!lines.every(([, line]) => isBareTitleLine(line))) return;
    const below = lines.findIndex(([, line], index) => index > 0 && this.saysMore(line));
    this.takePage(lines, tallest(below === -1 ? lines : lines.slice(0, below)));
  }

  private byLineIn(lines: readonly (readonly [number, Line])[]): number | null {
    const at = lines.findIndex(
      ([, line], index) => this.isBy(line) || (index > 0 && this.authorAfterBy(line) !== null),
    );
    return at === -1 ? null : at;
  }

  private isBy(line: Line): boolean {
    const phrase = phraseOf(line.plain);
    return phrase === 'by' || this.input.vocabulary.words.by.includes(phrase);
  }

  /** "by Mary Shelley" gives the name. */
  private authorAfterBy(line: Line): string | null {
    const match = /^(\p{L}+)\s+(.+)$/su.exec(line.plain.trim());
    if (match === null || line.words > 8) return null;
    const by = phraseOf(match[1] ?? '');
    const name = (match[2] ?? '').replace(/\s+/g, ' ').trim();
    if (by !== 'by' && !this.input.vocabulary.words.by.includes(by)) return null;
    return /^\p{Lu}/u.test(name) && !/[.!?]$/.test(name.replace(/\b\p{Lu}\.$/u, '')) ? name : null;
  }

  /** The line says what the book is or who wrote it. */
  private saysMore(line: Line): boolean {
    const { genres } = this.input.vocabulary.words;
    return genres.includes(phraseOf(line.plain)) || this.nameIn(line) !== null;
  }

  private nameIn(line: Line): string | null {
    return this.authorAfterBy(line) ?? this.authorAfterGenre(line.plain.replace(/\s+/g, ' ').trim());
  }

  /** "A Novel by Ada Quill" gives the name. */
  private authorAfterGenre(text: string): string | null {
    const { by, genres } = this.input.vocabulary.words;
    const tokens = text.split(' ');
    const joint = tokens.findIndex((token, at) => at > 0 && ['by', ...by].includes(phraseOf(token)));
    const genre = tokens.slice(0, joint).join(' ');
    if (joint < 0 || joint === tokens.length - 1 || !genres.includes(phraseOf(genre))) return null;
    return tokens.slice(joint + 1).join(' ');
  }

  private takePage(lines: readonly (readonly [number, Line])[], titleAt: number): void {
    const end = lines.findIndex(([, line], index) => index !== titleAt && !fitsTitlePage(line));
    lines.slice(0, end === -1 ? lines.length : Math.max(end, titleAt + 1)).forEach(([at, line], index) => {
      if (!fitsTitlePage(line)) return;
      this.used.add(at);
      const text = line.plain.replace(/\s+/g, ' ').trim();
      if (index === titleAt) this.title ??= this.titleText(text);
      else {
        const last = lines.slice(index + 1).every(([, later]) => isContact(later.plain));
        this.takeLine(line, text, { below: index > titleAt, last, before: lines[index - 1]?.[1] });
      }
    });
  }

  private takeLine(line: Line, text: string, { below, last, before }: PlaceOnPage): void {
    const { words } = this.input.vocabulary;
    const phrase = phraseOf(text);
    if (this.isBy(line) || (this.title !== null && sameWords(text, this.title))) return;
    const translates = words.translators.find((beginning) => phrase.startsWith(`${beginning} `));
    if (
      translates !== undefined &&
      this.translator === null &&
      / (?:by|par|von|por|da|de|door|di) /.test(`${translates} `.padStart(1))
    ) {
      this.translator = text.slice(translates.length).trim();
      return;
    }
    const author = this.nameIn(line);
    if (author !== null && this.author === null) {
      this.author = author;
      const rest = text.slice(0, -author.length).trim().split(' ').slice(0, -1).join(' ');
      if (rest !== '') this.subtitle ??= rest;
    } else if (before !== undefined && this.isBy(before) && this.author === null) this.author = text;
    else if (/^(?:author|auteur|autor)$/i.test(line.source.style ?? '')) this.author ??= text;
    else if (this.input.clues.author !== null && sameWords(text, this.input.clues.author)) this.author ??= text;
    else if (this.author !== null && sameWords(text, this.author)) return;
    else if (isContact(text)) this.leftOver.push(text);
    else if (below && this.author === null && last && this.isLikelyName(text)) this.author = text;
    else if (below && this.subtitle === null && this.author === null && line.words <= 16) this.subtitle = text;
    else if (below && this.author === null && looksLikeName(text)) this.author = text;
    else if (words.genres.includes(phrase) && this.subtitle === null) this.subtitle = text;
    else this.leftOver.push(text);
  }

  /** "The Second Book" has capitals like a name. */
  private isLikelyName(text: string): boolean {
    const { labels, words } = this.input.vocabulary;
    const tokens = phraseOf(text).split(' ');
    if (ARTICLES.has(tokens[0] ?? '') || tokens.some((token) => labels.has(token))) return false;
    return looksLikeName(text) && !words.genres.includes(phraseOf(text));
  }

  private takeContacts(lines: readonly (readonly [number, Line])[]): void {
    for (const [at, line] of lines) {
      if (!fitsTitlePage(line)) continue;
      this.used.add(at);
      const text = line.plain.replace(/\s+/g, ' ').trim();
      if (this.author === null || !sameWords(text, this.author)) this.leftOver.push(text);
    }
  }

  private titleText(text: string): string {
    const { clues } = this.input;
    return clues.title !== null && sameWords(text, clues.title) ? clues.title : text;
  }

  /** No title page, but lines in the styles of one above the text. */
  private readStyledLines(): void {
    const { items, end } = this.input;
    for (let at = 0; at < Math.min(end, 8); at++) {
      const item = items[at];
      if (item?.kind !== 'line' || !fitsTitlePage(item)) return;
      const style = item.source.style?.toLowerCase() ?? '';
      const text = item.plain.replace(/\s+/g, ' ').trim();
      if (style === 'title' && this.title === null) this.title = this.titleText(text);
      else if (style === 'subtitle' || style === 'author')
        this.takeLine(item, text, { below: true, last: false, before: undefined });
      else return;
      this.used.add(at);
    }
  }
}
