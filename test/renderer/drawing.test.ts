/** Drawings of one's own between scenes: what becomes one outline, and what is refused with a reason. */
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import type { Json } from '#book';
import { isOutline, readSettings } from '#design';
import { readPath } from '#print';
import { readDrawing } from '../../renderer/design/drawing.ts';

/** As much of an element as a drawing is read by. */
class Part {
  readonly children: Part[] = [];
  textContent = '';

  constructor(
    readonly localName: string,
    private readonly attributes: Readonly<Record<string, string>>,
    readonly parentElement: Part | null,
  ) {}

  getAttribute(name: string): string | null {
    return this.attributes[name] ?? null;
  }

  hasAttribute(name: string): boolean {
    return name in this.attributes;
  }

  getElementsByTagName(name: string): readonly Part[] {
    return this.children.flatMap((each) => [
      ...(each.localName === name ? [each] : []),
      ...each.getElementsByTagName(name),
    ]);
  }
}

function root(text: string): Element {
  const parser = new SaxesParser();
  const open: Part[] = [];
  let first: Part | null = null;
  parser.on('opentag', ({ name, attributes }) => {
    const around = open.at(-1) ?? null;
    const part = new Part(name, attributes as Record<string, string>, around);
    around?.children.push(part);
    first ??= part;
    open.push(part);
  });
  parser.on('text', (words) => {
    const part = open.at(-1);
    if (part) part.textContent += words;
  });
  parser.on('closetag', () => open.pop());
  parser.write(text).close();
  if (!first) throw new RangeError('no element');
  return first as unknown as Element;
}

const svg = (inside: string) => readDrawing('a.svg', root(`<svg xmlns="http://www.w3.org/2000/svg">${inside}</svg>`));

function drawing(inside: string) {
  const read = svg(inside);
  if (!read.ok) throw new RangeError(read.problem);
  expect(isOutline(read.value.path)).toBe(true);
  const own = { kind: 'drawing', ...read.value, height: 2 };
  expect(readSettings('x', { sceneBreak: { own: own as unknown as Json } })).toMatchObject({
    ok: true,
    value: { sceneBreak: { own } },
  });
  return read.value;
}

/** Twice the area that a path of straight lines goes round, in the units of the view box. */
function areaOf(path: string): number {
  const points = readPath(path).flatMap((each) =>
    each.kind === 'move' || each.kind === 'line' ? [[each.x, each.y]] : [],
  );
  return points.reduce((sum, [x = 0, y = 0], at) => {
    const [nextX = 0, nextY = 0] = points[(at + 1) % points.length] ?? [];
    return sum + x * nextY - nextX * y;
  }, 0);
}

describe('a drawing', () => {
  it('is cut to its ink, a thousand units at its longer side', () => {
    const { path, viewBox } = drawing('<rect x="10" y="20" width="40" height="10"/>');
    expect(viewBox).toEqual({ width: 1000, height: 250 });
    expect(path).toBe('M0 0L1000 0L1000 250L0 250Z');
  });

  it('has its transforms, groups and shapes in one path', () => {
    const moved = '<g transform="translate(5 5) scale(2)"><rect width="10" height="5"/></g>';
    const turned = '<polygon transform="rotate(90 0 0)" points="5,-25 15,-25 15,-5 5,-5"/>';
    expect(drawing(moved).viewBox).toEqual({ width: 1000, height: 500 });
    expect(drawing(moved + turned).path).toBe('M0 0L1000 0L1000 500L0 500ZM1000 0L1000 500L0 500L0 0Z');
    expect(drawing('<circle cx="3" cy="3" r="3"/>').viewBox).toEqual({ width: 1000, height: 1000 });
    expect(drawing('<path d="m0 0h10v10q-10 0-10-10z"/>').path).toContain('C');
    expect(drawing('<g transform="matrix(1 0 0 -1 0 0)"><path d="M0 0L10 0L0 5Z"/></g>').viewBox.height).toBe(500);
  });

  it('has all its shapes go round the same way, so that none is cut out of another', () => {
    const one = drawing('<path d="M0 0L10 0L10 10L0 10Z"/>').path;
    const other = drawing('<path d="M0 0L0 10L10 10L10 0Z"/>').path;
    expect(areaOf(one)).toBeGreaterThan(0);
    expect(areaOf(other)).toBeCloseTo(areaOf(one), 3);
  });

  it('keeps the holes of a shape', () => {
    const { path } = drawing('<path d="M0 0L0 10L10 10L10 0ZM2 2L8 2L8 8L2 8Z"/>');
    const [outer, hole] = path.split(/(?<=Z)/).map(areaOf);
    expect(Math.sign(outer ?? 0)).toBe(1);
    expect(Math.sign(hole ?? 0)).toBe(-1);
  });

  it('takes colours from styles, classes and the elements around, and leaves out what is not filled or shown', () => {
    const styled =
      '<style>.st0{fill:#231F20;} .st1{fill:none;}</style><defs><rect width="90" height="90"/></defs>' +
      '<path class="st0" d="M0 0L10 0L10 10Z"/><path class="st1" d="M0 0L99 0L99 99Z"/>' +
      '<g fill="#231f20"><path style="fill:inherit" d="M0 0L5 0L5 5Z"/><path display="none" d="M0 0L99 99L0 99Z"/></g>';
    expect(drawing(styled).viewBox).toEqual({ width: 1000, height: 1000 });
  });
});

describe('a drawing is refused', () => {
  it.each([
    ['<path stroke="black" fill="none" d="M0 0L10 0"/>', 'strokes'],
    ['<g style="stroke:#000"><path d="M0 0L10 0L5 5Z"/></g>', 'strokes'],
    ['<path d="M0 0L10 0L5 5Z"/><path fill="red" d="M0 0L10 0L5 5Z"/>', 'several colours'],
    ['<path fill="url(#a)" d="M0 0L10 0L5 5Z"/>', 'gradient'],
    ['<text>A</text>', '(text)'],
    ['<image href="a.png"/>', '(image)'],
    ['<use href="#a"/>', '(use)'],
    ['<path clip-path="url(#a)" d="M0 0L10 0L5 5Z"/>', '(clip-path)'],
    ['<path fill-rule="evenodd" d="M0 0L10 0L5 5ZM1 1L2 2L1 2Z"/>', 'even-odd'],
    ['<path d="M0 0L10"/>', 'can’t be read'],
    ['<path transform="spin(9)" d="M0 0L10 0L5 5Z"/>', 'can’t be read'],
    ['<path d="M0 0L10 0"/>', 'no filled shapes'],
    ['', 'no filled shapes'],
    [`<path d="M0 0${'L1 2L3 1'.repeat(4000)}Z"/>`, 'too finely drawn'],
  ])('for what print can’t fill as it is (%#)', (inside, why) => {
    const read = svg(inside);
    expect(read).toEqual({ ok: false, problem: expect.stringMatching(/^“a\.svg” can’t stand between scenes .*\.$/) });
    expect(read.ok ? '' : read.problem).toContain(why);
  });

  it('where it is none', () => {
    expect(readDrawing('a.svg', root('<html/>')).ok).toBe(false);
    expect(isOutline('M0 0L1 1"/><script>')).toBe(false);
    expect(isOutline('M0 0 L1 1')).toBe(false);
  });
});
