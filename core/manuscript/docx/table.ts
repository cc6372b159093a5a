/** Tables: rows of cells of blocks; spans and looks are not kept. */
import type { RawBlock, RawTable } from '../raw.ts';
import { ControlScope } from './controls.ts';
import type { Story } from './story.ts';
import type { Scope } from './xml.ts';

type Row = (readonly RawBlock[])[];

export class TableScope implements Scope {
  private readonly rows: Row[] = [];

  constructor(
    private readonly story: Story,
    private readonly done: (table: RawTable) => void,
  ) {}

  open(name: string): Scope | null {
    switch (name) {
      case 'w:tr':
        return new RowScope(this.story, (row) => this.rows.push(row));
      case 'w:sdt':
        return new ControlScope(this, this.story);
      case 'w:tblPr':
      case 'w:tblGrid':
        return null;
      default:
        return this;
    }
  }

  close(name: string): void {
    if (name === 'w:tbl') this.done({ kind: 'table', rows: this.rows });
  }
}

class RowScope implements Scope {
  private readonly cells: Row = [];
  private deleted = false;

  constructor(
    private readonly story: Story,
    private readonly done: (row: Row) => void,
  ) {}

  open(name: string): Scope | null {
    switch (name) {
      case 'w:tc':
        return this.story.shared.openBlocks(this.story, (blocks) => this.cells.push(blocks));
      case 'w:sdt':
        return new ControlScope(this, this.story);
      case 'w:del':
        this.deleted = true;
        return null;
      case 'w:tblPrEx':
      case 'w:trPrChange':
        return null;
      default:
        return this;
    }
  }

  close(name: string): void {
    if (name !== 'w:tr') return;
    if (this.deleted) this.story.shared.remarks.add('tracked-deletion');
    else this.done(this.cells);
  }
}
