/**
 * A typographic cover for a book that has no picture for one. In: title, subtitle, author, and a function that gives
 * outlines of text; out: an SVG of 1600 by 2560 pixels that names no font, so that every painter draws the same.
 *
 * Portrait at 1.6 to 1, the shape and size that shops ask for (FACTS D-08).
 */
import { authorsOf, type Metadata, namesInARow } from '#book';
import { fitLines, type LineFit } from './coverfit.ts';
import { ebookWords } from './words.ts';
import { legalCharacters } from './xml.ts';

export type CoverRole = 'title' | 'subtitle' | 'author';

/** A line of text as filled outlines. */
export interface TextOutline {
  /** SVG path data in thousandths of the type size, y down, the baseline at 0. */
  readonly path: string;
  /** Advance width in thousandths of the type size. */
  readonly width: number;
}

export interface CoverRequest {
  readonly title: string;
  readonly subtitle: string | null;
  /** Authors in a row, '' for none. */
  readonly author: string;
  readonly outline: (text: string, role: CoverRole) => TextOutline;
}

/** Pixels. */
export const COVER_SIZE = { width: 1600, height: 2560 } as const;

/** A cover's text alternative in the book's language: "Cover of TITLE by AUTHOR" (FACTS D-14, common practice). */
export function coverAlt(metadata: Metadata): string {
  const { title, language } = metadata;
  return ebookWords(language).coverOf(title, namesInARow(authorsOf(metadata), language));
}

interface Palette {
  readonly ground: string;
  readonly ink: string;
  readonly accent: string;
}

/** Deep grounds under a warm white; the contrast of ink to ground is above 9 to 1 in each. */
const PALETTES: readonly Palette[] = [
  { ground: '#1d2b3a', ink: '#f4ecdb', accent: '#c9a66b' },
  { ground: '#1f3a30', ink: '#f3ebd9', accent: '#c6a869' },
  { ground: '#4a1c22', ink: '#f6ecdd', accent: '#d3a878' },
  { ground: '#2e3236', ink: '#f2ede3', accent: '#bda47c' },
  { ground: '#352540', ink: '#f3eae0', accent: '#c9a781' },
  { ground: '#163b45', ink: '#f3ecdd', accent: '#d0aa6c' },
];

const CENTRE = COVER_SIZE.width / 2;
/** From the edge to the frame, and from the edge to the type. */
const FRAME = 84;
const TYPE_MARGIN = 190;
const MEASURE = COVER_SIZE.width - 2 * TYPE_MARGIN;

/** Limits of the title's size and depth, leadings as multiples of the size. */
const TITLE = { largest: 400, depth: 1120, leading: 1.04, mostLines: 6 };
const SUBTITLE = { largest: 88, depth: 330, leading: 1.25, mostLines: 4 };
const AUTHOR = { largest: 120, depth: 300, leading: 1.3, mostLines: 3 };
/** The title block, with ornament and subtitle, is centred on this height: above the middle, where a page looks balanced. */
const OPTICAL_CENTRE = 1010;
/** No higher than this. */
const TITLE_TOP = 300;
/** Baseline of the author's last line. */
const AUTHOR_BASELINE = COVER_SIZE.height - 290;
/** Height of capitals as a share of the size; close enough for any text face. */
const CAPITALS = 0.66;
/** Depth of descenders as a share of the size: room that the last line takes below its baseline. */
const DESCENDERS = 0.2;
const ORNAMENT_GAP = 96;
const ORNAMENT = { width: 420, height: 24 };

