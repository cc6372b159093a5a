/** docProps/core.xml (Dublin Core): title, author, language, last change. */
import type { RawManuscript } from '../raw.ts';
import type { Scope } from './xml.ts';

const KEPT = new Set(['dc:title', 'dc:creator', 'dc:language', 'dcterms:modified']);

export class PropertiesScope implements Scope {
  private readonly values = new Map<string, string>();

  open(name: string): Scope | null {
    if (name === 'cp:coreProperties') return this;
    return KEPT.has(name) ? new ValueScope((value) => this.values.set(name, value)) : null;
  }

  properties(): RawManuscript['properties'] {
    return {
      title: this.values.get('dc:title') || null,
      author: this.values.get('dc:creator') || null,
      language: this.values.get('dc:language') || null,
      modified: secondsOf(this.values.get('dcterms:modified') ?? ''),
    };
  }
}

class ValueScope implements Scope {
  private value = '';

  constructor(private readonly done: (value: string) => void) {}

  open(): null {
    return null;
  }

  text(text: string): void {
    this.value += text;
  }

  close(): void {
    this.done(this.value.trim());
  }
}

/** Seconds since 1970 of a W3CDTF date and time; null if it is none. */
export function secondsOf(text: string): number | null {
  const match = /^(\d{4})-(\d\d)-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d)(?:\.\d+)?)?(Z|[+-]\d\d:\d\d)?)?$/.exec(text.trim());
  if (!match) return null;
  const [year, month, day, hour, minute, second] = match.slice(1, 7).map((each) => Number(each ?? 0)) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  if (month < 1 || month > 12 || day < 1 || day > 31) return null;
  const time = daysSince1970(year, month, day) * 86400 + hour * 3600 + minute * 60 + second;
  return time - zoneSeconds(match[7] ?? 'Z');
}

function zoneSeconds(zone: string): number {
  if (zone === 'Z') return 0;
  const size = Number(zone.slice(1, 3)) * 3600 + Number(zone.slice(4, 6)) * 60;
  return zone.startsWith('-') ? -size : size;
}

/** Gregorian day count, with the year taken to begin in March so that the leap day comes last. */
function daysSince1970(year: number, month: number, day: number): number {
  const shifted = month <= 2 ? year - 1 : year;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  const leaps = Math.floor(shifted / 4) - Math.floor(shifted / 100) + Math.floor(shifted / 400);
  return shifted * 365 + leaps + dayOfYear - 719468;
}
