/**
 * Trim sizes of the trade, in inches as quoted. Sources: published specifications of print-on-demand printers and trade
 * pages, read in January 2026 (mass-market and A-format: trade pages; A5 and A4: ISO 216; the rest: a print-on-demand
 * printer's specification). Printers change their lists: check before relying on one.
 */
export const TRIMS_DATE = '2026-01';

export const TRIM_TABLE = [
  { id: 'mass-market', name: 'Mass market', width: 4.25, height: 6.87 },
  { id: 'a-format', name: 'A-format', width: 4.37, height: 7.01 },
  { id: '5x8', name: 'Small trade', width: 5, height: 8 },
  { id: 'b-format', name: 'B-format', width: 5.06, height: 7.81 },
  { id: '5.25x8', name: 'Trade', width: 5.25, height: 8 },
  { id: '5.5x8.5', name: 'Digest', width: 5.5, height: 8.5 },
  { id: 'demy', name: 'Demy', width: 5.43, height: 8.5 },
  { id: 'a5', name: 'A5', width: 5.83, height: 8.27 },
  { id: '6x9', name: 'US trade', width: 6, height: 9 },
  { id: 'royal', name: 'Royal', width: 6.14, height: 9.21 },
  { id: 'pinched-crown', name: 'Pinched crown', width: 6.69, height: 9.61 },
  { id: '7x10', name: 'Textbook', width: 7, height: 10 },
  { id: 'crown-quarto', name: 'Crown quarto', width: 7.44, height: 9.69 },
  { id: '7.5x9.25', name: '7.5 by 9.25', width: 7.5, height: 9.25 },
  { id: '8x10', name: '8 by 10', width: 8, height: 10 },
  { id: '8.25x6', name: 'Landscape', width: 8.25, height: 6 },
  { id: '8.25x8.25', name: 'Square', width: 8.25, height: 8.25 },
  { id: '8.5x8.5', name: 'Large square', width: 8.5, height: 8.5 },
  { id: 'letter', name: 'Letter', width: 8.5, height: 11 },
  { id: 'a4', name: 'A4', width: 8.27, height: 11.69 },
] as const;
