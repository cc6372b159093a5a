/** The table of a design's settings: every one has a field, a name and a group; figures are read as people type them. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { builtInDesigns, readSettings } from '#design';
import { baseOf, differences } from '../../renderer/design/settings/compare.ts';
import { type Field, fieldOf, type MeasureField, SETTING_PATHS } from '../../renderer/design/settings/fields.ts';
import { GROUP_NAMES, settingsIn } from '../../renderer/design/settings/groups.ts';
import { type SettingPath, type SettingValue, settingAt, withSetting } from '../../renderer/design/settings/paths.ts';
import { inRange, readFigure } from '../../renderer/design/settings/range.ts';
import { hasWords, sayValue, shownFigure, textOf } from '../../renderer/design/settings/say.ts';

const [quoin] = builtInDesigns;

/** The paths of all that a design stores: whatever is no object, and the looks of display lines. */
function pathsIn(part: unknown, path: string): readonly string[] {
  const isLeaf = typeof part !== 'object' || part === null || (Array.isArray(part) && typeof part[0] === 'string');
  if (isLeaf || Object.hasOwn(part as object, 'letterspace')) return [path];
  return Object.entries(part as object).flatMap(([name, each]) =>
    pathsIn(each, path === '' ? name : `${path}.${name}`),
  );
}

/** Another value that a field can give. */
function another(field: Field, value: SettingValue): SettingValue {
  switch (field.kind) {
    case 'measure':
      return value === field.most ? field.least : field.most;
    case 'look':
      return { size: field.size.least, letters: 'capitals', italic: true, bold: true, letterspace: 0.3 };
    case 'tick':
      return value !== true;
    case 'choice':
      return Object.keys(field.texts).find((each) => each !== value) ?? '';
    case 'ornament':
      return value === 'stars' ? null : 'stars';
    case 'features':
      return ['lnum'];
    case 'verseIndent':
      return value === 'longestLine' ? 3 : 'longestLine';
    case 'own':
      return value === 'stars' ? 'dots' : 'stars';
  }
}

test('every setting of a design has a field, a name and an explanation of one sentence', () => {
  const not = new Set(['id', 'name', 'base', 'sceneBreak.own']);
  const stored = new Set(builtInDesigns.flatMap((each) => pathsIn(each, '')).filter((path) => !not.has(path)));
  expect([...SETTING_PATHS].sort()).toEqual([...stored].sort());
  for (const path of SETTING_PATHS) {
    const { name, help } = textOf(path);
    expect(name).not.toBe('');
    expect(help).toMatch(/^[^\n]{8,95}\.$/);
  }
});

test('every setting stands in one group and no other', () => {
  const grouped = GROUP_NAMES.flatMap((group) => [...settingsIn(group)]);
  expect([...grouped].sort()).toEqual([...SETTING_PATHS].sort());
});

test('what a field can give is stored, read back, said in words, told as a difference, and touches nothing else', () => {
  for (const settings of builtInDesigns) {
    expect(inRange(settings)).toEqual({ ok: true, value: settings });
    expect(baseOf(settings)).toBe(settings);
    expect(differences(settings)).toEqual([]);
    for (const path of SETTING_PATHS) {
      const before = settingAt(settings, path);
      const value = another(fieldOf(path), before);
      const changed = withSetting(settings, path, value);
      expect(settingAt(changed, path)).toEqual(value);
      expect(differences(changed)).toEqual([path]);
      expect(inRange(changed).ok).toBe(true);
      expect(withSetting(changed, path, before)).toEqual(settings);
      expect(readSettings(settings.id, JSON.parse(JSON.stringify(changed)))).toEqual({ ok: true, value: changed });
      expect(sayValue(path, value)).not.toBe('');
    }
  }
});

test('a figure is read with a point or a comma, and lengths in any unit (1 in = 72 pt = 25.4 mm by definition)', () => {
  const points = fieldOf('margins.inner') as MeasureField;
  const inches = fieldOf('trim.width') as MeasureField;
  const share = fieldOf('opener.sink') as MeasureField;
  const read = (field: MeasureField, typed: string) => {
    const figure = readFigure(field, typed);
    return figure.ok ? Math.round(figure.value * 1000) / 1000 : figure.problem;
  };
  expect(['45', '45,5', ' 45.5 pt', '1in', '25.4 mm'].map((typed) => read(points, typed))).toEqual([
    45, 45.5, 45.5, 72, 72,
  ]);
  expect(['5.5', '5,5 in', '139.7mm', '396 pt'].map((typed) => read(inches, typed))).toEqual([396, 396, 396, 396]);
  expect(['17', '17%'].map((typed) => read(share, typed))).toEqual([0.17, 0.17]);
  expect(read(points, '4')).toBe('From 18 to 144 pt.');
  expect(read(points, '400 mm')).toBe('From 18 to 144 pt.');
  expect(read(points, 'wide')).toBe('A figure is needed here, such as 18 pt.');
  expect(read(share, '-3')).toBe('A figure is needed here, such as 0%.');
});

test('every figure that is shown is read as what it shows', () => {
  const measures = SETTING_PATHS.map(fieldOf).filter((field) => field.kind === 'measure');
  fc.assert(
    fc.property(fc.constantFrom(...measures), fc.double({ min: 0, max: 1, noNaN: true }), (field, at) => {
      const stored = field.least + Math.round((at * (field.most - field.least)) / field.step) * field.step;
      const shown = shownFigure(field, Math.min(stored, field.most));
      const again = readFigure(field, String(shown));
      if (!again.ok) throw new Error(`${shown}: ${again.problem}`);
      expect(shownFigure(field, again.value)).toBe(shown);
    }),
  );
});

test('settings are found by words of their name, explanation and group', () => {
  const found = (words: string): readonly SettingPath[] => SETTING_PATHS.filter((path) => hasWords(path, '', words));
  expect(found('SINK')).toContain('opener.sink');
  expect(found('turnover')).toEqual(['verse.turnover']);
  expect(found('no such thing')).toEqual([]);
  expect(hasWords('verse.step', 'Verse', 'verse moved')).toBe(true);
  expect(sayValue('text.size', settingAt(quoin, 'text.size'))).toBe('11.5 pt');
});
