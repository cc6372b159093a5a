/** Sizes in words. In: points; out: "5.5 × 8.5 in", and lengths in inches and millimetres. */
import { POINTS_PER_INCH, POINTS_PER_MILLIMETRE, type Points, type Size } from '#base';
import { trimOf } from '#design';

export function inchesText(length: Points, places = 2): string {
  return String(Number((length / POINTS_PER_INCH).toFixed(places)));
}

export function millimetresText(length: Points): string {
  return (length / POINTS_PER_MILLIMETRE).toFixed(0);
}

/** Width by height, with the trade's name where there is one. */
export function trimText(size: Size): string {
  const name = trimOf(size)?.name;
  const figures = `${inchesText(size.width)} × ${inchesText(size.height)} in`;
  return name === undefined ? figures : `${name}, ${figures}`;
}

/** A spine in both units: printers ask for either. */
export function spineText(thickness: Points): string {
  return `${inchesText(thickness, 3)} in (${(thickness / POINTS_PER_MILLIMETRE).toFixed(1)} mm)`;
}
