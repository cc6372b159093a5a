/**
 * What form each line of a section takes. In: the lines and the base look; out: prose, verse, quotation, list, picture,
 * scene break or subhead, line by line. Conservative: where little speaks for a form, a line stays prose.
 */
import type { Base } from '../collect/base.ts';
import type { Line } from '../collect/lines.ts';
import { isOrnament } from '../evidence/ornaments.ts';

export type Form = 'prose' | 'verse' | 'quote' | 'list' | 'break' | 'inner';

/** The longest line of verse, in characters. */
const VERSE_LINE = 72;

export const VERSE_STYLE = /verse|poem|poetry|stanza|lyric|gedicht|po[e\u00e8\u00e9]|verso|poes/i;
export const QUOTE_STYLE = /quot|block ?text|extract|zitat|citation|cita\b|letter|brief|lettre|carta/i;
const CAPTION_STYLE = /caption|l[e\u00e9]gende|beschriftung|didascalia|leyenda/i;
const ATTRIBUTION_STYLE = /attribution|source$|epigraph ?(?:source|author)/i;

/** Indent, in points, from which a paragraph counts as set in. */
const SET_IN = 18;

/** Forms of the lines of one section, in order. @param titled the section has a title and no number, as poems have. */
export function formsOf(lines: readonly Line[], base: Base, titled = false): readonly Form[] {
  const forms = lines.map((line): Form => {
    if (isOrnament(line)) return 'break';
    if (line.listed) return 'list';
    if (isVerseAlone(line, base)) return 'verse';
    return isSetIn(line, base) ? 'quote' : 'prose';
  });
  markVerseRuns(lines, forms, base);
  markSignedLetters(lines, forms);
  bridgeQuotes(lines, forms);
  unmarkLoneQuotes(lines, forms, base);
  unmarkWholeQuotes(lines, forms);
  markLetters(lines, forms);
  return titled && isPoem(lines, forms) ? forms.map((form) => (form === 'prose' ? 'verse' : form)) : forms;
}

/** Lines of a poem that stands at the margin: how many at the least, and how long most of them are, in characters. */
const POEM_LINES = 4;
const POEM_LINE = 60;
/** The share of them that may be longer, and the share that may end as sentences do: prose and speech nearly always do. */
const LONGER = 0.1;
const CLOSED = 0.6;

/** A section of short lines, most of which break off in the middle of a sentence. */
function isPoem(lines: readonly Line[], forms: readonly Form[]): boolean {
  const prose = lines.filter((_, at) => forms[at] === 'prose');
  const pieces = prose.flatMap((line) => line.plain.split('\n').filter((piece) => piece.trim() !== ''));
  if (pieces.length < POEM_LINES || prose.some((line) => line.centred || line.atEnd || line.images > 0)) return false;
  const share = (test: (piece: string) => boolean): number => pieces.filter(test).length / pieces.length;
  return (
    pieces.every((piece) => piece.length <= VERSE_LINE * 1.25) &&
    share((piece) => piece.length > POEM_LINE) <= LONGER &&
    share((piece) => SENTENCE_END.test(piece)) <= CLOSED
  );
}

