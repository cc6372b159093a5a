/**
 * The DOCX reader (ECMA-376 WordprocessingML, Transitional and Strict). In: the bytes of a file; out: the manuscript as
 * finally accepted, or one sentence that says why the file can't be read.
 */
import { failure, type Outcome, success } from '#base';
import type { RawBlock, RawManuscript, RawParagraph } from '../raw.ts';
import { BlockScope } from './blocks.ts';
import { Images } from './images.ts';
import { type Inflate, inflateInSlices } from './inflate.ts';
import { Unreadable } from './limits.ts';
import { NotesScope } from './notes.ts';
import { Numbering } from './numbering.ts';
import { OfficePackage, type Relationships } from './package.ts';
import { PropertiesScope } from './properties.ts';
import { Remarks } from './remarks.ts';
import { explainForeign, isZip } from './sniff.ts';
import { type Shared, Story } from './story.ts';
import { Styles } from './styles.ts';
import { Texts } from './texts.ts';
import type { Scope } from './xml.ts';
import { Zip } from './zip.ts';

/** Reads a manuscript. `name` is the file's name, with or without folder and extension; messages call the file by it. */
export function readDocx(bytes: Uint8Array, name: string, inflate: Inflate = inflateInSlices): Outcome<RawManuscript> {
  const file = `“${fileName(name)}”`;
  if (!isZip(bytes)) return failure(explainForeign(bytes, file));
  try {
    return success(new Reader(new OfficePackage(new Zip(bytes, file, inflate), file), name).read());
  } catch (problem) {
    if (problem instanceof Unreadable) return failure(problem.message);
    throw problem;
  }
}

class Reader {
  private readonly mainPart: string;
  private readonly relationships: Relationships;
  private readonly remarks = new Remarks();

  constructor(
    private readonly source: OfficePackage,
    private readonly name: string,
  ) {
    this.mainPart = source.mainPart();
    this.relationships = source.relationshipsOf(this.mainPart);
  }

  read(): RawManuscript {
    const shared = this.readShared();
    const notes = this.readNotes(shared);
    const blocks = shared.texts.settle(this.readBody(new Story(shared, this.relationships, notes)));
    const properties = this.readProperties();
    const language = shared.texts.mainLanguage() ?? properties.language;
    return {
      name: bareName(this.name),
      blocks,
      assets: shared.images.assets,
      properties: { ...properties, language },
      remarks: this.remarks.list(),
    };
  }

  private readShared(): Shared {
    const styles = new Styles();
    this.readRelated('styles', this.mainPart, styles);
    const numbering = new Numbering((style) => styles.numberingOf(style));
    this.readRelated('numbering', this.mainPart, numbering);
    return {
      styles,
      numbering,
      images: new Images(this.source, this.remarks),
      remarks: this.remarks,
      openBlocks: (story, done) => new BlockScope(story, done),
      texts: new Texts(styles.look(null, null).language),
    };
  }

  private readNotes(shared: Shared): ReadonlyMap<string, readonly RawParagraph[]> {
    const found = new Map<string, readonly RawParagraph[]>();
    for (const place of ['foot', 'end'] as const) {
      for (const part of this.related(`${place}notes`)) {
        const story = new Story(shared, this.source.relationshipsOf(part), new Map());
        this.source.readPart(part, new NotesScope(story, place, found));
      }
    }
    return found;
  }

  private readBody(story: Story): readonly RawBlock[] {
    const scope = new DocumentScope(story);
    const found = this.source.readPart(this.mainPart, scope);
    if (!found || scope.blocks === null) {
      throw new Unreadable(`${this.source.file} can't be read: its part ${this.mainPart} holds no document text.`);
    }
    story.end();
    return scope.blocks;
  }

  private readProperties(): RawManuscript['properties'] {
    const scope = new PropertiesScope();
    try {
      this.readRelated('core-properties', '', scope);
    } catch (problem) {
      // Title and author in the file's properties are only hints; the text can be read without them.
      if (!(problem instanceof Unreadable)) throw problem;
      this.remarks.add('file-properties');
    }
    return scope.properties();
  }

  private readRelated(type: string, from: string, scope: Scope): void {
    const parts = from === '' ? this.source.targetsOf('', type) : this.related(type);
    if (parts[0] !== undefined) this.source.readPart(parts[0], scope);
  }

  private related(type: string): readonly string[] {
    const all = [...this.relationships.values()];
    return all.filter((each) => each.type === type && !each.external).map((each) => each.target);
  }
}

/** The main part: w:document and its w:body. */
class DocumentScope implements Scope {
  blocks: readonly RawBlock[] | null = null;

  constructor(private readonly story: Story) {}

  open(name: string): Scope | null {
    if (name === 'w:document') return this;
    if (name !== 'w:body' || this.blocks !== null) return null;
    return new BlockScope(this.story, (blocks) => {
      this.blocks = blocks;
    });
  }
}

function fileName(path: string): string {
  return path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
}

function bareName(path: string): string {
  return fileName(path).replace(/(.)\.[a-z]{3,5}$/i, '$1');
}
