/**
 * A design as it comes out at one trim and page count, written back as settings drawn for that very trim. In: settings and
 * an edition; out: settings whose size, leading and margins can be moved one by one.
 */
import type { PrintEdition } from '#book';
import { resolveForPrint } from './print.ts';
import type { DesignSettings } from './settings.ts';

export interface FrozenSettings {
  readonly settings: DesignSettings;
  /** Lines to a full page. */
  readonly lines: number;
}

/** The settings of an edition at a page count, with the trim as their own. */
export function frozenSettings(settings: DesignSettings, edition: PrintEdition, pages: number): FrozenSettings {
  const { frame } = resolveForPrint(settings, edition, { pages });
  const { inner, outer } = settings.margins;
  const sides = frame.trim.width - frame.measure;
  const down = frame.trim.height / settings.trim.height;
  return {
    lines: frame.lines,
    settings: {
      ...settings,
      trim: frame.trim,
      text: { ...settings.text, size: frame.size, leading: frame.leading },
      margins: {
        inner: (sides * inner) / (inner + outer),
        outer: (sides * outer) / (inner + outer),
        top: settings.margins.top * down,
        bottom: settings.margins.bottom * down,
      },
    },
  };
}