const SENTENCE_END = /[.!?\u2026:]["'\u201d\u2019\u00bb\u201c)]*$/;

function isVerseAlone(line: Line, base: Base): boolean {
  if (VERSE_STYLE.test(line.source.style ?? '')) return true;
  if (!line.plain.includes('\n')) return false;
  const pieces = line.plain.split('\n');
  if (pieces.length < 2 || !pieces.every((piece) => piece.trim().length <= VERSE_LINE)) return false;
  const apart = isSetIn(line, base) || line.tabs > base.tabs || (line.italic && !base.italic);
  return (
    apart && pieces.length >= 3 && pieces.filter((piece) => /^\P{Ll}/u.test(piece.trim())).length >= pieces.length * 0.5
  );
}

function isSetIn(line: Line, base: Base): boolean {
  const { source } = line;
  if (QUOTE_STYLE.test(source.style ?? '') && source.style !== base.style) return true;
  return (
    !line.centred && !line.atEnd && source.indentStart - base.indentStart >= SET_IN && source.indentFirst > -SET_IN
  );
}

/** Short lines in a row that stand deeper than the text are verse. */
function markVerseRuns(lines: readonly Line[], forms: Form[], base: Base): void {
  for (let at = 0; at < lines.length; at++) {
    let end = at;
    while (end < lines.length && isShortAndDeep(lines[end], forms[end], base, lines[at])) end++;
    if (end - at >= 2 && isVerseRun(lines.slice(at, end), base)) {
      for (let index = at; index < end; index++) forms[index] = 'verse';
    }
    if (end > at) at = end - 1;
  }
}

function isShortAndDeep(line: Line | undefined, form: Form | undefined, base: Base, first: Line | undefined): boolean {
  if (line === undefined || first === undefined || (form !== 'prose' && form !== 'quote')) return false;
  if (line.plain.length > VERSE_LINE || line.centred || line.atEnd || line.plain.includes('\n')) return false;
  const deep = line.tabs > base.tabs || line.source.indentStart - base.indentStart >= SET_IN;
  return deep && (line === first || line.gap <= base.gap + 1);
}

function isVerseRun(run: readonly Line[], base: Base): boolean {
  const byTabs = run.filter((line) => line.tabs > base.tabs).length >= run.length * 0.8;
  const closed = run.filter((line) => /[.!?\u2026]["'\u201d\u2019\u00bb\u201c]?$/.test(line.plain)).length;
  if (byTabs && (base.tabs > 0 || run.every((line) => line.tabs >= 2))) return true;
  if (run.length >= 3 && run.every((line) => isNarrow(line, base))) return true;
  return run.length >= 3 && closed <= run.length * 0.5;
}

/** The longest line of a song or rhyme, which may close every line with a full stop, in characters. */
const NARROW_LINE = 44;

/** Deep set lines too short for prose, none of them speech. */
function isNarrow(line: Line, base: Base): boolean {
  const deep = line.source.indentStart - base.indentStart >= SET_IN;
  return deep && line.plain.length <= NARROW_LINE && !OPENING.test(line.plain) && !isSalutation(line);
}

/** A section that is set in as a whole has chosen its look, not quoted itself. */
function unmarkWholeQuotes(lines: readonly Line[], forms: Form[]): void {
  let all = 0;
  let quoted = 0;
  forms.forEach((form, at) => {
    const words = lines[at]?.words ?? 0;
    all += words;
    if (form === 'quote') quoted += words;
  });
  if (quoted <= all * 0.5) return;
  forms.forEach((form, at) => {
    if (form === 'quote') forms[at] = 'prose';
  });
}

/**
 * One paragraph moved in from the left alone, with nothing to announce it, is a slip of the ruler and no quotation. One set in
 * on both sides, in a style of its own, after a colon or in italics is meant.
 */
function unmarkLoneQuotes(lines: readonly Line[], forms: Form[], base: Base): void {
  forms.forEach((form, at) => {
    const line = lines[at];
    if (form !== 'quote' || !line || forms[at - 1] === 'quote' || forms[at + 1] === 'quote') return;
    const styled = QUOTE_STYLE.test(line.source.style ?? '');
    const bothSides = line.source.indentEnd >= SET_IN / 2;
    const announced = /:["\u201d\u2019\u00bb]?$/.test(lines[at - 1]?.plain ?? '');
    const apart = line.italic && !base.italic;
    if (!styled && !bothSides && !announced && !apart && !isSalutation(line)) forms[at] = 'prose';
  });
}

const OPENING = /^["\u201c\u201e\u00ab]/;

/** A paragraph that lost its indent between two that kept it, all three opening with a quotation mark. */
function bridgeQuotes(lines: readonly Line[], forms: Form[]): void {
  for (let at = 1; at < lines.length - 1; at++) {
    if (forms[at] !== 'prose' || forms[at - 1] !== 'quote' || forms[at + 1] !== 'quote') continue;
    const opens = [at - 1, at, at + 1].every((index) => OPENING.test(lines[index]?.plain ?? ''));
    if (opens) forms[at] = 'quote';
  }
}

/** Lines above and below a letter that belong to it. */
const FRAME = 3;

/** Date and signature stand at the end of the measure, above the salutation and below the text of a letter. */
function markLetters(lines: readonly Line[], forms: Form[]): void {
  for (let at = 0; at < lines.length; at++) {
    if (forms[at] !== 'quote' || forms[at - 1] === 'quote' || !isSalutation(lines[at])) continue;
    for (let above = at - 1; above >= Math.max(0, at - FRAME) && isFrame(lines[above], forms[above]); above--) {
      forms[above] = 'quote';
    }
    let end = at;
    while (forms[end] === 'quote') end++;
    for (let below = end; below < Math.min(lines.length, end + FRAME); below++) {
      if (!isFrame(lines[below], forms[below])) break;
      forms[below] = 'quote';
    }
  }
}

/** Paragraphs of the longest letter that is told by its salutation and its signature alone. */
const LONGEST_LETTER = 40;
/** From the closing phrase to the signature, in lines. */
const SIGNATURE = 2;

/** A letter that stands at the margin as the text does: from "Dear Joren," to "Yours ever," and a name. */
function markSignedLetters(lines: readonly Line[], forms: Form[]): void {
  for (let at = 0; at < lines.length; at++) {
    if (forms[at] !== 'prose' || !isSalutation(lines[at]) || OPENING.test(lines[at]?.plain ?? '')) continue;
    const end = signatureAfter(lines, forms, at);
    if (end === null) continue;
    forms.fill('quote', at, end + 1);
    at = end;
  }
}

/** The line of the signature, null where there is none before another letter or a scene. */
function signatureAfter(lines: readonly Line[], forms: readonly Form[], from: number): number | null {
  for (let at = from + 1; at < Math.min(lines.length, from + LONGEST_LETTER); at++) {
    if (forms[at] !== 'prose' || isSalutation(lines[at])) return null;
    if (!isClosing(lines[at])) continue;
    for (let name = at + 1; name <= at + SIGNATURE && forms[name] === 'prose'; name++) {
      if (isSignature(lines[name])) return name;
    }
    return null;
  }
  return null;
}

const CLOSING =
  /^(?:(?:ever |sincerely |faithfully |truly |respectfully )?yours|(?:with )?(?:all )?(?:my |much |lots of )?love|(?:yours )?(?:sincerely|faithfully|affectionately)|(?:(?:best|kind|warm|kindest|warmest) )?(?:regards|wishes)|your (?:(?:ever |most )?(?:loving|affectionate|obedient|faithful|devoted|humble|old)|friend|son|daughter|brother|sister|father|mother)|dein|deine|ihr|ihre|euer|eure|mit .{3,20} gr\u00fc(?:\u00df|ss)en|herzlichst|liebe gr\u00fc(?:\u00df|ss)e|bien \u00e0 (?:toi|vous)|je t'embrasse|cordialement|votre d\u00e9vou\u00e9e?|tuy[oa]|suy[oa]|atentamente|(?:un|um) abra(?:zo|\u00e7o)|con (?:cari\u00f1o|affetto)|cordiali saluti|liefs|groeten|hoogachtend)\b.{0,30}[,.!\u2013\u2014]?$/iu;

function isClosing(line: Line | undefined): boolean {
  return line !== undefined && line.words <= 6 && CLOSING.test(line.plain.replaceAll('\u2019', "'"));
}

function isSignature(line: Line | undefined): boolean {
  return (
    line !== undefined &&
    line.words <= 5 &&
    /^[\u2014\u2013-]?\s?\p{Lu}/u.test(line.plain) &&
    !/[!?:;]$/.test(line.plain)
  );
}

function isFrame(line: Line | undefined, form: Form | undefined): boolean {
  return line !== undefined && form === 'prose' && line.atEnd && line.words <= 12;
}

export function isCaption(line: Line | undefined): boolean {
  return line !== undefined && CAPTION_STYLE.test(line.source.style ?? '');
}

/** The line names the source of what stands above it. */
export function isAttribution(line: Line | undefined): boolean {
  if (line === undefined || line.words > 20) return false;
  if (ATTRIBUTION_STYLE.test(line.source.style ?? '')) return true;
  return (
    /^(?:[\u2014\u2013\u2015]|-{2,3})\s?\p{Lu}/u.test(line.plain) &&
    line.words <= 12 &&
    !/[!?"\u201d\u00bb]$/.test(line.plain)
  );
}

const SALUTATION =
  /^["'\u201c\u2018\u00ab\u201e]?\s*(?:my |mein[e]? |mon |ma |mi )?(?:dear(?:est)?|beloved|dear sir|lieber|liebe|liebste[rs]?|sehr geehrte[r]?|cher|ch\u00e8re|monsieur|madame|querid[oa]|estimad[oa]|muy se\u00f1or|car[oa]|gentil[ei]|prezad[oa]|beste|geachte)\b.{0,50}[,:!;\u2014\u2013-]$/iu;

export function isSalutation(line: Line | undefined): boolean {
  return line !== undefined && line.words <= 10 && SALUTATION.test(line.plain);
}
