/** The command line: words in, one typed request out, or a `UsageProblem`. */
import { type ParseArgsConfig, parseArgs } from 'node:util';
import { inches, millimetres, type Size } from '#base';
import type { Fit } from '#book';
import { LARGE_PRINT } from '#design';
import { UsageProblem } from './problems.ts';

export const USAGE = `reglet - a finished manuscript to a print interior (PDF) and an ebook (EPUB)

usage:
  reglet make    <manuscript or .reglet> [options]   make the editions' files
  reglet outline <manuscript or .reglet> [options]   show what was understood: sections and decisions
  reglet check   <manuscript or .reglet> [options]   look for what a printer or a shop would reject
  reglet keep    <manuscript> --to book.reglet       take the manuscript in and keep it as a book

options of make and check:
  --edition ID      only this edition; may be given several times (default: all that the book holds)
  --design ID       the design to set the book in
  --trim WxHin      trimmed size of the print page: 5.5x8.5in, 129x198mm or 396x612pt
  --large-print PT  set the print edition for readers with low vision in 16 to 24 points, on 6x9in or more
  --pages WISH      fit the print edition: 288 pages, x8 or x16 for a multiple, or least
  --out DIR         where make puts the files (default: out)
options of outline:
  --text            with --json: the text of each section as well
options of all:
  --json            one JSON object on standard output and nothing else
  --help, --version

exit status: 0 done, 1 the input can't be used, 2 wrong usage

ISBNs, copyright lines and printers' limits are yours to confirm: compare them with your ISBN agency's letter and your
printer's own specification before you upload.
`;

export interface MakeRequest {
  readonly kind: 'make' | 'check';
  readonly input: string;
  readonly editions: readonly string[];
  readonly design: string | null;
  readonly trim: Size | null;
  readonly fit: Fit | null;
  /** Text size in points. */
  readonly largePrint: number | null;
  readonly out: string;
  readonly json: boolean;
}

export interface OutlineRequest {
  readonly kind: 'outline';
  readonly input: string;
  readonly json: boolean;
  readonly text: boolean;
}

export interface KeepRequest {
  readonly kind: 'keep';
  readonly input: string;
  readonly to: string;
  readonly json: boolean;
}

export type Request =
  | MakeRequest
  | OutlineRequest
  | KeepRequest
  | { readonly kind: 'help' }
  | { readonly kind: 'version' };

const OPTIONS = {
  edition: { type: 'string', multiple: true },
  design: { type: 'string' },
  trim: { type: 'string' },
  pages: { type: 'string' },
  'large-print': { type: 'string' },
  out: { type: 'string' },
  to: { type: 'string' },
  json: { type: 'boolean' },
  text: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean' },
} as const satisfies ParseArgsConfig['options'];

/** Which options each command takes. */
const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  make: ['edition', 'design', 'trim', 'large-print', 'pages', 'out', 'json'],
  check: ['edition', 'design', 'trim', 'large-print', 'pages', 'json'],
  outline: ['json', 'text'],
  keep: ['to', 'json'],
};

/** Turns the words after `reglet` into a request. Throws `UsageProblem` with one sentence. */
export function parseCommandLine(words: readonly string[]): Request {
  const { values, positionals } = parseWords(words);
  if (values.help || (words.length === 1 && words[0] === 'help')) return { kind: 'help' };
  if (values.version) return { kind: 'version' };
  const [command, input, ...rest] = positionals;
  if (command === undefined) throw new UsageProblem('a command is missing: make, outline, check or keep.');
  const allowed = ALLOWED[command];
  if (!allowed)
    throw new UsageProblem(`"${command}" is not a command; the commands are make, outline, check and keep.`);
  if (input === undefined) throw new UsageProblem(`${command} needs a manuscript or a .reglet file.`);
  if (rest.length > 0) throw new UsageProblem(`${command} takes one file, but "${rest[0]}" was given as well.`);
  for (const option of Object.keys(values)) {
    if (!allowed.includes(option)) throw new UsageProblem(`${command} has no option --${option}.`);
  }
  const json = values.json ?? false;
  if (command === 'outline') return { kind: 'outline', input, json, text: values.text ?? false };
  if (command === 'keep') {
    if (!values.to) throw new UsageProblem('keep needs --to and the name of the book file.');
    return { kind: 'keep', input, to: values.to, json };
  }
  return {
    kind: command === 'check' ? 'check' : 'make',
    input,
    editions: values.edition ?? [],
    design: values.design ?? null,
    trim: values.trim === undefined ? null : parseTrim(values.trim),
    fit: values.pages === undefined ? null : parseFit(values.pages),
    largePrint: values['large-print'] === undefined ? null : parseLargePrint(values['large-print']),
    out: values.out ?? 'out',
    json,
  };
}

function parseWords(words: readonly string[]) {
  try {
    return parseArgs({ args: [...words], options: OPTIONS, allowPositionals: true, strict: true });
  } catch (problem) {
    if (problem instanceof TypeError && 'code' in problem && String(problem.code).startsWith('ERR_PARSE_ARGS')) {
      throw new UsageProblem(`${problem.message.split('. ')[0]}.`);
    }
    throw problem;
  }
}

const TRIM = /^(\d+(?:\.\d+)?)\s*x\s*(\d+(?:\.\d+)?)\s*(in|mm|pt)$/i;
/** Smallest and largest side of a trimmed page that make-up can fill, in inches. */
const TRIM_SIDES = { least: 3, most: 14 };

/** A trimmed size such as `5.5x8.5in`, in points. */
export function parseTrim(text: string): Size {
  const match = TRIM.exec(text.trim());
  if (!match) throw new UsageProblem(`"${text}" is not a trim size; write it like 5.5x8.5in or 129x198mm.`);
  const toPoints = (value: string) => {
    const unit = match[3]?.toLowerCase();
    return unit === 'in' ? inches(Number(value)) : unit === 'mm' ? millimetres(Number(value)) : Number(value);
  };
  const size = { width: toPoints(match[1] ?? ''), height: toPoints(match[2] ?? '') };
  for (const side of [size.width, size.height]) {
    if (side < inches(TRIM_SIDES.least) || side > inches(TRIM_SIDES.most)) {
      throw new UsageProblem(`a trim of ${text} can't be set: each side must be between 3 and 14 inches.`);
    }
  }
  return size;
}

/** A text size of large print, in points. */
export function parseLargePrint(text: string): number {
  const { least, most } = LARGE_PRINT;
  const size = /^\d{2}(?:\.\d)?$/.test(text) ? Number(text) : 0;
  if (size >= least && size <= most) return size;
  throw new UsageProblem(`"${text}" is no size of large print; write one from ${least} to ${most} points, such as 18.`);
}

/** A wish for the number of pages: `288`, `x8`, `x16` or `least`. */
export function parseFit(text: string): Fit {
  if (text === 'least') return { kind: 'fewest' };
  if (text === 'x8' || text === 'x16') return { kind: 'multiple', of: text === 'x8' ? 8 : 16 };
  const pages = /^\d{1,4}$/.test(text) ? Number(text) : 0;
  if (pages < 2)
    throw new UsageProblem(`"${text}" is no wish for pages; write a number such as 288, or x8, x16, least.`);
  if (pages % 2 === 1)
    throw new UsageProblem(`a book has two pages to the leaf: ask for ${pages - 1} or ${pages + 1} pages.`);
  return { kind: 'pages', pages };
}
