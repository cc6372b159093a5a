/**
 * Broken and hostile files, each made by code: what a person might drop on the program by mistake, and what someone might
 * build to harm it. In: nothing; out: a name, the bytes, and what the program owes: a refusal, or a book all the same.
 */
import { strToU8, type Zippable, zipSync } from 'fflate';
import { docx, p, xml } from '../builders/docx.ts';

export interface HostileFile {
  /** File name, by which a test names the case. */
  readonly name: string;
  readonly bytes: () => Uint8Array;
  /** `refused`: exit 1 with one sentence; `usable`: the rest of it is a book; `either`: only no harm. */
  readonly owes: 'refused' | 'usable' | 'either';
}

const GOOD = (): Uint8Array => docx([p('Chapter One', { style: 'Heading1' }), p('The lamp was lit. Nobody came.')]);

const W = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"';

const documentOf = (body: string, prolog = ''): string =>
  `<?xml version="1.0" encoding="UTF-8"?>${prolog}<w:document ${W}><w:body>${body}</w:body></w:document>`;

/** A package whose main part is what is given. */
const withMain = (main: string | Uint8Array): Uint8Array => docx([], { parts: { 'word/document.xml': main } });

const paragraph = (text: string): string => `<w:p><w:r><w:t>${text}</w:t></w:r></w:p>`;

/** Writes little-endian numbers into a copy. */
function patched(
  bytes: Uint8Array,
  patches: readonly (readonly [at: number, value: number, size: 2 | 4])[],
): Uint8Array {
  const copy = bytes.slice();
  const view = new DataView(copy.buffer);
  for (const [at, value, size] of patches) {
    if (size === 2) view.setUint16(at, value, true);
    else view.setUint32(at, value, true);
  }
  return copy;
}

/** Where the ZIP structure of this signature begins: the first (`from` 0) or the next. */
function signature(bytes: Uint8Array, mark: number, from = 0): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  for (let at = from; at + 4 <= bytes.length; at++) if (view.getUint32(at, true) === mark) return at;
  throw new RangeError(`no signature ${mark.toString(16)}`);
}

const CENTRAL = 0x02014b50;
const END = 0x06054b50;

function zip(entries: Zippable): Uint8Array {
  return zipSync(entries, { mtime: '1990-01-01T12:00:00' });
}

