/** The frame of every XHTML file. In: what stands in its body; out: the whole document. */
import { isRightToLeft } from './links.ts';
import { attributes, escapeText, XML_DECLARATION } from './xml.ts';

export interface DocumentParts {
  readonly title: string;
  readonly language: string;
  /** The style sheet as seen from the file. */
  readonly style: string;
  /** `epub:type` of the body: the division of the book. */
  readonly division: string | null;
  readonly body: string;
}

export function xhtmlDocument(parts: DocumentParts): string {
  const root = attributes({
    xmlns: 'http://www.w3.org/1999/xhtml',
    'xmlns:epub': 'http://www.idpf.org/2007/ops',
    lang: parts.language,
    'xml:lang': parts.language,
    // A style sheet may not set the direction (EPUB 3.3, "CSS requirements"): the document does.
    dir: isRightToLeft(parts.language) ? 'rtl' : null,
  });
  const title = parts.title.trim() === '' ? '\u2014' : parts.title;
  return `${XML_DECLARATION}<!DOCTYPE html>
<html${root}>
<head>
<title>${escapeText(title)}</title>
<link rel="stylesheet" type="text/css" href="${parts.style}"/>
</head>
<body${attributes({ 'epub:type': parts.division })}>
${parts.body}</body>
</html>
`;
}
