/**
 * What of a design can be drawn larger or smaller. In: settings; out: for each figure its value, the same settings with
 * another, and the range within which a page still holds together.
 */
import { failure, type Outcome, success } from '#base';
import type { DesignSettings } from '#design';

export type Unit = 'points' | 'ems' | 'lines' | 'share' | 'times';

export const MEASURES = {
  size: measure(
    'points',
    [7, 18, 0.25],
    (s) => s.text.size,
    (s, size) => ({ text: { ...s.text, size } }),
  ),
  leading: measure(
    'points',
    [8, 28, 0.25],
    (s) => s.text.leading,
    (s, leading) => ({ text: { ...s.text, leading } }),
  ),
  indent: measure(
    'ems',
    [0, 3, 0.25],
    (s) => s.text.indent,
    (s, indent) => ({ text: { ...s.text, indent } }),
  ),
  sink: measure(
    'share',
    [0, 0.5, 0.01],
    (s) => s.opener.sink,
    (s, sink) => ({ opener: { ...s.opener, sink } }),
  ),
  titleSize: measure(
    'times',
    [1, 4, 0.05],
    (s) => s.opener.titleLook.size,
    (s, size) => ({ opener: { ...s.opener, titleLook: { ...s.opener.titleLook, size } } }),
  ),
  spaceAfter: measure(
    'lines',
    [0, 10, 0.5],
    (s) => s.opener.spaceAfter,
    (s, spaceAfter) => ({ opener: { ...s.opener, spaceAfter } }),
  ),
  dropLines: measure(
    'lines',
    [2, 5, 1],
    (s) => s.leadIn.dropLines,
    (s, dropLines) => ({ leadIn: { ...s.leadIn, dropLines } }),
  ),
  breakLines: measure(
    'lines',
    [1, 4, 1],
    (s) => s.sceneBreak.lines,
    (s, lines) => ({ sceneBreak: { ...s.sceneBreak, lines } }),
  ),
  headSize: measure(
    'times',
    [0.6, 1.2, 0.01],
    (s) => s.heads.look.size,
    (s, size) => ({ heads: { ...s.heads, look: { ...s.heads.look, size } } }),
  ),
  folioSize: measure(
    'times',
    [0.6, 1.4, 0.01],
    (s) => s.folios.size,
    (s, size) => ({ folios: { ...s.folios, size } }),
  ),
  noteSize: measure(
    'times',
    [0.6, 1, 0.01],
    (s) => s.notes.size,
    (s, size) => ({ notes: { ...s.notes, size } }),
  ),
  noteLeading: measure(
    'times',
    [0.6, 1, 0.01],
    (s) => s.notes.leading,
    (s, leading) => ({ notes: { ...s.notes, leading } }),
  ),
  inner: margin('inner'),
  outer: margin('outer'),
  top: margin('top'),
  bottom: margin('bottom'),
} satisfies Readonly<Record<string, Measure>>;

export type MeasureName = keyof typeof MEASURES;

export interface Measure {
  readonly unit: Unit;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  readonly read: (settings: DesignSettings) => number;
  readonly write: (settings: DesignSettings, value: number) => DesignSettings;
}

function measure(
  unit: Unit,
  [least, most, step]: readonly [number, number, number],
  read: (settings: DesignSettings) => number,
  changed: (settings: DesignSettings, value: number) => Partial<DesignSettings>,
): Measure {
  const write = (settings: DesignSettings, value: number): DesignSettings => ({
    ...settings,
    ...changed(settings, value),
  });
  return { unit, least, most, step, read, write };
}

/** A quarter of an inch is the least that printers take; beyond two inches little is left of a page. */
function margin(side: keyof DesignSettings['margins']): Measure {
  return measure(
    'points',
    [18, 144, 1],
    (s) => s.margins[side],
    (s, value) => ({ margins: { ...s.margins, [side]: value } }),
  );
}

/** Whether all figures of settings that came from a file lie where a page can be made of them; else one sentence. */
export function inRange(settings: DesignSettings): Outcome<DesignSettings> {
  for (const [name, { read, least, most }] of Object.entries(MEASURES)) {
    const value = read(settings);
    if (value < least || value > most) return failure(`its ${name} is ${value}, and must be from ${least} to ${most}`);
  }
  return success(settings);
}