const containers: readonly HostileFile[] = [
  { name: 'empty.docx', owes: 'refused', bytes: () => new Uint8Array(0) },
  { name: 'one-byte.docx', owes: 'refused', bytes: () => new Uint8Array([80]) },
  { name: 'cut-in-half.docx', owes: 'refused', bytes: () => GOOD().slice(0, GOOD().length >> 1) },
  { name: 'cut-at-the-end.docx', owes: 'refused', bytes: () => GOOD().slice(0, -10) },
  { name: 'zeros.docx', owes: 'refused', bytes: () => new Uint8Array(1_000_000) },
  { name: 'text.docx', owes: 'refused', bytes: () => strToU8('Chapter One\n\nThe lamp was lit.\n'.repeat(100)) },
  { name: 'rich-text.docx', owes: 'refused', bytes: () => strToU8('{\\rtf1\\ansi Chapter One\\par}') },
  { name: 'page.docx', owes: 'refused', bytes: () => strToU8('<html><script>alert(1)</script></html>') },
  {
    name: 'old-binary.docx',
    owes: 'refused',
    bytes: () => new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ...new Uint8Array(4096)]),
  },
  {
    name: 'picture.docx',
    owes: 'refused',
    bytes: () => new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, ...new Uint8Array(64)]),
  },
  { name: 'other-zip.docx', owes: 'refused', bytes: () => zip({ 'notes.txt': strToU8('hello') }) },
  { name: 'empty-zip.docx', owes: 'refused', bytes: () => zip({}) },
  {
    name: 'book-as-manuscript.docx',
    owes: 'refused',
    bytes: () => zip({ 'manifest.json': strToU8('{"format":"reglet","version":1}') }),
  },
  {
    name: 'locked.docx',
    owes: 'refused',
    bytes: () => {
      const bytes = GOOD();
      let at = 0;
      const patches: [number, number, 2][] = [];
      for (let entry = 0; entry < 3; entry++) {
        at = signature(bytes, CENTRAL, at);
        patches.push([at + 8, 1, 2]);
        at += 4;
      }
      return patched(bytes, patches);
    },
  },
  {
    name: 'wrong-checksum.docx',
    owes: 'refused',
    bytes: () => {
      const bytes = GOOD();
      let at = signature(bytes, CENTRAL);
      const patches: [number, number, 4][] = [];
      for (;;) {
        patches.push([at + 16, 0xdeadbeef, 4]);
        try {
          at = signature(bytes, CENTRAL, at + 4);
        } catch {
          return patched(bytes, patches);
        }
      }
    },
  },
  {
    name: 'directory-outside.docx',
    owes: 'refused',
    bytes: () => patched(GOOD(), [[signature(GOOD(), END) + 16, 0x7fffffff, 4]]),
  },
  {
    name: 'too-many-claimed.docx',
    owes: 'refused',
    bytes: () => patched(GOOD(), [[signature(GOOD(), END) + 10, 0xfffe, 2]]),
  },
  {
    name: 'traversal.docx',
    owes: 'either',
    bytes: () => docx([p('Text.')], { parts: { '../../escaped.txt': 'out', '/tmp/escaped.txt': 'out' } }),
  },
  { name: 'bomb.docx', owes: 'refused', bytes: () => withMain(new Uint8Array(300 * 1024 * 1024).fill(32)) },
  {
    name: 'bomb-of-paragraphs.docx',
    owes: 'refused',
    bytes: () => withMain(documentOf('<w:p/>'.repeat(9_000_000))),
  },
  {
    name: 'bomb-beside.docx',
    owes: 'refused',
    bytes: () => docx([p('Text.')], { parts: { 'word/media/image1.png': new Uint8Array(200 * 1024 * 1024) } }),
  },
  {
    name: 'many-parts.docx',
    owes: 'refused',
    bytes: () =>
      docx([p('Text.')], { parts: Object.fromEntries(Array.from({ length: 20_000 }, (_, at) => [`x/${at}`, ''])) }),
  },
];

const ENTITIES = `<!DOCTYPE w:document [<!ENTITY a "lamp">${'bcdefghi'
  .split('')
  .map((name, at) => `<!ENTITY ${name} "${`&${'abcdefgh'[at]};`.repeat(10)}">`)
  .join('')}]>`;

