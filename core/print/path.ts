/**
 * SVG path data as page operators. In: path data (SVG 2, chapter 9: all commands, absolute and relative); out: a list of
 * segments in absolute coordinates with lines and cubic curves only, which a sink writes at any place and size.
 */

export type Segment =
  | { readonly kind: 'move' | 'line'; readonly x: number; readonly y: number }
  | { readonly kind: 'curve'; readonly points: readonly [number, number, number, number, number, number] }
  | { readonly kind: 'close' };

/** Numbers that each command takes. */
const ARITY: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };
const TOKEN = /[MLHVCSQTAZmlhvcsqtaz]|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/g;
/** An arc's two flags may stand without space before the next number. */
const ARC = /([Aa])([^MLHVCSQTZmlhvcsqtza-df-z]*)/g;

/** Reads path data; RangeError for what is none. */
export function readPath(data: string): readonly Segment[] {
  const tokens = data.replace(ARC, (_, letter: string, rest: string) => letter + spacedFlags(rest)).match(TOKEN) ?? [];
  return new PathReader(tokens).read();
}

class PathReader {
  private readonly segments: Segment[] = [];
  private at = 0;
  private x = 0;
  private y = 0;
  private startX = 0;
  private startY = 0;
  /** The last control point, for S and T, and the kind of curve that it belongs to. */
  private controlX = 0;
  private controlY = 0;
  private controlOf: 'cubic' | 'quadratic' | null = null;

  constructor(private readonly tokens: readonly string[]) {}

  read(): readonly Segment[] {
    let command = '';
    while (this.at < this.tokens.length) {
      const token = this.tokens[this.at]!;
      if (/[A-Za-z]/.test(token[0]!)) {
        command = token;
        this.at++;
      } else if (command === '' || command === 'Z' || command === 'z') {
        throw new RangeError(`path data has a number where a command should stand: ${token}`);
      }
      this.command(command);
      // Further pairs after a move are lines.
      if (command === 'M') command = 'L';
      if (command === 'm') command = 'l';
    }
    return this.segments;
  }

  private command(letter: string): void {
    const kind = letter.toUpperCase();
    const values = this.take(ARITY[kind]!);
    const relative = letter !== kind;
    const dx = relative ? this.x : 0;
    const dy = relative ? this.y : 0;
    const absolute = kind === 'A' ? values : values.map((value, i) => value + (i % 2 === 0 ? dx : dy));
    const previous = this.controlOf;
    this.controlOf = null;
    switch (kind) {
      case 'M':
        this.move(absolute);
        break;
      case 'L':
        this.line(absolute[0]!, absolute[1]!);
        break;
      case 'H':
        this.line(absolute[0]!, this.y);
        break;
      case 'V':
        this.line(this.x, values[0]! + dy);
        break;
      case 'C':
        this.cubic(absolute);
        break;
      case 'S':
        this.cubic([...this.mirrored(previous === 'cubic'), ...absolute]);
        break;
      case 'Q':
        this.quadratic(absolute);
        break;
      case 'T':
        this.quadratic([...this.mirrored(previous === 'quadratic'), ...absolute]);
        break;
      case 'A':
        this.arc(values, dx, dy);
        break;
      default:
        this.close();
    }
  }

  private take(count: number): number[] {
    const values: number[] = [];
    for (let i = 0; i < count; i++) {
      const value = Number(this.tokens[this.at++]);
      if (!Number.isFinite(value)) throw new RangeError(`path data lacks a number at ${this.at - 1}`);
      values.push(value);
    }
    return values;
  }

  private move(to: readonly number[]): void {
    this.x = this.startX = to[0]!;
    this.y = this.startY = to[1]!;
    this.segments.push({ kind: 'move', x: this.x, y: this.y });
  }

  private line(x: number, y: number): void {
    this.x = x;
    this.y = y;
    this.segments.push({ kind: 'line', x, y });
  }

  private close(): void {
    this.x = this.startX;
    this.y = this.startY;
    this.segments.push({ kind: 'close' });
  }

  private mirrored(smooth: boolean): readonly [number, number] {
    return smooth ? [2 * this.x - this.controlX, 2 * this.y - this.controlY] : [this.x, this.y];
  }

  private cubic(values: readonly number[]): void {
    const [x1, y1, x2, y2, x, y] = values as [number, number, number, number, number, number];
    this.segments.push({ kind: 'curve', points: [x1, y1, x2, y2, x, y] });
    this.controlX = x2;
    this.controlY = y2;
    this.controlOf = 'cubic';
    this.x = x;
    this.y = y;
  }

