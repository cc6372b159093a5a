/** Dates without a clock or a locale. In: seconds since 1970-01-01T00:00:00Z; out: UTC in W3C date-time form. */

const DAY = 86_400;

/** `2026-11-25T08:00:00Z`: no fraction of a second, as `dcterms:modified` asks (EPUB 3.3, "last modified date"). */
export function isoDateTime(seconds: number): string {
  if (!Number.isFinite(seconds)) throw new RangeError(`no time: ${seconds}`);
  const whole = Math.floor(seconds);
  const days = Math.floor(whole / DAY);
  const rest = whole - days * DAY;
  const { year, month, day } = civilDate(days);
  const time = [rest / 3600, (rest / 60) % 60, rest % 60].map((part) => digits(Math.floor(part), 2)).join(':');
  return `${digits(year, 4)}-${digits(month, 2)}-${digits(day, 2)}T${time}Z`;
}

/**
 * The Gregorian date of a day counted from 1970-01-01: years are counted from 1 March, so that the leap day is the
 * last of a year, in eras of 400 years of 146,097 days each.
 */
function civilDate(days: number): { readonly year: number; readonly month: number; readonly day: number } {
  const shifted = days + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36_524) - Math.floor(dayOfEra / 146_096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const marchMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * marchMonth + 2) / 5) + 1;
  const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
  return { year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0), month, day };
}

function digits(value: number, width: number): string {
  return String(value).padStart(width, '0');
}
