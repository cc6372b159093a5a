/**
 * Words as the patterns see them. In: a word as it stands in the text; out: its runs of letters, small, composed and
 * numbered.
 */

const APOSTROPHE = 0x27;
const CURLY_APOSTROPHE = 0x2019;
const FULL_STOP = 0x2e;
const MARK_OR_LETTER = /[\p{L}\p{M}]/u;
const COMBINING = /\p{M}/u;

/** The letters that a language's patterns know. */
export class Alphabet {
  /** Pattern number of each letter, by UTF-16 unit; of capitals only where they need no care. */
  private readonly numbers = new Uint8Array(0x10000);
  /** 1 for letters that need no care: a small letter of the patterns, 2 for its capital. */
  private readonly plain = new Uint8Array(0x10000);
  readonly end: number;

  constructor(letters: ReadonlyMap<number, number>) {
    this.end = letters.get(FULL_STOP) ?? 0;
    for (const [unit, number] of letters) {
      this.numbers[unit] = number;
      if (!isLetterUnit(unit)) continue;
      this.plain[unit] = 1;
      const capital = String.fromCharCode(unit).toUpperCase();
      if (capital.length === 1 && capital.charCodeAt(0) !== unit) this.addCapital(capital.charCodeAt(0), number);
    }
    if (this.numbers[APOSTROPHE] === 0) this.numbers[APOSTROPHE] = letters.get(CURLY_APOSTROPHE) ?? 0;
  }

  /** For the units below a limit their numbers, and 1 for a small letter, 2 for its capital; of what needs care, 0. */
  tables(limit: number): { readonly numbers: Uint8Array; readonly cases: Uint8Array } {
    return { numbers: this.numbers.subarray(0, limit), cases: this.plain.subarray(0, limit) };
  }

  /** The one run of plain letters of a word that has nothing else but marks at its ends, not all in capitals; else null. */
  plainRun(units: Uint16Array, start: number, end: number): LetterRun | null {
    let from = start;
    while (from < end && isMark(units[from]!)) from++;
    let to = from;
    let small = 0;
    for (; to < end; to++) {
      const kind = this.plain[units[to]!]!;
      if (kind === 0) break;
      small |= kind & 1;
    }
    for (let i = to; i < end; i++) if (!isMark(units[i]!)) return null;
    return small === 0 ? null : { from, to };
  }

  /** Writes the numbers of a stretch of letters between two word ends; gives how many they are. */
  number(units: Uint16Array, from: number, to: number, into: Uint16Array): number {
    into[0] = this.end;
    let at = 1;
    for (let i = from; i < to; i++) into[at++] = this.numberOf(units[i]!);
    into[at++] = this.end;
    return at;
  }

  private addCapital(unit: number, number: number): void {
    this.plain[unit] = 2;
    this.numbers[unit] = number;
  }

  /** Letters that no pattern knows (é in English) are tried without their accent. */
  private numberOf(unit: number): number {
    const known = this.numbers[unit]!;
    if (known !== 0 || unit < 0x80) return known;
    return this.numbers[String.fromCharCode(unit).normalize('NFD').charCodeAt(0)]!;
  }
}

/** Quotation marks, stops and the like that may stand at a word's ends; no letter, digit, hyphen or dash. */
function isMark(unit: number): boolean {
  if (unit >= 0x2018 && unit <= 0x201f) return true;
  if (unit >= 0x80) return unit === 0x2026 || unit === 0xab || unit === 0xbb;
  return unit !== 0x2d && !isDigit(unit) && !isLetterUnit(unit);
}

function isDigit(unit: number): boolean {
  return unit >= 0x30 && unit <= 0x39;
}

function isLetterUnit(unit: number): boolean {
  if (unit < 0x80) return (unit | 0x20) >= 0x61 && (unit | 0x20) <= 0x7a;
  return MARK_OR_LETTER.test(String.fromCharCode(unit));
}

export interface LetterRun {
  readonly from: number;
  readonly to: number;
}

export function letterRuns(word: string): readonly LetterRun[] {
  const runs: LetterRun[] = [];
  let from = -1;
  for (let i = 0; i <= word.length; i++) {
    const inside = i < word.length && (isLetterUnit(word.charCodeAt(i)) || isInnerApostrophe(word, i));
    if (inside && from < 0) from = i;
    if (!inside && from >= 0) {
      runs.push({ from, to: i });
      from = -1;
    }
  }
  return runs;
}

function isInnerApostrophe(word: string, i: number): boolean {
  const unit = word.charCodeAt(i);
  if (unit !== APOSTROPHE && unit !== CURLY_APOSTROPHE) return false;
  return i > 0 && i + 1 < word.length && isLetterUnit(word.charCodeAt(i - 1)) && isLetterUnit(word.charCodeAt(i + 1));
}

/** Small letters, one unit each and composed, with the offset in the word at which each begins. */
export function composedLetters(word: string, run: LetterRun): { letters: string; offsets: number[] } {
  const offsets: number[] = [];
  let letters = '';
  for (let i = run.from; i < run.to; ) {
    let next = i + 1;
    while (next < run.to && word.charCodeAt(next) >= 0x300 && COMBINING.test(word[next]!)) next++;
    letters += smallLetter(word, i, next);
    offsets.push(i);
    i = next;
  }
  return { letters, offsets };
}

function smallLetter(word: string, from: number, to: number): string {
  const unit = word.charCodeAt(from);
  if (to === from + 1 && unit < 0x80)
    return unit >= 0x41 && unit <= 0x5a ? String.fromCharCode(unit | 0x20) : word[from]!;
  if (unit === CURLY_APOSTROPHE) return "'";
  const small = word.slice(from, to).normalize('NFC').toLowerCase();
  return small.length === 1 ? small : small[0]!;
}

export function lettersBefore(letters: string, place: number): number {
  let count = 0;
  for (let i = place - 1; i >= 0 && letters.charCodeAt(i) !== APOSTROPHE; i--) count++;
  return count;
}

export function lettersAfter(letters: string, place: number): number {
  let count = 0;
  for (let i = place; i < letters.length && letters.charCodeAt(i) !== APOSTROPHE; i++) count++;
  return count;
}
