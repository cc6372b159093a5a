/** What a PDF says about itself: the information dictionary and the same as XMP. Dates come from the request. */
import type { PdfFile } from './file.ts';
import { literal, type Ref, type Syntax, textString } from './objects.ts';
import type { DocumentInformation } from './request.ts';

const PRODUCER = 'Reglet';

interface Moment {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
}

/** The information dictionary (ISO 32000-1, 14.3.3). `Trapped` is stated, since printers' checks ask for it. */
export function writeInformation(file: PdfFile, document: DocumentInformation): Ref {
  return file.add({
    Title: textString(document.title),
    ...(document.author ? { Author: textString(document.author) } : {}),
    ...(document.subject ? { Subject: textString(document.subject) } : {}),
    ...(document.keywords.length > 0 ? { Keywords: textString(document.keywords.join(', ')) } : {}),
    Creator: textString(document.creator),
    Producer: textString(PRODUCER),
    Trapped: 'False',
    ...datesOf(document.date),
  });
}

function datesOf(seconds: number | null): Readonly<Record<string, Syntax>> {
  if (seconds === null) return {};
  const at = momentOf(seconds);
  const date = literal(
    `D:${pad(at.year, 4)}${pad(at.month)}${pad(at.day)}${pad(at.hour)}${pad(at.minute)}${pad(at.second)}Z`,
  );
  return { CreationDate: date, ModDate: date };
}

/** The metadata stream (ISO 16684-1), uncompressed so that any program finds it. */
export function writeXmp(file: PdfFile, document: DocumentInformation): Ref {
  const bytes = utf8(xmpOf(document));
  return file.addStream({ Type: 'Metadata', Subtype: 'XML' }, bytes);
}

function xmpOf(document: DocumentInformation): string {
  const { title, author, subject, keywords, language, creator, date } = document;
  const alternative = (value: string) => `<rdf:Alt><rdf:li xml:lang="x-default">${escaped(value)}</rdf:li></rdf:Alt>`;
  const bag = keywords.map((word) => `<rdf:li>${escaped(word)}</rdf:li>`).join('');
  const lines = [
    `<dc:format>application/pdf</dc:format>`,
    `<dc:title>${alternative(title)}</dc:title>`,
    author && `<dc:creator><rdf:Seq><rdf:li>${escaped(author)}</rdf:li></rdf:Seq></dc:creator>`,
    subject && `<dc:description>${alternative(subject)}</dc:description>`,
    bag && `<dc:subject><rdf:Bag>${bag}</rdf:Bag></dc:subject>`,
    language && `<dc:language><rdf:Bag><rdf:li>${escaped(language)}</rdf:li></rdf:Bag></dc:language>`,
    keywords.length > 0 && `<pdf:Keywords>${escaped(keywords.join(', '))}</pdf:Keywords>`,
    `<pdf:Producer>${PRODUCER}</pdf:Producer>`,
    `<pdf:Trapped>False</pdf:Trapped>`,
    `<xmp:CreatorTool>${escaped(creator)}</xmp:CreatorTool>`,
    date !== null && `<xmp:CreateDate>${isoDate(date)}</xmp:CreateDate>`,
    date !== null && `<xmp:ModifyDate>${isoDate(date)}</xmp:ModifyDate>`,
    date !== null && `<xmp:MetadataDate>${isoDate(date)}</xmp:MetadataDate>`,
  ].filter((line) => line !== false && line !== '');
  return `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:xmp="http://ns.adobe.com/xap/1.0/">
${lines.join('\n')}
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>`;
}

function isoDate(seconds: number): string {
  const at = momentOf(seconds);
  return `${pad(at.year, 4)}-${pad(at.month)}-${pad(at.day)}T${pad(at.hour)}:${pad(at.minute)}:${pad(at.second)}Z`;
}

const DAY = 86400;

/**
 * Calendar date in UTC. Days are counted from the first of March of year 0, so that leap days end a year; 146,097 days
 * make 400 years.
 */
export function momentOf(seconds: number): Moment {
  const days = Math.floor(seconds / DAY);
  const rest = Math.floor(seconds - days * DAY);
  const shifted = days + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const leaps = Math.floor(dayOfEra / 1460) - Math.floor(dayOfEra / 36_524) + Math.floor(dayOfEra / 146_096);
  const yearOfEra = Math.floor((dayOfEra - leaps) / 365);
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const march = Math.floor((5 * dayOfYear + 2) / 153);
  const month = march < 10 ? march + 3 : march - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * march + 2) / 5) + 1,
    hour: Math.floor(rest / 3600),
    minute: Math.floor(rest / 60) % 60,
    second: rest % 60,
  };
}

function pad(value: number, digits = 2): string {
  return String(value).padStart(digits, '0');
}

/** Characters that XML can't hold are dropped. */
function escaped(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;');
}

function utf8(text: string): Uint8Array {
  const bytes: number[] = [];
  for (const letter of text) {
    const code = letter.codePointAt(0)!;
    if (code < 0x80) bytes.push(code);
    else if (code < 0x800) bytes.push(0xc0 | (code >> 6), 0x80 | (code & 63));
    else if (code < 0x10000) bytes.push(0xe0 | (code >> 12), 0x80 | ((code >> 6) & 63), 0x80 | (code & 63));
    else bytes.push(0xf0 | (code >> 18), 0x80 | ((code >> 12) & 63), 0x80 | ((code >> 6) & 63), 0x80 | (code & 63));
  }
  return Uint8Array.from(bytes);
}
