/**
 * What a reading system adds to an ebook's own style: screen, margins, text size, colours. In: a look; out: CSS that comes
 * after the book's.
 */
import { type EbookLookState, SCREEN_MARGINS, SCREENS, type Tone } from './viewStore.ts';

export interface ScreenLook {
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
  /** Margin at either side. */
  readonly side: number;
  readonly above: number;
  readonly below: number;
  /** Per cent. */
  readonly textSize: number;
  readonly tone: Tone;
}

/** Paper and ink of each tone; all read at more than 7 to 1 (WCAG 2.2, 1.4.6). */
export const TONE_COLOURS: Readonly<Record<Tone, { readonly paper: string; readonly ink: string }>> = {
  day: { paper: '#ffffff', ink: '#111111' },
  sepia: { paper: '#f6ecd6', ink: '#3b2a17' },
  night: { paper: '#121212', ink: '#d6d2ca' },
};

/** A tablet's text is read from farther away. */
const BASE_SIZE = { phone: 17, reader: 18, tablet: 20 } as const;

export function screenLook({ screen, textSize, margin, tone }: EbookLookState): ScreenLook {
  const { width, height } = SCREENS[screen];
  const side = Math.round(width * SCREEN_MARGINS[margin]);
  const size = (BASE_SIZE[screen] * textSize) / 16;
  return { width, height, side, above: 36, below: 44, textSize: size, tone };
}

/** Columns as wide as the screen less its margins, the gap between two as wide as both margins: a page each. */
export function readingSheet({ width, height, side, above, below, textSize, tone }: ScreenLook): string {
  const { paper, ink } = TONE_COLOURS[tone];
  const column = width - 2 * side;
  const tall = height - above - below;
  return `
html { width: ${width}px; height: ${height}px; overflow: hidden; background: ${paper}; color: ${ink}; font-size: ${textSize}%; }
body {
  box-sizing: content-box; width: ${column}px; height: ${tall}px; margin: 0; padding: ${above}px ${side}px ${below}px;
  columns: ${column}px; column-gap: ${2 * side}px; column-fill: auto; overflow: visible; overflow-wrap: break-word;
}
img, svg { max-width: 100%; max-height: ${tall}px; object-fit: contain; break-inside: avoid; }
`;
}
