/**
 * What a line says if it is a heading. In: its text and the vocabulary; out: the label, the number, the title beside
 * them and the kind of section that its words name. Whether it is a heading is decided elsewhere.
 */
import type { SectionKind } from '#book';
import { fold, type Vocabulary } from '../vocabulary/vocabulary.ts';
import { type NumeralForm, numeralAt, type Token, tokensOf } from './numerals.ts';

/**
 * `labelled`: a known word and a number ("Chapter 4", "Erstes Kapitel"); `counted`: any other word and a number
 * ("Stave One"); `bare`: a number, with or without a title; `matter`: a name such as "Prologue"; `label`: a known word
 * without a number ("Chapter the Last"); `title`: none of these.
 */
export type ReadingForm = 'labelled' | 'counted' | 'bare' | 'matter' | 'label' | 'title';

export interface Reading {
  readonly form: ReadingForm;
  readonly kind: SectionKind | null;
  /** The label as a book would print it: "Chapter". */
  readonly label: string | null;
  readonly number: number | null;
  readonly numeral: NumeralForm | null;
  /** Where in the text the title begins; the text's length where there is none. */
  readonly titleAt: number;
  /** Nothing but a space parts number and title. */
  readonly loose: boolean;
}

/** Reads a line as a heading. `text` keeps its length: offsets count in it. */
export function readHeading(text: string, vocabulary: Vocabulary): Reading {
  const tokens = tokensOf(text);
  const first = tokens.findIndex((token) => token.core !== '');
  if (first === -1) return titleReading(text);
  return (
    matterReading(text, vocabulary) ??
    labelFirst(text, tokens, first, vocabulary) ??
    numberFirst(text, tokens, first, vocabulary) ??
    countedReading(text, tokens, first, vocabulary) ??
    labelOnly(tokens, first, vocabulary) ??
    titleReading(text)
  );
}

/** The line as mere words. */
export function titleReading(text: string): Reading {
  const at = text.length - text.trimStart().length;
  return { ...PLAIN_TITLE, titleAt: at };
}

const PLAIN_TITLE = {
  form: 'title',
  kind: null,
  label: null,
  number: null,
  numeral: null,
  titleAt: 0,
  loose: false,
} as const;

const DIVIDER = /\s*(?:[:\u2013\u2014\n]|\.\s|\s-\s)\s*/u;

/** "Prologue", "Epilogue: Later", "Also by ...". */
function matterReading(text: string, vocabulary: Vocabulary): Reading | null {
  const bare = phraseOf(text);
  const divider = DIVIDER.exec(text.trimStart());
  const head = divider === null || divider.index === 0 ? null : phraseOf(text.trimStart().slice(0, divider.index));
  const kind =
    vocabulary.matter.get(bare) ??
    (head === null ? undefined : vocabulary.matter.get(head)) ??
    vocabulary.begins.find(([beginning]) => `${bare} `.startsWith(beginning))?.[1] ??
    (/^(?:appendix|appendice|apendice|anhang|annexe|anexo|bijlage) [a-z]$/.test(head ?? bare) ? 'appendix' : undefined);
  const named = kind ?? frameOf(bare, vocabulary);
  return named === undefined ? null : { ...titleReading(text), form: 'matter', kind: named };
}

/** "Prologue in which ...": these two need nothing between name and title. */
function frameOf(phrase: string, vocabulary: Vocabulary): SectionKind | undefined {
  const kind = vocabulary.matter.get(phrase.split(' ')[0] ?? '');
  return kind === 'prologue' || kind === 'epilogue' ? kind : undefined;
}

/** No name of a section is longer, in characters. */
const LONGEST_PHRASE = 300;

/** Folded, without the punctuation around it. */
export function phraseOf(text: string): string {
  return fold(text.slice(0, LONGEST_PHRASE).replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, ''));
}

/** "Chapter 4: The Weir", "Book the First". */
function labelFirst(text: string, tokens: readonly Token[], first: number, vocabulary: Vocabulary): Reading | null {
  const token = tokens[first];
  const kind = vocabulary.labels.get(token?.core ?? '');
  if (token === undefined || kind === undefined) return null;
  const number = numeralAfter(tokens, first + 1, vocabulary);
  if (number === null || /[,;!?]/.test(token.tail)) return null;
  return { form: 'labelled', kind, label: labelOf(token, vocabulary), ...numberAndTitle(text, tokens, number) };
}

function numeralAfter(tokens: readonly Token[], at: number, vocabulary: Vocabulary): ReturnType<typeof numeralAt> {
  const token = tokens[at];
  if (token === undefined) return null;
  if (token.core === '' || vocabulary.articles.has(token.core)) {
    const later = numeralAt(tokens, at + 1, vocabulary);
    if (later !== null) return later;
  }
  return numeralAt(tokens, at, vocabulary);
}

