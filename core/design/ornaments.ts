/** Ornaments drawn for this project, as filled outlines: no face has to carry them, and every medium shows the same. */
import type { Size } from '#base';

export const ORNAMENT_IDS = ['lozenges', 'stars', 'dots', 'leaf', 'swelledRule', 'plainRule'] as const;
export type OrnamentId = (typeof ORNAMENT_IDS)[number];

export interface Ornament {
  /** One of `ORNAMENT_IDS`, or a name of its own for a mark that is no drawing of ours. */
  readonly id: string;
  /** How a screen reader or a list of choices calls it. */
  readonly name: string;
  /** SVG path data in the units of `viewBox`, y down, filled by the non-zero rule. */
  readonly path: string;
  readonly viewBox: Size;
  /** Natural width in ems of the text; the height follows. */
  readonly width: number;
}

/** A lozenge with sides drawn slightly in, the middle at (x, y). */
function lozenge(x: number, y: number, halfWidth: number, halfHeight: number): string {
  const [dx, dy] = [halfWidth * 0.36, halfHeight * 0.36];
  return (
    `M${x - halfWidth} ${y}Q${x - dx} ${y - dy} ${x} ${y - halfHeight}Q${x + dx} ${y - dy} ${x + halfWidth} ${y}` +
    `Q${x + dx} ${y + dy} ${x} ${y + halfHeight}Q${x - dx} ${y + dy} ${x - halfWidth} ${y}Z`
  );
}

/** A star of six drop-shaped petals around (x, y). */
function star(x: number, y: number, radius: number): string {
  let path = '';
  for (let petal = 0; petal < 6; petal++) {
    const angle = (petal * Math.PI) / 3 + Math.PI / 2;
    path += petalPath(x, y, radius, angle);
  }
  return path;
}

/** Where the handles of a quarter circle stand, as a share of the radius. */
const QUARTER = 0.5523;

/** A disc around (x, y). */
function disc(x: number, y: number, radius: number): string {
  const [near, far] = [round(radius * QUARTER), radius];
  return (
    `M${x - far} ${y}C${x - far} ${y - near} ${x - near} ${y - far} ${x} ${y - far}` +
    `C${x + near} ${y - far} ${x + far} ${y - near} ${x + far} ${y}` +
    `C${x + far} ${y + near} ${x + near} ${y + far} ${x} ${y + far}` +
    `C${x - near} ${y + far} ${x - far} ${y + near} ${x - far} ${y}Z`
  );
}

function petalPath(x: number, y: number, radius: number, angle: number): string {
  const at = (along: number, across: number): string => {
    const px = x + Math.cos(angle) * along * radius - Math.sin(angle) * across * radius;
    const py = y + Math.sin(angle) * along * radius + Math.cos(angle) * across * radius;
    return `${round(px)} ${round(py)}`;
  };
  return (
    `M${at(0.12, 0)}C${at(0.35, 0.05)} ${at(0.62, 0.2)} ${at(0.8, 0.2)}` +
    `C${at(1.06, 0.2)} ${at(1.06, -0.2)} ${at(0.8, -0.2)}C${at(0.62, -0.2)} ${at(0.35, -0.05)} ${at(0.12, 0)}Z`
  );
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}

const LEAF =
  // the blade: a rounded heart that ends in a point at the left, lying on its side
  'M4 15C12 13 16 2 28 2C38 2 42 9 39 14C36 19 30 17 29 14C26 22 17 26 4 15Z' +
  // the stem, a thin swelling curve from the heart's notch
  'M37.4 14.6C43 21 52 22 60 16.2C61 15.5 62 16.6 61.2 17.4C53 24.6 42 23.4 35.8 16Z';

const ORNAMENTS: Readonly<Record<OrnamentId, Ornament & { readonly id: OrnamentId }>> = {
  lozenges: {
    id: 'lozenges',
    name: 'Three lozenges',
    path: lozenge(5, 7, 4.4, 4.4) + lozenge(27, 7, 6.6, 6.6) + lozenge(49, 7, 4.4, 4.4),
    viewBox: { width: 54, height: 14 },
    width: 2.5,
  },
  stars: {
    id: 'stars',
    name: 'Three stars',
    path: star(9, 9, 8) + star(45, 9, 8) + star(81, 9, 8),
    viewBox: { width: 90, height: 18 },
    width: 3.4,
  },
  dots: {
    id: 'dots',
    name: 'Three dots',
    path: disc(4, 4, 3) + disc(44, 4, 3) + disc(84, 4, 3),
    viewBox: { width: 88, height: 8 },
    width: 3.6,
  },
  leaf: { id: 'leaf', name: 'Leaf', path: LEAF, viewBox: { width: 64, height: 26 }, width: 1.9 },
  swelledRule: {
    id: 'swelledRule',
    name: 'Swelled rule',
    path: `M0 3.2Q28 3 47 2.1L50 3.2L47 4.3Q28 3.4 0 3.2Z${lozenge(54, 3.2, 3, 3)}M108 3.2Q80 3 61 2.1L58 3.2L61 4.3Q80 3.4 108 3.2Z`,
    viewBox: { width: 108, height: 6.4 },
    width: 5.6,
  },
  plainRule: {
    id: 'plainRule',
    name: 'Tapered rule',
    path: 'M0 1Q50 0 100 1Q50 2 0 1Z',
    viewBox: { width: 100, height: 2 },
    width: 4,
  },
};

/** The ornament of that id. */
export function ornament(id: OrnamentId): Ornament {
  const found = ORNAMENTS[id];
  if (!found) throw new RangeError(`unknown ornament ${JSON.stringify(id)}`);
  return found;
}
