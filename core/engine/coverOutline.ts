/** Text as outlines for a generated cover. In: a family's faces; out: the function that the ebook room's cover asks for. */
import type { CoverRole, TextOutline } from '#ebook';
import type { FontFace, FontFamily, ShapeSetting } from '#type';

interface RoleLook {
  readonly face: FontFace;
  readonly features: string;
  /** Thousandths of the size between letters. */
  readonly letterspace: number;
}

/**
 * Outlines of a line of text in the look of its role: the author in spaced small capitals, the subtitle in italic.
 * Characters that the family lacks come from the first fallback that has them.
 */
export function coverOutline(
  family: FontFamily,
  fallbacks: readonly FontFace[],
  language: string,
): (text: string, role: CoverRole) => TextOutline {
  const looks: Readonly<Record<CoverRole, RoleLook>> = {
    title: { face: family.regular, features: '', letterspace: 4 },
    subtitle: { face: family.italic, features: '', letterspace: 6 },
    author: smallCapitals(family.regular),
  };
  return (text, role) => {
    const pen = new Pen(looks[role], language);
    const runs = runsOf(text, looks[role].face, fallbacks);
    // Runs of a line that is read from the right stand in reverse.
    for (const run of isRightToLeft(text) ? runs.reverse() : runs) pen.write(run);
    return pen;
  };
}

function smallCapitals(face: FontFace): RoleLook {
  const real = face.hasFeature('smcp') && face.hasFeature('c2sc');
  return { face, features: real ? 'c2sc,smcp' : '', letterspace: 110 };
}

/** Hebrew, Arabic and their neighbours (Unicode blocks U+0590 to U+08FF, and presentation forms). */
function isRightToLeft(text: string): boolean {
  return /[\u0590-\u08FF\uFB1D-\uFDFF\uFE70-\uFEFC]/.test(text);
}

interface Run {
  readonly face: FontFace;
  text: string;
}

/** Stretches of one face each. */
function runsOf(text: string, face: FontFace, fallbacks: readonly FontFace[]): Run[] {
  const runs: Run[] = [];
  for (const character of text) {
    const codePoint = character.codePointAt(0) ?? 0;
    const last = runs.at(-1);
    const able = [last?.face ?? face, face, ...fallbacks].find((each) => each.has(codePoint)) ?? face;
    if (last?.face === able) last.text += character;
    else runs.push({ face: able, text: character });
  }
  return runs;
}

/** A glyph's place on the line. */
interface Placed {
  readonly face: FontFace;
  readonly glyph: number;
  readonly x: number;
  readonly y: number;
}

/** Writes runs one after the other. */
class Pen implements TextOutline {
  private x = 0;
  private readonly placed: Placed[] = [];

  constructor(
    private readonly look: RoleLook,
    private readonly language: string,
  ) {}

  write({ face, text }: Run): void {
    const rightToLeft = isRightToLeft(text);
    const setting: ShapeSetting = {
      features: face === this.look.face ? this.look.features : '',
      language: this.language,
      direction: rightToLeft ? 'rtl' : 'ltr',
    };
    const shaped = face.shape(text, setting);
    const scale = 1000 / face.unitsPerEm;
    // Letters of a joined script may not be spaced.
    const letterspace = rightToLeft ? 0 : this.look.letterspace;
    shaped.glyphs.forEach((glyph, index) => {
      const dx = (shaped.offsets?.[index * 2] ?? 0) * scale;
      const dy = (shaped.offsets?.[index * 2 + 1] ?? 0) * scale;
      this.placed.push({ face, glyph, x: this.x + dx, y: -dy });
      this.x += (shaped.advances[index] ?? 0) * scale + letterspace;
    });
  }

  /** Drawn when it is asked for: most lines are only measured. */
  get path(): string {
    return this.placed
      .map(({ face, glyph, x, y }) => moved(face.outline(glyph), { scale: 1000 / face.unitsPerEm, x, y }))
      .join('');
  }

  get width(): number {
    return Math.max(0, this.x - this.look.letterspace);
  }
}

/** Path data scaled, turned upside down (fonts count upwards) and moved. Commands are absolute, as HarfBuzz draws them. */
function moved(path: string, to: { readonly scale: number; readonly x: number; readonly y: number }): string {
  let vertical = false;
  return path.replace(/([A-Za-z])|(-?\d*\.?\d+(?:e-?\d+)?)/g, (token, command: string | undefined) => {
    if (command !== undefined) {
      if (!'MLQCZ'.includes(command)) throw new RangeError(`unexpected path command ${command}`);
      vertical = false;
      return command;
    }
    const value = Number(token) * to.scale;
    const placed = vertical ? to.y - value : to.x + value;
    vertical = !vertical;
    return String(Math.round(placed * 10) / 10);
  });
}
