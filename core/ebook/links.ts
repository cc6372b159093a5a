/** Addresses that text may lead to. In: what the manuscript gave; out: an address that EPUB allows, or null. */
import { legalCharacters } from './xml.ts';

const SCHEMES = /^(https?|mailto|tel):/i;
/** RFC 3986: the characters of a URI but the brackets; a percent sign must begin an escape. */
const NOT_IN_URI = /[^A-Za-z0-9\-._~:/?#@!$&'()*+,;=%]|%(?![0-9A-Fa-f]{2})/gu;
/** Scheme, user, host, port and the rest. */
const WEB = /^(https?:\/\/)([^@/?#]*@)?([^/?#:@]+)(:\d{0,5})?([/?#].*)?$/isu;
/** A host's labels: letters and digits of any script, hyphens inside. A coded label (`xn--`) has something to decode. */
const HOST = /^(?:(?!xn--.{0,2}(?:\.|$))[\p{L}\p{N}](?:[\p{L}\p{N}\p{M}-]*[\p{L}\p{N}\p{M}])?(?:\.|$))+$/iu;
const LARGEST_PORT = 65_535;

/**
 * A web, mail or telephone address with stray characters escaped. Anything else (files, scripts, addresses without a
 * scheme, broken host names) is no address for a reading system.
 */
export function externalAddress(href: string): string | null {
  const trimmed = href.trim();
  if (!SCHEMES.test(trimmed) || legalCharacters(trimmed) !== trimmed) return null;
  if (!/^https?:/i.test(trimmed)) {
    const escaped = escapePart(trimmed);
    return escaped.endsWith(':') ? null : escaped;
  }
  const [, scheme, user = '', host = '', port = '', rest = ''] = WEB.exec(trimmed) ?? [];
  if (scheme === undefined || !HOST.test(host) || Number(port.slice(1)) > LARGEST_PORT) return null;
  return `${scheme}${escapePart(user)}${host}${port}${escapePart(rest)}`;
}

/** Escapes what a URI may not hold; of several number signs only the first begins a fragment. */
function escapePart(part: string): string {
  const [beforeFragment = '', ...fragments] = part
    .replace(NOT_IN_URI, (character) => encodeURIComponent(character))
    .split('#');
  return fragments.length > 0 ? `${beforeFragment}#${fragments.join('%23')}` : beforeFragment;
}

/** The block that an address inside the book names (`#b12`), or null. */
export function internalTarget(href: string): string | null {
  return href.startsWith('#') && href.length > 1 ? href.slice(1) : null;
}

/** A well-formed language tag (BCP 47, the common shape: language, script, region, variants, private use), or null. */
export function languageTag(tag: string): string | null {
  return /^[A-Za-z]{2,3}(-[A-Za-z]{4})?(-([A-Za-z]{2}|\d{3}))?(-([A-Za-z0-9]{5,8}|\d[A-Za-z0-9]{3}))*(-x(-[A-Za-z0-9]{1,8})+)?$/.test(
    tag,
  )
    ? tag
    : null;
}

const RIGHT_TO_LEFT: ReadonlySet<string> = new Set([
  'ar',
  'arc',
  'ckb',
  'dv',
  'fa',
  'he',
  'ps',
  'sd',
  'ug',
  'ur',
  'yi',
]);

/** Whether a language is usually written from right to left. */
export function isRightToLeft(language: string): boolean {
  const [primary = '', script = ''] = language.toLowerCase().split('-');
  if (script.length === 4) return ['arab', 'hebr', 'syrc', 'thaa', 'nkoo', 'adlm'].includes(script);
  return RIGHT_TO_LEFT.has(primary);
}
