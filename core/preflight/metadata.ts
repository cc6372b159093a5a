/** What the book says of itself. In: metadata; out: findings about what a shop or a reader would miss. */
import type { Finding } from '#base';
import { authorsOf, type Book, type Change } from '#book';

/** Rules `metadata/...`. */
export function checkMetadata({ metadata }: Book): readonly Finding<Change>[] {
  const findings: Finding<Change>[] = [];
  if (metadata.title.trim() === '') {
    findings.push({ rule: 'metadata/no-title', severity: 'error', message: 'The book has no title.' });
  }
  if (authorsOf(metadata).every((name) => name.trim() === '')) {
    findings.push({ rule: 'metadata/no-author', severity: 'warning', message: 'The book names no author.' });
  }
  if (!isLanguageTag(metadata.language)) {
    findings.push({
      rule: 'metadata/language',
      severity: 'error',
      message: `“${metadata.language}” is not a language tag; write the book's language like “en-GB” or “fr”.`,
    });
  }
  const series = metadata.series?.number ?? null;
  if (series !== null && !/^\d+(\.\d+)*$/.test(series)) {
    findings.push({
      rule: 'metadata/series-number',
      severity: 'warning',
      message: `The number “${series}” in the series can't go into the ebook; write it in figures, like 2 or 2.5.`,
    });
  }
  return findings;
}

/**
 * Whether a tag is well formed by RFC 5646, section 2.1: language, script, region, variants, extensions, private use. The
 * tags that the RFC keeps for old time's sake (`i-klingon`) are left out.
 */
export function isLanguageTag(tag: string): boolean {
  return LANGUAGE_TAG.test(tag);
}

const LANGUAGE_TAG = new RegExp(
  [
    '^(?:[a-z]{2,3}(?:-[a-z]{3}){0,3}|[a-z]{4,8})',
    '(?:-[a-z]{4})?',
    '(?:-(?:[a-z]{2}|\\d{3}))?',
    '(?:-(?:[a-z0-9]{5,8}|\\d[a-z0-9]{3}))*',
    '(?:-[0-9a-wy-z](?:-[a-z0-9]{2,8})+)*',
    '(?:-x(?:-[a-z0-9]{1,8})+)?$',
  ].join(''),
  'i',
);
