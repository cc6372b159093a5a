/** Design files: text with settings, to be used in the next book. In: settings or a file's bytes; out: the other one, checked. */
import { type DesignId, failure, type Outcome } from '#base';
import type { Json } from '#book';
import { type DesignSettings, readSettings } from '#design';
import { inRange } from './settings/range.ts';

/** What a design file calls itself, with the number of its form. */
const MARK = 'regletDesign';
const FORM = 1;

export function designText(settings: DesignSettings): string {
  const { id: _, ...rest } = settings;
  return `${JSON.stringify({ [MARK]: FORM, ...rest }, null, 2)}\n`;
}

/** A name for the file, of letters that every disk takes. */
export function fileNameOf({ name }: DesignSettings): string {
  const plain = name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '');
  return `${plain || 'design'}.json`;
}

/** The design in a file, under a new id. `families`: the faces that can be had. */
export function readDesignFile(
  file: { readonly name: string; readonly bytes: Uint8Array },
  id: DesignId,
  families: ReadonlySet<string>,
): Outcome<DesignSettings> {
  const read = settingsIn(file.bytes, id, families);
  return read.ok ? read : failure(`“${file.name}” can't be used as a design: ${read.problem}.`);
}

function settingsIn(bytes: Uint8Array, id: DesignId, families: ReadonlySet<string>): Outcome<DesignSettings> {
  const json = parsed(bytes);
  if (json === undefined) return failure('it is not in the form of a design file');
  const form = typeof json === 'object' && json !== null && !Array.isArray(json) ? memberOf(json, MARK) : undefined;
  if (typeof form !== 'number') return failure('it does not say that it is a design');
  if (form !== FORM) return failure('it was made by a later version');
  const settings = readSettings(id, json);
  if (!settings.ok) return settings;
  const { text, display, name } = settings.value;
  const missing = [text.family, display.family].find((family) => !families.has(family));
  if (missing !== undefined) return failure(`its face ${missing} is not among the book faces`);
  return inRange({ ...settings.value, name: name.trim() || 'Design' });
}

function memberOf(json: object, name: string): unknown {
  return (json as Readonly<Record<string, unknown>>)[name];
}

function parsed(bytes: Uint8Array): Json | undefined {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) as Json;
  } catch {
    return undefined;
  }
}
