/** Press profiles: what a printer asks of margins and page counts, in points. */
import { inches, type Points } from '#base';
import { PRESS_TABLE } from './data/presses.ts';

export interface PressProfile {
  readonly id: string;
  readonly name: string;
  readonly gutters: readonly { readonly from: number; readonly to: number; readonly inside: Points }[];
  readonly outside: { readonly noBleed: Points; readonly bleed: Points };
  readonly bleed: Points;
  readonly pages: readonly { readonly paper: string; readonly from: number; readonly to: number }[];
}

export const presses: readonly PressProfile[] = PRESS_TABLE.map((each) => ({
  id: each.id,
  name: each.name,
  gutters: each.gutters.map((band) => ({ ...band, inside: inches(band.inside) })),
  outside: { noBleed: inches(each.outside.noBleed), bleed: inches(each.outside.bleed) },
  bleed: inches(each.bleed),
  pages: each.pages,
}));

/** The profile that a print edition is laid out for where none is named. */
export const defaultPress: PressProfile = press('pod-standard');

/** The profile of that id; a RangeError for an unknown one. */
export function press(id: string): PressProfile {
  const found = presses.find((each) => each.id === id);
  if (!found) throw new RangeError(`unknown press profile ${JSON.stringify(id)}`);
  return found;
}

/** The least inside margin that a press asks for at a page count, or null outside its range. */
export function leastGutter(profile: PressProfile, pages: number): Points | null {
  const band = profile.gutters.find((each) => pages >= each.from && pages <= each.to);
  return band ? band.inside : null;
}

/** The same, with the nearest band for page counts out of range: a short draft is laid out too. */
export function gutterFor(profile: PressProfile, pages: number): Points {
  const band = profile.gutters.find((each) => pages <= each.to) ?? profile.gutters.at(-1);
  if (!band) throw new RangeError(`press profile ${profile.id} has no gutters`);
  return band.inside;
}
