/**
 * The fonts installed on this computer, as far as the window knows of them. In: the host, asked when a book or a list of
 * fonts wants them; out: families, and the faces that a design wants beside those that travel with the program.
 */
import type { Book } from '#book';
import { type DesignSettings, readSettings } from '#design';
import type { BundledFace, Host, InstalledFamily } from '#host';
import { Store } from './store.ts';

/** A face of this computer, by the address of its bytes. */
export interface InstalledFace {
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  readonly address: string;
}

export class FontStore extends Store<readonly InstalledFamily[] | null> {
  private asked: Promise<void> | null = null;
  private readonly bundled: ReadonlySet<string>;
  private readonly helpers: ReadonlySet<string>;

  constructor(
    private readonly host: Pick<Host, 'installedFonts'>,
    fonts: readonly BundledFace[],
  ) {
    super(null);
    this.bundled = new Set(fonts.filter((each) => !each.fallback).map((each) => each.family));
    this.helpers = new Set(fonts.map((each) => each.family));
  }

  /** Asks for the families once; a host that does not answer may be asked again. */
  load(): Promise<void> {
    this.asked ??= this.fetch();
    return this.asked;
  }

  /** Asks anew: fonts come and go while the program runs, and the host reads only what is new. */
  refresh(): Promise<void> {
    this.asked = this.fetch();
    return this.asked;
  }

  /** What is known of a family; null for one that is not installed, or not known of yet. */
  about(family: string): InstalledFamily | null {
    return this.get()?.find((each) => each.family === family) ?? null;
  }

  /** The faces of families in which a book can be set. */
  faces(families: readonly string[]): readonly InstalledFace[] {
    return families.flatMap((family) => {
      const found = this.about(family);
      return found ? installedFaces(found) : [];
    });
  }

  /** The families beyond those that travel with the program that the book's own designs ask for. */
  wanted(designs: Book['designs']): readonly string[] {
    const families = designs.flatMap(({ id, settings }) => {
      const read = readSettings(id, settings);
      return read.ok ? this.wantedBy(read.value) : [];
    });
    return [...new Set(families)];
  }

  wantedBy({ text, display, sceneBreak: { own } }: DesignSettings): readonly string[] {
    const set = [text.family, display.family].filter((family) => !this.bundled.has(family));
    return own?.kind === 'glyph' && !this.helpers.has(own.family) ? [...set, own.family] : set;
  }

  private async fetch(): Promise<void> {
    try {
      const all = await this.host.installedFonts({});
      const families = all.filter(({ family }) => !this.bundled.has(family));
      if (JSON.stringify(families) !== JSON.stringify(this.get())) this.become(families);
    } catch (problem) {
      this.asked = null;
      throw problem;
    }
  }
}

/** The faces that may be embedded. */
export function installedFaces({ family, faces }: InstalledFamily): readonly InstalledFace[] {
  return faces
    .filter(({ embedding }) => embedding !== 'restricted' && embedding !== 'bitmapOnly')
    .map(({ id, weight, italic }) => ({ family, weight, italic, address: `installed/${id}` }));
}