const texts: readonly HostileFile[] = [
  { name: 'entity-expansion.docx', owes: 'refused', bytes: () => withMain(documentOf(paragraph('&i;'), ENTITIES)) },
  {
    name: 'external-entity.docx',
    owes: 'refused',
    bytes: () => withMain(documentOf(paragraph('&x;'), '<!DOCTYPE d [<!ENTITY x SYSTEM "file:///etc/passwd">]>')),
  },
  { name: 'deep-nesting.docx', owes: 'refused', bytes: () => withMain(documentOf(`${'<w:sdt>'.repeat(100_000)}`)) },
  {
    name: 'nested-tables.docx',
    owes: 'refused',
    bytes: () => {
      const open = '<w:tbl><w:tr><w:tc>';
      const close = '</w:tc></w:tr></w:tbl>';
      return withMain(documentOf(open.repeat(2_000) + paragraph('In.') + close.repeat(2_000)));
    },
  },
  {
    name: 'tables-within-bounds.docx',
    owes: 'either',
    bytes: () => {
      const open = '<w:tbl><w:tr><w:tc>';
      const close = '</w:tc></w:tr></w:tbl>';
      return withMain(documentOf(open.repeat(80) + paragraph('In.') + close.repeat(80) + paragraph('Out.')));
    },
  },
  { name: 'unclosed.docx', owes: 'refused', bytes: () => withMain(`<w:document ${W}><w:body><w:p>`) },
  { name: 'wrong-root.docx', owes: 'refused', bytes: () => withMain('<html xmlns="http://www.w3.org/1999/xhtml"/>') },
  {
    name: 'bad-utf8.docx',
    owes: 'either',
    bytes: () =>
      withMain(new Uint8Array([...strToU8(documentOf(paragraph('x')).slice(0, -60)), 0xff, 0xfe, 0xc0, 0x80])),
  },
  {
    name: 'utf16.docx',
    owes: 'usable',
    bytes: () => {
      const text = documentOf(paragraph('The lamp was lit.')).replace('UTF-8', 'UTF-16');
      const units = Uint16Array.from(`\ufeff${text}`, (character) => character.charCodeAt(0));
      return withMain(new Uint8Array(units.buffer));
    },
  },
  {
    name: 'claims-another-encoding.docx',
    owes: 'either',
    bytes: () => withMain(documentOf(paragraph('Lamp')).replace('UTF-8', 'shift_jis')),
  },
  { name: 'nul-characters.docx', owes: 'either', bytes: () => withMain(documentOf(paragraph('la\u0000mp'))) },
  {
    name: 'control-characters.docx',
    owes: 'either',
    bytes: () => withMain(documentOf(paragraph('la\u0007m\u001bp &#x1;&#xB;'))),
  },
  { name: 'lone-surrogates.docx', owes: 'either', bytes: () => withMain(documentOf(paragraph('lamp &#xD800; lit'))) },
  { name: 'only-marks.docx', owes: 'either', bytes: () => withMain(documentOf(paragraph('\u0301'.repeat(50_000)))) },
  {
    name: 'direction-overrides.docx',
    owes: 'usable',
    bytes: () => docx([p(`\u202egnp.pmal\u202c ${'\u202b'.repeat(300)}deep`), p('Text.')]),
  },
  {
    name: 'a-million-letters-in-a-word.docx',
    owes: 'either',
    bytes: () => docx([p('a'.repeat(1_000_000)), p('Text.')]),
  },
  {
    name: 'a-book-in-a-paragraph.docx',
    owes: 'either',
    bytes: () => docx([p('The lamp was lit and nobody came. '.repeat(20_000))]),
  },
  {
    name: 'a-hundred-thousand-empty-paragraphs.docx',
    owes: 'either',
    bytes: () => withMain(documentOf('<w:p/>'.repeat(100_000) + paragraph('Text.'))),
  },
  { name: 'no-words.docx', owes: 'refused', bytes: () => docx([]) },
  {
    name: 'styles-in-a-circle.docx',
    owes: 'usable',
    bytes: () =>
      docx([p('Chapter One', { style: 'RoundA' }), p('The lamp was lit.')], {
        styles: ['A', 'B']
          .map(
            (name, at) =>
              `<w:style w:type="paragraph" w:styleId="Round${name}"><w:name w:val="Round ${name}"/><w:basedOn w:val="Round${'BA'[at]}"/></w:style>`,
          )
          .join(''),
      }),
  },
  {
    name: 'numbers-without-end.docx',
    owes: 'either',
    bytes: () =>
      docx([
        xml(
          '<w:p><w:pPr><w:numPr><w:ilvl w:val="99999999"/><w:numId w:val="-1"/></w:numPr><w:ind w:left="999999999999" w:firstLine="-1e99"/></w:pPr><w:r><w:rPr><w:sz w:val="99999999"/></w:rPr><w:t>Lamp</w:t></w:r></w:p>',
        ),
        p('Text.'),
      ]),
  },
];

const png = (width: number, height: number, rest = 64): Uint8Array => {
  const bytes = new Uint8Array(33 + rest);
  bytes.set([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52]);
  const view = new DataView(bytes.buffer);
  view.setUint32(16, width);
  view.setUint32(20, height);
  bytes.set([8, 6, 0, 0, 0], 24);
  return bytes;
};

const RELATION = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const DRAWING = `<w:p><w:r><w:drawing><wp:inline xmlns:wp="http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing"><wp:docPr id="1" name="p" descr="A lamp"/><a:graphic xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><a:graphicData><pic:pic xmlns:pic="http://schemas.openxmlformats.org/drawingml/2006/picture"><pic:blipFill><a:blip xmlns:r="${RELATION}" r:embed="rId99"/></pic:blipFill></pic:pic></a:graphicData></a:graphic></wp:inline></w:drawing></w:r></w:p>`;