  /** A quadratic curve is the cubic whose control points lie two thirds of the way to its own. */
  private quadratic(values: readonly number[]): void {
    const [cx, cy, x, y] = values as [number, number, number, number];
    const third = (from: number, control: number) => from + ((control - from) * 2) / 3;
    this.cubic([third(this.x, cx), third(this.y, cy), third(x, cx), third(y, cy), x, y]);
    this.controlX = cx;
    this.controlY = cy;
    this.controlOf = 'quadratic';
  }

  private arc(values: readonly number[], dx: number, dy: number): void {
    const [rx, ry, turn, large, sweep, x, y] = values as [number, number, number, number, number, number, number];
    const end = { x: x + dx, y: y + dy };
    const curves = arcCurves({
      from: { x: this.x, y: this.y },
      to: end,
      rx,
      ry,
      turn,
      large: large !== 0,
      sweep: sweep !== 0,
    });
    if (!curves) this.line(end.x, end.y);
    else for (const curve of curves) this.cubic(curve);
    this.controlOf = null;
    this.x = end.x;
    this.y = end.y;
  }
}

interface Point {
  readonly x: number;
  readonly y: number;
}

interface Arc {
  readonly from: Point;
  readonly to: Point;
  readonly rx: number;
  readonly ry: number;
  /** Degrees. */
  readonly turn: number;
  readonly large: boolean;
  readonly sweep: boolean;
}

/** An elliptic arc as cubic curves of a quarter turn at most (SVG 2, appendix B.2.4); null for a straight line. */
function arcCurves(arc: Arc): readonly (readonly number[])[] | null {
  let rx = Math.abs(arc.rx);
  let ry = Math.abs(arc.ry);
  if (rx === 0 || ry === 0 || (arc.from.x === arc.to.x && arc.from.y === arc.to.y)) return null;
  const cos = Math.cos((arc.turn * Math.PI) / 180);
  const sin = Math.sin((arc.turn * Math.PI) / 180);
  const halfX = (arc.from.x - arc.to.x) / 2;
  const halfY = (arc.from.y - arc.to.y) / 2;
  const x1 = cos * halfX + sin * halfY;
  const y1 = cos * halfY - sin * halfX;
  const stretch = Math.sqrt((x1 / rx) ** 2 + (y1 / ry) ** 2);
  if (stretch > 1) {
    rx *= stretch;
    ry *= stretch;
  }
  const part = Math.max(0, (rx * ry) ** 2 - (rx * y1) ** 2 - (ry * x1) ** 2) / ((rx * y1) ** 2 + (ry * x1) ** 2);
  const root = Math.sqrt(part) * (arc.large === arc.sweep ? -1 : 1);
  const cx1 = (root * rx * y1) / ry;
  const cy1 = (-root * ry * x1) / rx;
  const first = Math.atan2((y1 - cy1) / ry, (x1 - cx1) / rx);
  let sweep = Math.atan2((-y1 - cy1) / ry, (-x1 - cx1) / rx) - first;
  if (arc.sweep && sweep < 0) sweep += 2 * Math.PI;
  if (!arc.sweep && sweep > 0) sweep -= 2 * Math.PI;
  const center = {
    x: cos * cx1 - sin * cy1 + (arc.from.x + arc.to.x) / 2,
    y: sin * cx1 + cos * cy1 + (arc.from.y + arc.to.y) / 2,
  };
  const place = (x: number, y: number): readonly [number, number] => [
    center.x + cos * rx * x - sin * ry * y,
    center.y + sin * rx * x + cos * ry * y,
  ];
  return unitArc(first, sweep).map((curve) => [
    ...place(curve[0]!, curve[1]!),
    ...place(curve[2]!, curve[3]!),
    ...place(curve[4]!, curve[5]!),
  ]);
}

/** Curves along the unit circle. */
function unitArc(first: number, sweep: number): readonly (readonly number[])[] {
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 2) - 1e-9));
  const step = sweep / count;
  const reach = (4 / 3) * Math.tan(step / 4);
  const curves: number[][] = [];
  for (let i = 0; i < count; i++) {
    const a = first + i * step;
    const b = a + step;
    curves.push([
      Math.cos(a) - reach * Math.sin(a),
      Math.sin(a) + reach * Math.cos(a),
      Math.cos(b) + reach * Math.sin(b),
      Math.sin(b) - reach * Math.cos(b),
      Math.cos(b),
      Math.sin(b),
    ]);
  }
  return curves;
}

/** Puts spaces around the flags of each arc in a run of arc parameters. */
function spacedFlags(parameters: string): string {
  const number = '[-+]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][-+]?\\d+)?';
  const gap = '[\\s,]*';
  const arc = new RegExp(
    `(${number})${gap}(${number})${gap}(${number})${gap}([01])${gap}([01])${gap}(${number})${gap}(${number})`,
    'g',
  );
  return parameters.replace(arc, ' $1 $2 $3 $4 $5 $6 $7 ');
}
