/** Metadata as it is typed. In: a field's characters; out: what to set, or what is not right, in one sentence. */
import { failure, type Outcome, success } from '#base';
import { authorsOf, type Metadata, namesInARow } from '#book';
import { texts } from '../../ui/index.ts';

const words = texts.press.book;

export type FieldName =
  | 'title'
  | 'subtitle'
  | 'language'
  | 'publisher'
  | 'place'
  | 'year'
  | 'rightsHolder'
  | 'description'
  | 'subjects';

/** What a field shows of the book. */
export function linesOf(metadata: Metadata, name: FieldName): string {
  const value = metadata[name];
  if (value === null) return '';
  return typeof value === 'object' ? value.join('\n') : String(value);
}

export function readField(name: FieldName, typed: string): Outcome<Partial<Metadata>> {
  const text = typed.trim();
  switch (name) {
    case 'title':
      return success({ title: text });
    case 'language':
      return isLanguageTag(text) ? success({ language: text }) : failure(words.languageProblem);
    case 'year':
      if (text === '') return success({ year: null });
      return /^\d{1,4}$/.test(text) ? success({ year: Number(text) }) : failure(words.yearProblem);
    case 'subjects':
      return success({ subjects: text.split(/\s*\n\s*/).filter((each) => each !== '') });
    default:
      return success({ [name]: text === '' ? null : text });
  }
}

/** Whether a text has the form of a BCP 47 tag, as far as the platform knows it. */
export function isLanguageTag(text: string): boolean {
  try {
    return text !== '' && Intl.getCanonicalLocales(text).length === 1;
  } catch (problem) {
    if (problem instanceof RangeError) return false;
    throw problem;
  }
}

/** The copyright line as new copyright pages have it. */
export function copyrightLine(metadata: Metadata): string {
  const { year, rightsHolder, language } = metadata;
  const holder = rightsHolder ?? namesInARow(authorsOf(metadata), language);
  return ['Copyright ©', year === null ? '' : String(year), holder].filter(Boolean).join(' ');
}
