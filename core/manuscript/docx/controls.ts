/** Content controls (w:sdt), at every level of the text: the wrapping goes, the content stays. */
import type { Story } from './story.ts';
import { Passage, type Scope, type Tag } from './xml.ts';

export class ControlScope implements Scope {
  private contents = false;

  constructor(
    private readonly inner: Scope,
    private readonly story: Story,
  ) {}

  open(name: string, tag: Tag): Scope | null {
    switch (name) {
      case 'w:sdtPr':
      case 'w:docPartObj':
        return this;
      case 'w:docPartGallery':
        if (tag.get('w:val') === 'Table of Contents' && !this.contents) {
          this.contents = true;
          this.story.contentsControls++;
        }
        return null;
      case 'w:sdtContent':
        return new Passage(this.inner);
      default:
        return null;
    }
  }

  close(name: string): void {
    if (name === 'w:sdt' && this.contents) this.story.contentsControls--;
  }
}
