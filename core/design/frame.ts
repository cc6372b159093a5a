/**
 * The page of a print edition: margins, measure, size and grid. In: settings drawn for one trim, the edition's trim, a
 * page count and a press; out: the frame in points. The measure, and so every line break, depends on the page count only
 * where a thick book leaves too little outer margin.
 */
import type { Points, Size } from '#base';
import { gutterFor, type PressProfile } from './press.ts';
import type { DesignSettings } from './settings.ts';

export interface PageFrame {
  readonly trim: Size;
  readonly inner: Points;
  readonly outer: Points;
  /** Width of the lines. */
  readonly measure: Points;
  readonly size: Points;
  readonly leading: Points;
  /** First baseline, from the top of the trimmed page. */
  readonly firstBaseline: Points;
  /** Lines to a full page. */
  readonly lines: number;
}

/** Characters to the line that sizes are fitted to; 45 to 75 is good, 66 ideal (FACTS T-01). */
const WANTED = 66;
const FEWEST = 56;
const MOST = 70;
const WIDEST = 74;

/**
 * Sizes that a derived trim may take, and the step (FACTS T-04), for a face whose characters are 0.38 em wide: one with
 * larger letters takes less.
 */
const FACE_OF_SIZES = 0.38;
const SMALLEST_TEXT = 9.5;
const LARGEST_TEXT = 12.75;
/** No text is smaller, whatever its letters (FACTS T-04). */
const LEAST_TEXT = 9;
/** Down to this size a small page gives up size for characters; below it only where the line were too short to justify. */
const READABLE_TEXT = 10.5;
const SIZE_STEP = 0.5;

/** Most leading as a share of the size (FACTS T-03). */
const WIDEST_LEADING = 1.45;

/** No outer margin narrower than a thumb wants, whatever the gutter takes: half an inch. */
const LEAST_OUTER = 36;

/**
 * What hangs into the margins at most, in ems: a full stop, hyphen or quotation mark at a line's end, and beside a drop cap
 * its whole opening quotation mark. The gutter has to stay free of it.
 */
const HANG = 0.2;
const HANG_BESIDE_DROP_CAP = 0.5;

/** Height of capitals as a share of the size, for the top of the text block (text faces lie between 0.63 and 0.72). */
const CAPITALS = 0.65;

/** The page at the edition's trim. */
export function pageFrame(settings: DesignSettings, trim: Size, pages: number, press: PressProfile): PageFrame {
  const across = trim.width / settings.trim.width;
  const down = trim.height / settings.trim.height;
  const margins = settings.margins;
  const room = trim.width - (margins.inner + margins.outer) * across;
  const own = across === 1;
  const size = own ? settings.text.size : fittedSize(settings, room);
  const measure = own ? room : Math.min(room, size * settings.text.character * WIDEST);
  const leading = fittedLeading(settings, size);
  const gutter = gutterFor(press, pages) + hangOf(settings) * size;
  const { inner, outer } = sideMargins(trim.width - measure, margins.inner, margins.outer, gutter);
  const firstBaseline = round(margins.top * down + size * CAPITALS);
  const depth = trim.height - margins.bottom * down - firstBaseline;
  return {
    trim,
    inner,
    outer,
    measure: round(trim.width - inner - outer),
    size,
    leading,
    firstBaseline,
    lines: Math.max(6, Math.floor(depth / leading + 0.01) + 1),
  };
}

function hangOf({ leadIn, text }: DesignSettings): number {
  if (leadIn.kind === 'dropCap') return HANG_BESIDE_DROP_CAP;
  return text.hang ? HANG : 0;
}

/** Shares the space beside the lines: the gutter takes what it must, the outer margin gives down to its least. */
function sideMargins(
  room: Points,
  inner: Points,
  outer: Points,
  gutter: Points,
): { readonly inner: Points; readonly outer: Points } {
  const drawn = round((room * inner) / (inner + outer));
  const wanted = Math.max(drawn, gutter);
  return { inner: wanted, outer: Math.max(round(room - wanted), Math.min(LEAST_OUTER, round(room - drawn))) };
}

/** The text size at a measure: the design's own where it gives a good line, else the nearest half point that does. */
function fittedSize(settings: DesignSettings, measure: Points): Points {
  let size = settings.text.size;
  const { character } = settings.text;
  const looks = FACE_OF_SIZES / character;
  const [most, least] = [
    Math.max(size, LARGEST_TEXT * looks),
    Math.min(size, Math.max(LEAST_TEXT, SMALLEST_TEXT * looks)),
  ];
  const characters = (): number => measure / (size * character);
  while (characters() > MOST && size + SIZE_STEP <= most) size += SIZE_STEP;
  while (characters() < WANTED && size - SIZE_STEP >= Math.max(LEAST_TEXT, READABLE_TEXT * looks)) size -= SIZE_STEP;
  while (characters() < FEWEST && size - SIZE_STEP >= least) size -= SIZE_STEP;
  return size;
}

function fittedLeading(settings: DesignSettings, size: Points): Points {
  if (size === settings.text.size) return settings.text.leading;
  const leading = Math.round((size * settings.text.leading * 2) / settings.text.size) / 2;
  return Math.min(leading, Math.floor(size * WIDEST_LEADING * 2) / 2);
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
