/** Transforms of a drawing. In: a `transform` attribute (CSS Transforms Level 1, as SVG 1.1 has it); out: one matrix. */

/** x' = a x + c y + e; y' = b x + d y + f. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export function multiplied([a, b, c, d, e, f]: Matrix, inner: Matrix): Matrix {
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

/** RangeError for what is no list of transforms. */
export function matrixOf(transform: string): Matrix {
  let matrix: Matrix = [1, 0, 0, 1, 0, 0];
  for (const [, name = '', list = ''] of transform.matchAll(/([A-Za-z]+)\s*\(([^)]*)\)/g)) {
    const values = (list.match(/[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/g) ?? []).map(Number);
    matrix = multiplied(matrix, one(name, values));
  }
  return matrix;
}

function one(name: string, values: readonly number[]): Matrix {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = values;
  switch (name) {
    case 'matrix':
      return [a, b, c, d, e, f];
    case 'translate':
      return [1, 0, 0, 1, a, b];
    case 'scale':
      return [a, 0, 0, values.length > 1 ? b : a, 0, 0];
    case 'rotate':
      return turned(a, b, c);
    case 'skewX':
      return [1, 0, Math.tan(radians(a)), 1, 0, 0];
    case 'skewY':
      return [1, Math.tan(radians(a)), 0, 1, 0, 0];
    default:
      throw new RangeError(`unknown transform ${name}`);
  }
}

/** A turn by degrees around a point. */
function turned(degrees: number, x: number, y: number): Matrix {
  const [cos, sin] = [Math.cos(radians(degrees)), Math.sin(radians(degrees))];
  return multiplied(multiplied([1, 0, 0, 1, x, y], [cos, sin, -sin, cos, 0, 0]), [1, 0, 0, 1, -x, -y]);
}

function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}
