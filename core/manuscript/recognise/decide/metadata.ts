/**
 * Title, author and language of the book. In: the title page and the file's own properties; out: metadata. Properties
 * are believed only where they do not smell of a template.
 */
import type { Contributor, Metadata } from '#book';
import type { RawManuscript } from '../../raw.ts';
import { titleCase } from '../tidy/capitals.ts';
import type { TitlePage } from './titlePage.ts';

const TEMPLATE_TITLE =
  /^(?:microsoft|untitled|document\s*\d*$|dokument\s*\d*$|unbenannt|sans titre|sin t[i\u00ed]tulo|template|normal$|manuscript$|book$|novel$|draft|new |title$|.*\.(?:docx?|odt|rtf|dotx?)$|powerpoint|word )/i;
const NOBODY =
  /^(?:user|users?\d*|admin(?:istrator)?|microsoft.*|unknown|author|un-?named|owner|default|python-docx|windows.*|home|pc|root|me|apache.*|a|office.*|test.*|utilisateur|benutzer|usuario)$/i;

export function plausibleTitle(raw: RawManuscript): string | null {
  const title = raw.properties.title?.replace(/\s+/g, ' ').trim() ?? '';
  return title === '' || title.length > 150 || TEMPLATE_TITLE.test(title) ? null : title;
}

export function plausibleAuthor(raw: RawManuscript): string | null {
  const author = raw.properties.author?.replace(/\s+/g, ' ').trim() ?? '';
  return author === '' || author.length > 80 || NOBODY.test(author) || /[@\\/\d]/.test(author) ? null : author;
}

/** @param lone the only heading of the text, where there is one: what else would the book be called? */
export function metadataOf(
  raw: RawManuscript,
  page: TitlePage,
  language: string,
  lone: string | null,
): Partial<Metadata> {
  const contributors: Contributor[] = [];
  const author = page.author ?? plausibleAuthor(raw);
  if (author !== null)
    contributors.push(...namesIn(author).map((name) => ({ name: nameCase(name), fileAs: null, role: 'aut' })));
  if (page.translator !== null) contributors.push({ name: page.translator, fileAs: null, role: 'trl' });
  const title = page.title ?? plausibleTitle(raw) ?? lone ?? titleFromName(raw.name);
  return {
    title: language.startsWith('en') ? titleCase(title) : title,
    subtitle: page.subtitle,
    contributors,
    language,
    modified: raw.properties.modified,
  };
}

/** "Jane Doe and John Roe" are two authors. */
function namesIn(author: string): readonly string[] {
  const parts = author
    .split(/\s*(?:;|&|\band\b|\bund\b|\bet\b(?= \p{Lu})|\by\b(?= \p{Lu}))\s*/u)
    .filter((part) => part !== '');
  return parts.every((part) => part.includes(' ')) ? parts : [author];
}

function nameCase(name: string): string {
  const clean = name.trim();
  if (/\p{Ll}/u.test(clean) || !/\p{Lu}{2}/u.test(clean)) return clean;
  return clean
    .toLowerCase()
    .replace(/(^|[\s.'\u2019-])(\p{L})/gu, (_, before: string, letter: string) => before + letter.toUpperCase());
}

function titleFromName(name: string): string {
  return name
    .replace(/[_]+/g, ' ')
    .replace(/(\p{Ll})-(?=\p{L})/gu, '$1 ')
    .replace(/\s+/g, ' ')
    .trim();
}
