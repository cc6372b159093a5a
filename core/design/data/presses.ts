/**
 * What printers ask of an interior, in inches as quoted. Sources: margin, gutter and page-count tables of two
 * print-on-demand printers, in transcriptions up to January 2026. Printers change figures: check the date.
 */
export const PRESSES_DATE = '2026-01';

export const PRESS_TABLE = [
  {
    id: 'pod-standard',
    name: 'Print on demand, standard',
    /** Least inside margin by page count, both ends included. */
    gutters: [
      { from: 24, to: 150, inside: 0.375 },
      { from: 151, to: 300, inside: 0.5 },
      { from: 301, to: 500, inside: 0.625 },
      { from: 501, to: 700, inside: 0.75 },
      { from: 701, to: 828, inside: 0.875 },
    ],
    outside: { noBleed: 0.25, bleed: 0.375 },
    bleed: 0.125,
    pages: [
      { paper: 'white', from: 24, to: 828 },
      { paper: 'cream', from: 24, to: 776 },
    ],
  },
  {
    id: 'pod-generous',
    name: 'Print on demand, generous gutters',
    gutters: [
      { from: 32, to: 60, inside: 0.5 },
      { from: 61, to: 150, inside: 0.625 },
      { from: 151, to: 400, inside: 1 },
      { from: 401, to: 600, inside: 1.125 },
      { from: 601, to: 800, inside: 1.25 },
    ],
    outside: { noBleed: 0.5, bleed: 0.5 },
    bleed: 0.125,
    pages: [{ paper: 'white', from: 32, to: 800 }],
  },
] as const;
