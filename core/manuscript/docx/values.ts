/** Attribute values of WordprocessingML as plain values; lengths come out in points. */
import type { Points } from '#base';
import type { Tag } from './xml.ts';

const UNITS: Readonly<Record<string, number>> = { pt: 1, in: 72, cm: 72 / 2.54, mm: 72 / 25.4, pc: 12, pi: 12 };

/** EMU in a point: 914,400 to the inch (ECMA-376 part 1, 20.1.2.1). */
export const EMU_PER_POINT = 12700;

/** ST_OnOff: an element that only stands there says yes. */
export function isOn(tag: Tag): boolean {
  const value = tag.get('w:val');
  return value === undefined || !(value === '0' || value === 'false' || value === 'off');
}

/** A whole number, or null for anything else. */
export function integer(value: string | undefined): number | null {
  return value !== undefined && /^[+-]?\d{1,9}$/.test(value) ? Number(value) : null;
}

/** A length given as a plain number of `perPoint` units, or as a number with its unit; null if it is neither. */
export function length(value: string | undefined, perPoint: number): Points | null {
  if (value === undefined) return null;
  const match = /^\s*([+-]?\d{1,9}(?:\.\d{1,9})?)(pt|in|cm|mm|pc|pi)?\s*$/.exec(value);
  if (!match) return null;
  const number = Number(match[1]);
  return match[2] ? number * UNITS[match[2]]! : number / perPoint;
}

/** ST_TwipsMeasure: twentieths of a point. */
export function twips(value: string | undefined): Points | null {
  return length(value, 20);
}

/** ST_HpsMeasure: half points. */
export function halfPoints(value: string | undefined): Points | null {
  return length(value, 2);
}
