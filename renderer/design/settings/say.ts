/** Settings in words. In: a setting and its value; out: its name, its explanation, the value as it is read. */
import { type DesignSettings, type DisplaySetting, type OrnamentId, ornament } from '#design';
import { design as words } from '../../ui/texts/design.en.ts';
import { type SettingText, settingTexts } from '../../ui/texts/designSettings.en.ts';
import { faces } from '../../ui/texts/faces.en.ts';
import { type Field, fieldOf, type MeasureField, type Unit } from './fields.ts';
import { type SettingPath, type SettingValue, settingAt } from './paths.ts';

const TEXTS: Readonly<Record<SettingPath, SettingText>> = settingTexts;

export function textOf(path: SettingPath): SettingText {
  return TEXTS[path];
}

/** How much of what a design stores one of what is shown is: shares are shown as per cent, trims as inches. */
const STORED: Readonly<Record<Unit, number>> = { points: 1, inches: 72, ems: 1, lines: 1, share: 0.01, times: 0.01 };

/** A stored figure as the number that is shown. */
export function shownFigure({ unit }: MeasureField, stored: number): number {
  return Math.round((stored / STORED[unit]) * 1000) / 1000;
}

/** A number that was typed as the figure that is stored. */
export function storedFigure({ unit }: MeasureField, shown: number): number {
  return Math.round(shown * STORED[unit] * 1e6) / 1e6;
}

export function sayFigure(field: MeasureField, stored: number): string {
  return words.units[field.unit].value(shownFigure(field, stored));
}

/** A value in a few words. */
export function sayValue(path: SettingPath, value: SettingValue): string {
  return path === 'sceneBreak.ornament' ? ornament(value as OrnamentId).name : say(fieldOf(path), value);
}

/** What a design sets, in a few words. */
export function saySetting(settings: DesignSettings, path: SettingPath): string {
  const { own } = settings.sceneBreak;
  if (path !== 'sceneBreak.ornament' || own === null) return sayValue(path, settingAt(settings, path));
  switch (own.kind) {
    case 'picture':
      return faces.aPicture;
    case 'drawing':
      return faces.aDrawing;
    case 'glyph':
      return faces.aCharacter(own.character);
  }
}

function say(field: Field, value: SettingValue): string {
  switch (field.kind) {
    case 'measure':
      return sayFigure(field, Number(value));
    case 'look':
      return sayLook(value as DisplaySetting);
    case 'tick':
      return value === true ? words.yes : words.no;
    case 'choice':
      return field.texts[String(value)] ?? String(value);
    case 'ornament':
      return value === null ? words.noOrnament : ornament(value as OrnamentId).name;
    case 'features':
      return (value as readonly string[]).includes('onum') ? words.figureKinds.oldStyle : words.figureKinds.lining;
    case 'verseIndent':
      return value === 'longestLine' ? words.onLongestLine : sayFigure(field.measure, Number(value));
    case 'own':
      return String(value);
  }
}

function sayLook({ size, letters, italic, bold, letterspace }: DisplaySetting): string {
  const parts = [`${Math.round(size * 100)}%`];
  if (letters !== 'asTyped') parts.push(words.look.letterTexts[letters].toLowerCase());
  if (italic) parts.push(words.look.italic.toLowerCase());
  if (bold) parts.push(words.look.bold.toLowerCase());
  if (letterspace > 0) parts.push(words.look.spaced);
  return parts.join(', ');
}

/** Whether a setting has all of some words in its name, its explanation or the name of its group. */
export function hasWords(path: SettingPath, group: string, wanted: string): boolean {
  const { name, help } = textOf(path);
  const text = `${group} ${name} ${help}`.toLowerCase();
  return wanted
    .toLowerCase()
    .split(/\s+/u)
    .every((each) => text.includes(each));
}
