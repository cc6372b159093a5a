/**
 * Filling: a section's flow becomes the contents of pages. `Filler` is the seam at which another search may be put in: it
 * reads rows, costs and other lengths, and says which rows stand on which page and line.
 */
import type { Side } from '#page';
import type { Flow, Paint, Row } from '../flow.ts';
import type { FillMemory } from './memory.ts';

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

export interface FillRequest {
  readonly flow: Flow;
  /** The side of the section's first page. */
  readonly side: Side;
  /** What the last filling of this section found. The pages are the same without it. */
  readonly memory?: FillMemory;
}

export type Filler = (request: FillRequest) => readonly PageContent[];