/** A manuscript whose one picture is what is given. */
const withPicture = (name: string, bytes: Uint8Array | string, target = `media/${name}`): Uint8Array =>
  docx([p('Chapter One', { style: 'Heading1' }), xml(DRAWING), p('The lamp was lit.')], {
    parts: { [`word/media/${name}`]: bytes },
    relationships: `<Relationship Id="rId99" Type="${RELATION}/image" Target="${target}"/>`,
  });

const pictures: readonly HostileFile[] = [
  { name: 'picture-of-lies.docx', owes: 'usable', bytes: () => withPicture('a.png', png(60_000, 60_000)) },
  { name: 'picture-cut-short.docx', owes: 'usable', bytes: () => withPicture('a.png', png(10, 10).slice(0, 30)) },
  { name: 'picture-of-nothing.docx', owes: 'usable', bytes: () => withPicture('a.png', png(0, 0)) },
  {
    name: 'jpeg-cut-short.docx',
    owes: 'usable',
    bytes: () => withPicture('a.jpg', new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16])),
  },
  {
    name: 'script-in-svg.docx',
    owes: 'usable',
    bytes: () =>
      withPicture(
        'a.svg',
        '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)" width="9" height="9"><script>alert(1)</script><foreignObject/></svg>',
      ),
  },
  {
    name: 'page-as-picture.docx',
    owes: 'usable',
    bytes: () => withPicture('a.png', '<html><script>alert(1)</script></html>'),
  },
  {
    name: 'picture-outside.docx',
    owes: 'usable',
    bytes: () => withPicture('a.png', png(1, 1), '../../../../../etc/passwd'),
  },
  {
    name: 'picture-from-the-web.docx',
    owes: 'usable',
    bytes: () => withPicture('a.png', png(1, 1), 'https://example.com/a.png'),
  },
];

/** Some forty manuscripts that are not what they should be. */
export const MANUSCRIPTS: readonly HostileFile[] = [...containers, ...texts, ...pictures];

const MANIFEST = (version: unknown, hash = '0'.repeat(64)): Uint8Array =>
  strToU8(JSON.stringify({ format: 'reglet', version, book: hash }));

/** Project files that are not what they should be. */
export const BOOKS: readonly HostileFile[] = [
  { name: 'empty.reglet', owes: 'refused', bytes: () => new Uint8Array(0) },
  { name: 'zeros.reglet', owes: 'refused', bytes: () => new Uint8Array(100_000) },
  {
    name: 'newer.reglet',
    owes: 'refused',
    bytes: () => zip({ 'manifest.json': MANIFEST(99), 'book.json': strToU8('{}') }),
  },
  {
    name: 'version-of-text.reglet',
    owes: 'refused',
    bytes: () => zip({ 'manifest.json': MANIFEST('1'), 'book.json': strToU8('{}') }),
  },
  {
    name: 'not-its-book.reglet',
    owes: 'refused',
    bytes: () => zip({ 'manifest.json': MANIFEST(1), 'book.json': strToU8('{}') }),
  },
  { name: 'no-book.reglet', owes: 'refused', bytes: () => zip({ 'manifest.json': MANIFEST(1) }) },
  {
    name: 'manifest-of-brackets.reglet',
    owes: 'refused',
    bytes: () => zip({ 'manifest.json': strToU8('['.repeat(60_000)) }),
  },
  {
    name: 'book-bomb.reglet',
    owes: 'refused',
    bytes: () => zip({ 'manifest.json': MANIFEST(1), 'book.json': new Uint8Array(200 * 1024 * 1024).fill(91) }),
  },
  {
    name: 'asset-outside.reglet',
    owes: 'refused',
    bytes: () => zip({ 'manifest.json': MANIFEST(1), 'book.json': strToU8('{}'), 'assets/../../x': strToU8('x') }),
  },
  { name: 'manuscript.reglet', owes: 'either', bytes: GOOD },
];
