/** Shapes of a drawing as path data (SVG 2, chapter 10). In: an element; out: its outline, null for what is no shape. */

export function shapePath(element: Element): string | null {
  const figure = (name: string): number => Number.parseFloat(element.getAttribute(name) ?? '') || 0;
  switch (element.localName) {
    case 'path':
      return element.getAttribute('d') ?? '';
    case 'rect':
      return rectangle(element, figure);
    case 'circle':
      return ellipse(figure('cx'), figure('cy'), figure('r'), figure('r'));
    case 'ellipse':
      return ellipse(figure('cx'), figure('cy'), figure('rx'), figure('ry'));
    case 'polygon':
    case 'polyline': {
      const points = (element.getAttribute('points') ?? '').trim();
      return points === '' ? '' : `M${points}Z`;
    }
    // A line has no inside to be filled.
    case 'line':
      return '';
    default:
      return null;
  }
}

function rectangle(element: Element, figure: (name: string) => number): string {
  const [x, y, width, height] = [figure('x'), figure('y'), figure('width'), figure('height')];
  if (width <= 0 || height <= 0) return '';
  const rx = Math.min(element.hasAttribute('rx') ? figure('rx') : figure('ry'), width / 2);
  const ry = Math.min(element.hasAttribute('ry') ? figure('ry') : figure('rx'), height / 2);
  if (rx <= 0 || ry <= 0) return `M${x} ${y}h${width}v${height}h${-width}Z`;
  const corner = (dx: number, dy: number): string => `a${rx} ${ry} 0 0 1 ${dx} ${dy}`;
  const [across, down] = [width - 2 * rx, height - 2 * ry];
  return (
    `M${x + rx} ${y}h${across}${corner(rx, ry)}v${down}${corner(-rx, ry)}` +
    `h${-across}${corner(-rx, -ry)}v${-down}${corner(rx, -ry)}Z`
  );
}

function ellipse(x: number, y: number, rx: number, ry: number): string {
  if (rx <= 0 || ry <= 0) return '';
  return `M${x - rx} ${y}a${rx} ${ry} 0 0 1 ${2 * rx} 0a${rx} ${ry} 0 0 1 ${-2 * rx} 0Z`;
}