/** The cover as an SVG document. */
export function coverSvg(request: CoverRequest): string {
  const palette = paletteOf(request.title);
  const title = setBlock(request, 'title', request.title, TITLE);
  const subtitle = setBlock(request, 'subtitle', request.subtitle ?? '', SUBTITLE);
  const author = setBlock(request, 'author', request.author, AUTHOR);
  const ornamentGap = ORNAMENT_GAP + title.size * DESCENDERS;
  const depth = depthOf(title) + ornamentGap + ORNAMENT.height + ORNAMENT_GAP + depthOf(subtitle);
  const top = Math.max(TITLE_TOP, OPTICAL_CENTRE - depth / 2);
  const ornamentTop = top + depthOf(title) + ornamentGap;
  const subtitleTop = ornamentTop + ORNAMENT.height + ORNAMENT_GAP;
  const body = [
    `<rect width="${COVER_SIZE.width}" height="${COVER_SIZE.height}" fill="${palette.ground}"/>`,
    frame(palette.accent),
    lines(title, top, palette.ink),
    ornament(ornamentTop, palette.accent),
    lines(subtitle, subtitleTop, palette.ink),
    lines(author, AUTHOR_BASELINE - depthOf(author), palette.ink),
  ];
  const { width, height } = COVER_SIZE;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">\n${body.join('\n')}\n</svg>\n`;
}

interface Block extends LineFit {
  readonly leading: number;
  readonly outlines: readonly TextOutline[];
}

function setBlock(
  request: CoverRequest,
  role: CoverRole,
  text: string,
  limits: { readonly largest: number; readonly depth: number; readonly leading: number; readonly mostLines: number },
): Block {
  const words = legalCharacters(text)
    .split(/\s+/u)
    .filter((word) => word !== '');
  const widthOf = (part: string): number => request.outline(part, role).width;
  const fitted = fitLines(words, widthOf, { ...limits, measure: MEASURE });
  const outlines = fitted.lines.map((line) => request.outline(line, role));
  return { ...fitted, leading: limits.leading, outlines };
}

/** From the top of the first line's capitals to the last baseline. */
function depthOf(block: Block): number {
  if (block.lines.length === 0) return 0;
  return block.size * (CAPITALS + (block.lines.length - 1) * block.leading);
}

function lines(block: Block, top: number, ink: string): string {
  const scale = block.size / 1000;
  return block.outlines
    .map((outline, index) => {
      const x = CENTRE - (outline.width * scale) / 2;
      const y = top + block.size * (CAPITALS + index * block.leading);
      return `<path fill="${ink}" transform="translate(${round(x)} ${round(y)}) scale(${round(scale)})" d="${outline.path}"/>`;
    })
    .join('\n');
}

/** A rule and a hairline around the page. */
function frame(colour: string): string {
  const rule = (inset: number, weight: number): string =>
    `<rect x="${inset}" y="${inset}" width="${COVER_SIZE.width - 2 * inset}" height="${COVER_SIZE.height - 2 * inset}" fill="none" stroke="${colour}" stroke-width="${weight}"/>`;
  return `${rule(FRAME, 5)}\n${rule(FRAME + 18, 1.5)}`;
}

/** A rule that swells towards a lozenge in its middle. */
function ornament(top: number, colour: string): string {
  const { width, height } = ORNAMENT;
  const [left, right, middle] = [CENTRE - width / 2, CENTRE + width / 2, top + height / 2];
  const half = height / 2;
  const arm = (end: number, side: 1 | -1): string => {
    const inner = CENTRE + side * 26;
    return `M${end} ${middle}Q${(end + inner) / 2} ${middle - 1} ${inner} ${middle - 4.5}L${inner + side * -9} ${middle}L${inner} ${middle + 4.5}Q${(end + inner) / 2} ${middle + 1} ${end} ${middle}Z`;
  };
  const lozenge = `M${CENTRE - half} ${middle}L${CENTRE} ${middle - half}L${CENTRE + half} ${middle}L${CENTRE} ${middle + half}Z`;
  return `<path fill="${colour}" d="${arm(left, -1)}${arm(right, 1)}${lozenge}"/>`;
}

/** The same title has the same colours on every machine: a sum over its characters chooses (FNV-1a, 32 bits). */
function paletteOf(title: string): Palette {
  let hash = 0x811c9dc5;
  for (let at = 0; at < title.length; at++) hash = Math.imul(hash ^ title.charCodeAt(at), 0x01000193);
  const palette = PALETTES[(hash >>> 0) % PALETTES.length];
  if (!palette) throw new RangeError('no palette');
  return palette;
}

function round(value: number): number {
  return Math.round(value * 10_000) / 10_000;
}