function numberAndTitle(
  text: string,
  tokens: readonly Token[],
  number: { readonly value: number; readonly form: NumeralForm; readonly next: number },
  after = number.next,
): Pick<Reading, 'number' | 'numeral' | 'titleAt' | 'loose'> {
  let next = after;
  let apart = /[.:;,)\]\u2013\u2014-]/.test(tokens[after - 1]?.tail ?? '');
  while (
    next < tokens.length &&
    tokens[next]?.core === '' &&
    !/["'\u201c\u2018\u00ab\u201e]/.test(tokens[next]?.tail ?? '')
  ) {
    apart = true;
    next++;
  }
  const title = tokens[next];
  apart ||= title?.apart === true;
  return {
    number: number.value,
    numeral: number.form,
    titleAt: title === undefined ? text.length : title.from,
    loose: title !== undefined && !apart,
  };
}

/** "Erstes Kapitel", "1. Kapitel: Am Wehr", "The Second Book", and bare numbers: "IV", "7. The Weir". */
function numberFirst(text: string, tokens: readonly Token[], first: number, vocabulary: Vocabulary): Reading | null {
  const number = numeralAfter(tokens, first, vocabulary);
  if (number === null) return null;
  const follower = tokens[number.next];
  const kind = vocabulary.labels.get(follower?.core ?? '');
  if (
    follower !== undefined &&
    kind !== undefined &&
    !follower.apart &&
    !/[:;,\u2014\u2013]/.test(tokens[number.next - 1]?.tail ?? '')
  ) {
    const rest = numberAndTitle(text, tokens, number, number.next + 1);
    return { form: 'labelled', kind, label: labelOf(follower, vocabulary), ...rest };
  }
  const rest = numberAndTitle(text, tokens, number);
  if (rest.loose && rest.numeral !== 'arabic') return null;
  const small =
    rest.numeral === 'roman' && tokens[number.next - 1]?.word !== tokens[number.next - 1]?.word.toUpperCase();
  if (small && rest.titleAt < text.length) return null;
  return { form: 'bare', kind: null, label: null, ...rest };
}

/** "Stave One", "Fit the First", "Zweiter Tag": a word that only a series of its like makes a label. */
function countedReading(text: string, tokens: readonly Token[], first: number, vocabulary: Vocabulary): Reading | null {
  const token = tokens[first];
  if (token === undefined || !/^\p{Lu}[\p{L}]+$/u.test(token.word)) return null;
  // "The First Night" counts as "First Night" does.
  const isArticle = vocabulary.articles.has(token.core);
  const number = isArticle || /[,;!?.]/.test(token.tail) ? null : numeralAfter(tokens, first + 1, vocabulary);
  if (number !== null && number.form !== 'word') {
    const rest = numberAndTitle(text, tokens, number);
    return rest.loose ? null : { form: 'counted', kind: null, label: properCase(token.word), ...rest };
  }
  if (number !== null) {
    const rest = numberAndTitle(text, tokens, number);
    return rest.loose || !titleCased(tokens, number.next - 1)
      ? null
      : { form: 'counted', kind: null, label: properCase(token.word), ...rest };
  }
  const ordinal = numeralAt(tokens, isArticle ? first + 1 : first, vocabulary);
  const follower = tokens[ordinal?.next ?? tokens.length];
  if (ordinal === null || follower === undefined || ordinal.next + 1 !== tokens.length) return null;
  if (ordinal.form !== 'word' || !/^\p{Lu}\p{L}+$/u.test(follower.word)) return null;
  return {
    form: 'counted',
    kind: null,
    label: properCase(follower.word),
    number: ordinal.value,
    numeral: 'word',
    titleAt: text.length,
    loose: false,
  };
}

function titleCased(tokens: readonly Token[], at: number): boolean {
  return /^\p{Lu}/u.test(tokens[at]?.word ?? '');
}

/** "Chapter the Last": the kind is known, the number is not. */
function labelOnly(tokens: readonly Token[], first: number, vocabulary: Vocabulary): Reading | null {
  const kind = vocabulary.labels.get(tokens[first]?.core ?? '');
  const article = tokens[first + 1]?.core ?? '';
  if (kind === undefined || tokens.length > 4 || !vocabulary.articles.has(article)) return null;
  return { ...PLAIN_TITLE, form: 'label', kind, titleAt: tokens[first]?.from ?? 0 };
}

/** A known label as printed: "Chapter" for "CHAPTER" and "ch." alike. */
function labelOf(token: Token, vocabulary: Vocabulary): string {
  return vocabulary.words.short[token.core] ?? properCase(token.word);
}

/** "CHAPTER" and "chapter" as "Chapter". */
export function properCase(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1).toLowerCase();
}
