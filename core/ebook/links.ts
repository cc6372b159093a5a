/** Addresses that text may lead to. In: what the manuscript gave; out: an address that EPUB allows, or null. */

const SCHEMES = /^(https?|mailto|tel):/i;
/** RFC 3986: the characters of a URI; a percent sign must begin an escape. */
const NOT_IN_URI = /[^A-Za-z0-9\-._~:/?#[\]@!$&'()*+,;=%]|%(?![0-9A-Fa-f]{2})/gu;
const AUTHORITY =
  /^https?:\/\/(?:[A-Za-z0-9\-._~!$&'()*+,;=%:]*@)?([A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)*\.?)(?::\d{0,5})?(?=[/?#]|$)/i;

/**
 * A web, mail or telephone address with stray characters escaped. Anything else (files, scripts, addresses without a
 * scheme, broken host names) is no address for a reading system.
 */
export function externalAddress(href: string): string | null {
  const trimmed = href.trim();
  if (!SCHEMES.test(trimmed)) return null;
  if (/[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/.test(trimmed)) return null;
  const escaped = trimmed.replace(NOT_IN_URI, (character) => encodeURIComponent(character));
  const [beforeFragment, ...fragments] = escaped.split('#');
  const whole = fragments.length > 0 ? `${beforeFragment}#${fragments.join('%23')}` : escaped;
  if (/^https?:/i.test(whole)) return AUTHORITY.test(whole) && !bracketsIn(whole) ? whole : null;
  return whole.length > whole.indexOf(':') + 1 && !bracketsIn(whole) ? whole : null;
}

function bracketsIn(address: string): boolean {
  return address.includes('[') || address.includes(']');
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
