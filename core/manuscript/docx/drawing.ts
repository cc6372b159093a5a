/** Drawings, in both vocabularies (DrawingML and VML): pictures, text boxes and ruled lines inside them. */
import type { Points } from '#base';
import type { InlineSink } from './inlines.ts';
import { EMU_PER_POINT, length } from './values.ts';
import type { Scope, Tag } from './xml.ts';

export class DrawingScope implements Scope {
  private alt = '';
  private width: Points | null = null;
  private height: Points | null = null;

  /** Pictures in hidden runs are dropped, and their text with them. */
  constructor(
    private readonly paragraph: InlineSink,
    private readonly hidden: boolean,
  ) {}

  open(name: string, tag: Tag): Scope | null {
    switch (name) {
      case 'wp:extent':
        this.width = length(tag.get('cx'), EMU_PER_POINT);
        this.height = length(tag.get('cy'), EMU_PER_POINT);
        return null;
      case 'wp:docPr':
        this.alt = tag.get('descr') || tag.get('title') || '';
        return this;
      case 'pic:cNvPr':
        this.alt ||= tag.get('descr') || tag.get('title') || '';
        return this;
      case 'a:blip':
        return new BlipScope(tag, (ids) => this.addImage(ids));
      case 'v:shape':
      case 'v:rect':
        return this.openShape(tag);
      case 'v:imagedata':
        this.alt ||= tag.get('o:title') ?? '';
        this.addImage([tag.get('r:id') ?? tag.get('r:pict')]);
        return null;
      case 'w:txbxContent':
        return this.openTextBox();
      case 'c:chart':
      case 'dgm:relIds':
        this.paragraph.story.shared.remarks.add('drawing');
        return null;
      default:
        return this;
    }
  }

  private openShape(tag: Tag): Scope {
    const rule = tag.get('o:hr');
    if (rule === 't' || rule === 'true' || rule === '1') this.paragraph.addRule();
    this.alt = tag.get('alt') ?? this.alt;
    const style = tag.get('style') ?? '';
    this.width = length(/(?:^|;)\s*width\s*:\s*([^;]+)/.exec(style)?.[1], 1) ?? this.width;
    this.height = length(/(?:^|;)\s*height\s*:\s*([^;]+)/.exec(style)?.[1], 1) ?? this.height;
    return this;
  }

  private openTextBox(): Scope | null {
    const { paragraph } = this;
    const { story } = paragraph;
    if (this.hidden) {
      story.shared.remarks.add('hidden-text');
      return null;
    }
    story.frames++;
    return story.shared.openBlocks(story, (blocks) => {
      story.frames--;
      paragraph.addFrame(blocks);
    });
  }

  /** The first of these relationships whose picture can be used. */
  private addImage(ids: readonly (string | undefined)[]): void {
    const { paragraph, alt, width, height } = this;
    const { shared, relationships } = paragraph.story;
    const known = ids.filter((id) => id !== undefined);
    if (known.length === 0 || this.hidden) return;
    const asset = shared.images.take(known, relationships);
    const size = height === null ? { width } : { width, height };
    if (asset !== null) paragraph.addInline({ kind: 'image', asset, alt, ...size }, paragraph.styleLook(null));
  }
}

/** a:blip: a picture, and perhaps the drawing that it was made from (asvg:svgBlip). */
class BlipScope implements Scope {
  private readonly ids: (string | undefined)[];

  constructor(
    tag: Tag,
    private readonly done: (ids: readonly (string | undefined)[]) => void,
  ) {
    this.ids = [tag.get('r:embed') ?? tag.get('r:link')];
  }

  open(name: string, tag: Tag): Scope | null {
    if (name === 'asvg:svgBlip') this.ids.push(tag.get('r:embed'));
    return this;
  }

  close(name: string): void {
    if (name === 'a:blip') this.done(this.ids);
  }
}
