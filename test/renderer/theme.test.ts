/** The colours of the interface: every pair of text and ground as WCAG 2.2 asks, in light, dark and higher contrast. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const css = readFileSync(new URL('../../renderer/ui/theme.css', import.meta.url), 'utf8');

/** The colours that a rule sets, over those of the rules before it. */
function colours(...selectors: readonly string[]): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const selector of selectors) {
    const start = css.indexOf(`\n${selector} {`);
    if (start < 0) throw new RangeError(`no rule ${selector}`);
    const rule = css.slice(start, css.indexOf('}', start));
    for (const [, name, value] of rule.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)) found.set(name!, value!);
  }
  return found;
}

/** Relative luminance (WCAG 2.2, definition). */
function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light! + 0.05) / (dark! + 0.05);
}

const LIGHT = ':root';
const DARK = ':root[data-shade="dark"]';
const MORE = ':root[data-contrast="more"]';
const MORE_DARK = ':root[data-contrast="more"][data-shade="dark"]';

/** Text, the grounds it stands on, and the least contrast: 4.5 for text (1.4.3), 3 for edges of controls (1.4.11). */
const PAIRS: readonly (readonly [string, readonly string[], number])[] = [
  ['ink', ['ground', 'raised', 'sunk', 'table', 'link-ground', 'accent-ground', 'cover'], 4.5],
  ['muted', ['ground', 'raised', 'sunk', 'table', 'link-ground'], 4.5],
  ['accent', ['ground', 'raised', 'accent-ground'], 4.5],
  ['link', ['ground', 'raised'], 4.5],
  ['on-link', ['link'], 4.5],
  ['edge', ['ground', 'raised'], 3],
];

function weakPairs(theme: ReadonlyMap<string, string>): readonly string[] {
  return PAIRS.flatMap(([text, grounds, least]) =>
    grounds.flatMap((ground) => {
      const found = contrast(theme.get(text)!, theme.get(ground)!);
      return found < least ? [`${text} on ${ground}: ${found.toFixed(2)}`] : [];
    }),
  );
}

test.each([
  ['light', [LIGHT]],
  ['dark', [LIGHT, DARK]],
  ['light, more contrast', [LIGHT, MORE]],
  ['dark, more contrast', [LIGHT, DARK, MORE, MORE_DARK]],
])('%s: every text can be read on every ground it stands on', (_name, rules) => {
  expect(weakPairs(colours(...rules))).toEqual([]);
});

test('the reckoning itself: black on white is 21 to 1', () => {
  // WCAG 2.2, definition of contrast ratio.
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
});
