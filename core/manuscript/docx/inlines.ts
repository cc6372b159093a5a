/** Where runs and drawings put what they hold: the paragraph being built. */
import type { RawBlock, RawInline } from '../raw.ts';
import type { Look } from './runProperties.ts';
import type { Story } from './story.ts';
import type { Scope } from './xml.ts';

export interface InlineSink {
  readonly story: Story;
  /** The look that styles alone give to a run of this paragraph. */
  styleLook(characterStyle: string | null): Look;
  addText(text: string, look: Look): void;
  addInline(inline: RawInline, look: Look): void;
  addFrame(blocks: readonly RawBlock[]): void;
  /** A drawn line across the measure. */
  addRule(): void;
}

/** The text of w:t and its kin. */
export class TextScope implements Scope {
  constructor(
    private readonly sink: InlineSink,
    private readonly look: Look,
  ) {}

  open(): null {
    return null;
  }

  text(text: string): void {
    this.sink.addText(text, this.look);
  }
}
