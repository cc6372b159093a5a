/**
 * Straight quotation marks and apostrophes. In: a paragraph's flat text; out: edits that curl them. Which way a mark
 * turns follows from its neighbours, as in the Markdown family (a mark opens before a word and closes after one), and
 * from what is open already; a note or picture in between is looked through.
 */
import { type Edit, LEAF } from '../collect/rich.ts';
import type { QuoteStyle } from './habits.ts';
import type { Tally } from './kinds.ts';

const STRAIGHT = /["'`\u00b4]|\u2018(?=\d\ds?\b|\p{L}+)/u;

export function quoteEdits(text: string, style: QuoteStyle, tally: Tally): readonly Edit[] {
  return STRAIGHT.test(text) ? new Curler(text, style, tally).run() : [];
}

/** All that may open or close a quotation. */
const MARKS = /["'`\u00b4\u2018\u2019\u201c-\u201e]/g;

const APOSTROPHE = '\u2019';

/** English words that begin with a letter left out; the mark before them is an apostrophe whatever follows. */
const CLIPPED = new Set(
  'tis twas twere twill twould twixt tween em cause cos cuz til till bout neath gainst nother nuff round n ere im er is e ow ave ad ome ead ello appen'.split(
    ' ',
  ),
);

/** Characters within which a single quotation closes, if it closes. */
const FAR = 3000;

type Open = 'double' | 'single';

class Curler {
  private readonly edits: Edit[] = [];
  private readonly open: Open[] = [];

  constructor(
    private readonly text: string,
    private readonly style: QuoteStyle,
    private readonly tally: Tally,
  ) {}

  run(): readonly Edit[] {
    for (const { index: at } of this.text.matchAll(MARKS)) {
      switch (this.text.charCodeAt(at)) {
        case 0x22:
          this.double(at);
          break;
        case 0x27:
          this.single(at);
          break;
        case 0x60:
        case 0xb4:
          if (isWord(this.before(at)) && isWord(this.after(at))) this.replace(at, APOSTROPHE, 'apostrophe');
          break;
        case 0x2018:
          this.turned(at);
          break;
        case 0x201c:
        case 0x201e:
          this.follow(at);
          break;
        case 0x201d:
          this.close('double');
          break;
        case 0x2019:
          if (!isWord(this.after(at))) this.close('single');
          break;
      }
    }
    return this.edits;
  }

  /** A curled double mark: U+201C opens in most languages and closes in German. */
  private follow(at: number): void {
    const closes = this.style.close === this.text[at] && this.open.includes('double') && !isWord(this.after(at));
    if (closes) this.close('double');
    else this.open.push('double');
  }

  private double(at: number): void {
    const before = this.before(at);
    const after = this.after(at);
    if (/\d/.test(before) && !this.open.includes('double')) return;
    const opens = this.opensDouble(before, after);
    this.tally.count('quote', 1);
    if (opens) {
      this.open.push('double');
      this.edits.push(this.outer(at, this.style.open, after));
    } else {
      this.close('double');
      this.edits.push(this.outer(at, this.style.close, before));
    }
  }

  /** The mark with the space that the language puts inside, unless one is there. */
  private outer(at: number, mark: string, neighbour: string): Edit {
    const space = /\s/.test(neighbour) ? '' : this.style.inside;
    return { at, remove: 1, insert: mark === this.style.open ? mark + space : space + mark };
  }

  private opensDouble(before: string, after: string): boolean {
    if (before === '') return true;
    if (after === '') return false;
    const isOpen = this.open.includes('double');
    if (isSpace(before)) return !(isSpace(after) && isOpen);
    if (isSpace(after)) return false;
    if (/[.,!?\u2026]/.test(before) && isOpen) return false;
    const left = !isPunctuation(after) || isPunctuation(before);
    const right = !isPunctuation(before) || isPunctuation(after);
    if (left !== right) return left;
    return !isOpen;
  }

  private single(at: number): void {
    const before = this.before(at);
    const after = this.after(at);
    if (isWord(before)) {
      if (/\d/.test(before) && !/\p{L}/u.test(after) && !this.open.includes('single')) return;
      if (isWord(after)) this.replace(at, APOSTROPHE, 'apostrophe');
      else this.closeSingle(at);
      return;
    }
    if (before !== '' && !isSpace(before) && !opensAfter(before)) {
      this.closeSingle(at);
      return;
    }
    if (isSpace(after) || after === '') {
      if (this.open.includes('single')) this.closeSingle(at);
      return;
    }
    if (this.isClipped(at) || !this.opensSingle(at, before)) this.replace(at, APOSTROPHE, 'apostrophe');
    else {
      this.open.push('single');
      this.replace(at, this.style.innerOpen, 'quote');
    }
  }

  private closeSingle(at: number): void {
    if (this.open.includes('single')) {
      this.close('single');
      this.replace(at, this.style.innerClose, 'quote');
    } else this.replace(at, APOSTROPHE, 'apostrophe');
  }

  /** A closing mark follows somewhere, or the mark begins the paragraph or a quotation. */
  private opensSingle(at: number, before: string): boolean {
    if (before === '' || /["\u201c\u201e\u00ab]/.test(this.text[at - 1] ?? '')) return true;
    for (let next = at + 1; next < Math.min(this.text.length, at + FAR); next++) {
      const mark = this.text[next];
      if (mark !== "'" && mark !== APOSTROPHE) continue;
      const left = this.before(next);
      if (left !== '' && !isSpace(left) && !isWord(this.after(next))) return true;
    }
    return false;
  }

  private isClipped(at: number): boolean {
    const rest = this.text.slice(at + 1, at + 12);
    if (/^\d\ds?(?!\d)/.test(rest)) return true;
    const word = /^\p{L}+/u.exec(rest)?.[0].toLowerCase() ?? '';
    if (!CLIPPED.has(word) || !this.tally.language.startsWith('en')) return false;
    return word !== 'is' && word !== 'e' && word !== 'round' ? true : this.text[at + 1 + word.length] !== "'";
  }

  /** A curled opening mark that should be an apostrophe: '90s, 'tis. */
  private turned(at: number): void {
    const before = this.before(at);
    const word = /^\p{L}+/u.exec(this.text.slice(at + 1, at + 12))?.[0].toLowerCase() ?? '';
    const sure =
      /^(?:tis|twas|twere|twill|twould|em|n)$/.test(word) || /^\d\ds?(?!\d)/.test(this.text.slice(at + 1, at + 6));
    if (sure && this.tally.language.startsWith('en') && (before === '' || !isWord(before))) {
      this.replace(at, APOSTROPHE, 'apostrophe');
    } else this.open.push('single');
  }

  private close(kind: Open): void {
    const at = this.open.lastIndexOf(kind);
    if (at !== -1) this.open.length = at;
  }

  private replace(at: number, insert: string, kind: 'quote' | 'apostrophe'): void {
    this.tally.count(kind, 1);
    this.edits.push({ at, remove: 1, insert });
  }

  private before(at: number): string {
    let index = at - 1;
    while (this.text[index] === LEAF) index--;
    return this.text[index] ?? '';
  }

  private after(at: number): string {
    let index = at + 1;
    while (this.text[index] === LEAF) index++;
    return this.text[index] ?? '';
  }
}

function isSpace(character: string): boolean {
  return /\s/.test(character);
}

function isWord(character: string): boolean {
  return character !== '' && /[\p{L}\p{M}\p{N}]/u.test(character);
}

function isPunctuation(character: string): boolean {
  return character !== '' && !isSpace(character) && !isWord(character);
}

/** A single mark after these begins something: brackets, dashes, opening quotation marks. */
function opensAfter(character: string): boolean {
  return /["([{\u2013\u2014\u2015\u00ab\u201c\u201e\u2018\u00bf\u00a1/-]/.test(character);
}
