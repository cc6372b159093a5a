/** What filling gives: which rows stand on a page, and on which of its lines. */
import type { Flow, Paint, Row } from '../flow.ts';

export interface PlacedRow {
  readonly row: Row;
  /** The grid line, from 0, on which the row's last line stands. */
  readonly line: number;
  /** What the row shows: its own paint, or a scene break's ornament at the head or foot of the page. */
  readonly paint: Paint | null;
}

export interface PageContent {
  readonly flow: Flow;
  readonly rows: readonly PlacedRow[];
  /** Rows of notes, the last of them on the last grid line (a line below it on a page that runs long). */
  readonly notes: readonly Row[];
  /** Lines of the grid left white at the foot (or head, where the grid stands there); negative for lines below it. */
  readonly short: number;
  /** True on the section's first page. */
  readonly first: boolean;
  /** True on the section's last page. */
  readonly last: boolean;
}

/** Whether a page is a plate, a picture to its edges: it has neither head nor folio. */
export function isPlate({ rows }: PageContent): boolean {
  return rows.some(({ row }) => row.plate !== undefined);
}
