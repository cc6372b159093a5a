/**
 * The package document (EPUB 3.3). In: the book's particulars and the list of files; out: metadata, manifest and spine.
 */
import type { Contributor, Metadata } from '#book';
import { isoDateTime } from './date.ts';
import { isRightToLeft } from './links.ts';
import { attributes, escapeText, legalCharacters, XML_DECLARATION } from './xml.ts';

export interface ManifestItem {
  readonly id: string;
  /** From the package document. */
  readonly href: string;
  readonly mediaType: string;
  readonly properties?: string;
}

export interface PackageParts {
  readonly metadata: Metadata;
  readonly language: string;
  /** ISBN of this ebook, 13 digits, or null. */
  readonly isbn: string | null;
  readonly modified: number;
  readonly accessibility: readonly (readonly [string, string])[];
  /** BCP 47 tag of the accessibility summary. */
  readonly accessibilityLanguage: string;
  /** Where the page breaks come from, or null where the book has none. */
  readonly pageSource: { readonly isbn: string | null; readonly name: string } | null;
  readonly items: readonly ManifestItem[];
  /** Manifest ids in reading order. */
  readonly spine: readonly string[];
  readonly coverId: string;
  readonly ncxId: string;
}

export function packageDocument(parts: PackageParts): string {
  const root = attributes({
    xmlns: 'http://www.idpf.org/2007/opf',
    version: '3.0',
    'unique-identifier': 'book-id',
    'xml:lang': parts.language,
  });
  const spine = attributes({
    toc: parts.ncxId,
    'page-progression-direction': isRightToLeft(parts.language) ? 'rtl' : null,
  });
  return `${XML_DECLARATION}<package${root}>
<metadata xmlns:dc="http://purl.org/dc/elements/1.1/">
${metadataLines(parts).join('\n')}
</metadata>
<manifest>
${parts.items.map(manifestLine).join('\n')}
</manifest>
<spine${spine}>
${parts.spine.map((id) => `<itemref${attributes({ idref: id })}/>`).join('\n')}
</spine>
</package>
`;
}

function manifestLine(item: ManifestItem): string {
  return `<item${attributes({ id: item.id, href: item.href, 'media-type': item.mediaType, properties: item.properties })}/>`;
}

function metadataLines(parts: PackageParts): readonly string[] {
  const { metadata } = parts;
  return [
    ...identifiers(parts),
    ...titles(metadata),
    dc('language', parts.language),
    ...people(metadata.contributors),
    ...given(metadata.publisher, (text) => dc('publisher', text)),
    ...given(metadata.year, (year) => dc('date', String(year).padStart(4, '0'))),
    ...given(rights(metadata), (text) => dc('rights', text)),
    ...given(metadata.description, (text) => dc('description', text)),
    ...metadata.subjects.flatMap((subject) => given(subject, (text) => dc('subject', text))),
    ...series(metadata),
    ...pageSource(parts),
    meta('dcterms:modified', isoDateTime(parts.modified)),
    ...parts.accessibility.map(([property, value]) =>
      meta(
        property,
        value,
        property === 'schema:accessibilitySummary' ? { 'xml:lang': parts.accessibilityLanguage } : {},
      ),
    ),
    // For reading systems older than the `cover-image` property (EPUB 3.3, "legacy features").
    `<meta${attributes({ name: 'cover', content: parts.coverId })}/>`,
  ];
}

function identifiers({ metadata, isbn }: PackageParts): readonly string[] {
  const own = dc('identifier', metadata.identifier, { id: 'book-id' });
  if (isbn === null) return [own];
  return [
    own,
    dc('identifier', `urn:isbn:${isbn}`, { id: 'isbn' }),
    refine('isbn', 'identifier-type', '15', 'onix:codelist5'),
  ];
}

function titles({ title, subtitle }: Metadata): readonly string[] {
  return [
    // A book must have a title (EPUB 3.3, "dc:title"); a dash says that it has none yet.
    dc('title', filled(title) ?? '\u2014', { id: 'title' }),
    refine('title', 'title-type', 'main'),
    refine('title', 'display-seq', '1'),
    ...given(subtitle, (text) => dc('title', text, { id: 'subtitle' })),
    ...given(subtitle, () => refine('subtitle', 'title-type', 'subtitle')),
    ...given(subtitle, () => refine('subtitle', 'display-seq', '2')),
  ];
}

/** Authors are creators; so is an editor of a book that names no author. */
function people(contributors: readonly Contributor[]): readonly string[] {
  const named = contributors.filter((each) => filled(each.name) !== null);
  const main = named.some((each) => each.role === 'aut') ? 'aut' : named[0]?.role;
  const creators = named.filter((each) => each.role === main);
  const others = named.filter((each) => each.role !== main);
  return [...creators, ...others].flatMap((person, index) => {
    const id = `person-${index + 1}`;
    return [
      dc(index < creators.length ? 'creator' : 'contributor', person.name, { id }),
      ...(/^[a-z]{3}$/.test(person.role) ? [refine(id, 'role', person.role, 'marc:relators')] : []),
      ...given(person.fileAs, (text) => refine(id, 'file-as', text)),
      ...(index < creators.length ? [refine(id, 'display-seq', String(index + 1))] : []),
    ];
  });
}

function rights({ year, rightsHolder }: Metadata): string | null {
  const holder = filled(rightsHolder);
  return holder === null ? null : `\u00a9 ${year === null ? '' : `${year} `}${holder}`;
}

function series({ series }: Metadata): readonly string[] {
  if (series === null || filled(series.name) === null) return [];
  const number = series.number !== null && /^\d+(\.\d+)*$/.test(series.number) ? series.number : null;
  return [
    meta('belongs-to-collection', series.name, { id: 'series' }),
    refine('series', 'collection-type', 'series'),
    ...given(number, (text) => refine('series', 'group-position', text)),
  ];
}

/** The print edition that the page numbers come from (FACTS E-64), in the older form too where it has an ISBN (E-65). */
function pageSource({ pageSource }: PackageParts): readonly string[] {
  if (pageSource === null) return [];
  const { isbn, name } = pageSource;
  if (isbn === null) return [meta('pageBreakSource', name)];
  const urn = `urn:isbn:${isbn}`;
  return [
    meta('pageBreakSource', urn),
    dc('source', urn, { id: 'print-source' }),
    refine('print-source', 'source-of', 'pagination'),
  ];
}

function dc(name: string, text: string, more: Readonly<Record<string, string>> = {}): string {
  return `<dc:${name}${attributes(more)}>${escapeText(text)}</dc:${name}>`;
}

function meta(property: string, text: string, more: Readonly<Record<string, string>> = {}): string {
  return `<meta${attributes({ property, ...more })}>${escapeText(text)}</meta>`;
}

function refine(id: string, property: string, text: string, scheme: string | null = null): string {
  return `<meta${attributes({ refines: `#${id}`, property, scheme })}>${escapeText(text)}</meta>`;
}

function given<T>(value: T | null, write: (value: T) => string): readonly string[] {
  const known = typeof value === 'string' ? filled(value) : value;
  return known === null ? [] : [write(value as T)];
}

function filled(text: string | null): string | null {
  return text === null || legalCharacters(text).trim() === '' ? null : text;
}
