/** Style names as authors see them, brought to the English names of the built-in styles. */

const BUILT_IN = [
  'Normal',
  'Title',
  'Subtitle',
  'Quote',
  'Intense Quote',
  'Block Text',
  'Body Text',
  'Body Text Indent',
  'Body Text First Indent',
  'List Paragraph',
  'TOC Heading',
  'No Spacing',
  'Plain Text',
  'caption',
  'footnote text',
  'endnote text',
  'header',
  'footer',
  'Signature',
  'Salutation',
  'Closing',
  'Date',
  'Normal (Web)',
  'HTML Preformatted',
];

const BY_LOWER_CASE = new Map(BUILT_IN.map((name) => [name.toLowerCase(), name]));

/** "Heading" as word processors in other languages call it, for files that carry the shown name (from memory). */
const HEADING_WORDS =
  'heading|überschrift|titre|título|titulo|titolo|kop|rubrik|overskrift|otsikko|nagłówek|nadpis|címsor|заголовок|başlık|標題|标题|見出し';

const HEADING = new RegExp(`^(?:${HEADING_WORDS})\\s*([1-9])$`, 'i');

/** Title and subtitle in the same way (from memory). */
const TITLES = /^(?:titel|titre|título|titulo|titolo|tytuł|название|rubrik)$/i;
const SUBTITLES = /^(?:untertitel|sous-titre|subtítulo|subtitulo|sottotitolo|podtytuł|подзаголовок|ondertitel)$/i;

/** `heading 1` for any built-in heading, `toc 2` for contents entries, `Title`; other names as they are. */
export function englishStyleName(name: string): string {
  const shown = name.trim();
  const level = HEADING.exec(shown)?.[1];
  if (level !== undefined) return `heading ${level}`;
  const contents = /^toc\s*([1-9])$/i.exec(shown)?.[1];
  if (contents !== undefined) return `toc ${contents}`;
  if (TITLES.test(shown)) return 'Title';
  if (SUBTITLES.test(shown)) return 'Subtitle';
  return BY_LOWER_CASE.get(shown.toLowerCase()) ?? shown;
}
