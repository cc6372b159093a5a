/** Times as the person's own computer writes them. In: milliseconds since 1970; out: a clock time, or a date with it. */

const CLOCK = new Intl.DateTimeFormat(undefined, { hour: '2-digit', minute: '2-digit' });
const DAY = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

export function clock(at: number): string {
  return CLOCK.format(at);
}

export function dayAndClock(at: number): string {
  return DAY.format(at);
}
