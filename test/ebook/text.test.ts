import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { expect, test } from 'vitest';
import { schema } from '#book';
import type { PageStart } from '#ebook';
import { book, bookValue, br, chapter, em, lang, link, note, p, smallCaps, strong } from '../builders/book.ts';
import { fileOf } from './request.ts';

/** The first chapter of a book whose only block is `paragraph`. */
function chapterWith(paragraph: ReturnType<typeof p>, pageStarts: readonly PageStart[] = []): string {
  return fileOf(bookValue(book(chapter('One', paragraph))), 'text/chapter-01.xhtml', { fonts: [], pageStarts });
}

/** The element of an id as written, with what stands in it. */
function elementOf(xhtml: string, id: string): string {
  const start = xhtml.search(new RegExp(`<[a-z0-9]+ id="${id}"`));
  const tag = /^<([a-z0-9]+)/.exec(xhtml.slice(start))?.[1];
  return xhtml.slice(start, xhtml.indexOf(`</${tag}>`, start) + `</${tag}>`.length);
}

/** The characters of the element of an id as a parser reads them, those of note references left out. */
function textOf(xhtml: string, id: string): string {
  const parser = new SaxesParser();
  let depth = 0;
  let text = '';
  parser.on('opentag', (tag) => {
    if (depth > 0 || tag.attributes['id'] === id) depth++;
  });
  parser.on('closetag', () => {
    if (depth > 0) depth--;
  });
  parser.on('text', (piece) => {
    if (depth > 0) text += piece;
  });
  parser.write(xhtml).close();
  return text;
}

/** What XML 1.0 does not allow (section 2.2, Char), as a plain statement of the rule. */
function allowed(text: string): string {
  return [...text]
    .filter((character) => {
      const code = character.codePointAt(0) ?? 0;
      if (code < 0x20) return code === 9 || code === 10 || code === 13;
      return !(code >= 0xd800 && code <= 0xdfff) && code !== 0xfffe && code !== 0xffff;
    })
    .join('');
}

const anyText = fc
  .array(
    fc.oneof(
      fc.string(),
      fc.string({ unit: 'binary' }),
      fc.constantFrom('\r', '\r\n', ']]>', '&amp;', '\ud800', '\udc00', '\uffff', '\u0000', '💧'),
    ),
  )
  .map((parts) => parts.join(''))
  .filter((text) => text !== '');

test('any text survives, but for characters that XML does not allow', () => {
  fc.assert(
    fc.property(anyText, (text) => {
      const read = textOf(chapterWith(p({ id: 'x1', align: 'start' }, text)), 'x1');
      expect(read).toBe(allowed(text));
    }),
    { numRuns: 200 },
  );
});

test('marks and page breaks anywhere leave the text as it is', () => {
  const stretch = fc.record({
    text: fc.string({ minLength: 1, unit: 'grapheme' }),
    marks: fc.subarray(['emphasis', 'strong', 'smallCaps', 'superscript', 'strikethrough'] as const),
  });
  fc.assert(
    fc.property(
      fc.array(stretch, { minLength: 1, maxLength: 6 }),
      fc.array(fc.nat(40), { maxLength: 4 }),
      (parts, offsets) => {
        const nodes = parts.map((part) =>
          schema.text(
            part.text,
            part.marks.map((name) => schema.marks[name].create()),
          ),
        );
        const starts = offsets.map((offset, index) => ({ label: String(index + 1), block: 'x1', offset }));
        const xhtml = chapterWith(p({ id: 'x1' }, ...nodes), starts);
        expect(textOf(xhtml, 'x1')).toBe(allowed(parts.map((part) => part.text).join('')));
        expect(xhtml.match(/doc-pagebreak/g)?.length ?? 0).toBe(starts.length);
      },
    ),
    { numRuns: 100 },
  );
});

test('marks nest, and what neighbours share stays open', () => {
  const xhtml = chapterWith(
    p({ id: 'x1', align: 'start' }, em('a', strong('b')), strong('c'), smallCaps('d'), br(), lang('fr', 'e')),
  );
  expect(elementOf(xhtml, 'x1')).toBe(
    '<p id="x1" class="align-start"><em>a<strong>b</strong></em><strong>c</strong><span class="small-caps">d</span><br/><span lang="fr" xml:lang="fr">e</span></p>',
  );
});

test('a page break stands between two letters where a page begins inside a word', () => {
  const xhtml = chapterWith(p({ id: 'x1', align: 'start' }, 'wa', em('ter')), [{ label: '7', block: 'x1', offset: 3 }]);
  expect(elementOf(xhtml, 'x1')).toBe(
    '<p id="x1" class="align-start">wa<em>t<span id="x-page-7" epub:type="pagebreak" role="doc-pagebreak" aria-label="7"></span>er</em></p>',
  );
});

test('a page break never divides a surrogate pair', () => {
  const xhtml = chapterWith(p({ id: 'x1', align: 'start' }, '💧💧'), [{ label: '7', block: 'x1', offset: 1 }]);
  expect(textOf(xhtml, 'x1')).toBe('💧💧');
  expect(xhtml).toContain('💧<span');
});

test('the opening words are marked as lead-in and stay as typed', () => {
  const rest = ' of November, and the river stood at nine feet.';
  const lead = (...parts: Parameters<typeof p>): string =>
    /<span class="lead-in">.*?<\/span>(?!<)/.exec(elementOf(chapterWith(p({ id: 'x1' }, ...parts)), 'x1'))?.[0] ?? '';
  expect(lead(`It was the fourteenth${rest}`)).toBe('<span class="lead-in">It was the fourteenth</span>');
  expect(lead(`A or B or C${rest}`)).toBe('<span class="lead-in">A or B or C</span>');
  expect(lead(`“On the weir,” she said${rest}`)).toBe('<span class="lead-in">“On the weir</span>');
  expect(lead('The ', em('old miller'), ` woke${rest}`)).toBe(
    '<span class="lead-in">The <em>old miller</em> woke</span>',
  );
  expect(lead('The old miller', note(p('Him.')), rest)).toBe('<span class="lead-in">The old</span>');
  expect(lead('It was late.')).toBe('');
});

test('only addresses that a reading system may follow become links', () => {
  const of = (href: string): string => elementOf(chapterWith(p({ id: 'x1', align: 'start' }, link(href, 'x'))), 'x1');
  const plain = '<p id="x1" class="align-start">x</p>';
  expect(of('https://example.org/a b?c=1&d="2"#e#f')).toContain(
    'href="https://example.org/a%20b?c=1&amp;d=%222%22#e%23f"',
  );
  expect(of('mailto:a@example.org')).toContain('href="mailto:a@example.org"');
  expect(of('http://müller.example/ä')).toContain('href="http://müller.example/%C3%A4"');
  for (const href of [
    'file:///etc/passwd',
    'javascript:alert(1)',
    'data:text/html,x',
    'chapter2.docx',
    'https://',
    'http://[x]/',
    'http://a b/',
    'http://a..b/',
    'https://example.org:70000/',
    '#nowhere',
  ]) {
    expect(of(href)).toBe(plain);
  }
});

test('a link inside the book leads to the file of its block', () => {
  const value = bookValue(book(chapter('One', p(link('#far', 'there'))), chapter('Two', p({ id: 'far' }, 'here'))));
  expect(fileOf(value, 'text/chapter-01.xhtml')).toContain('<a href="chapter-02.xhtml#far">');
});

test('a note and its reference are linked both ways and no link holds another', () => {
  const value = bookValue(book(chapter('One', p(link('https://example.org/', 'a', note(p('Why.')), 'b')))));
  const xhtml = fileOf(value, 'text/chapter-01.xhtml');
  expect(xhtml).toContain(
    '</a><sup class="noteref"><a id="x-ref-n1" href="#n1" epub:type="noteref" role="doc-noteref">1</a></sup><a href',
  );
  expect(xhtml).toContain('<section class="notes" epub:type="endnotes" role="doc-endnotes" aria-labelledby="x-notes">');
  expect(xhtml).toMatch(
    /<li id="n1">\s*<p id="b\d" class="first">Why\. <a class="backlink" epub:type="backlink" role="doc-backlink" href="#x-ref-n1"/,
  );
});
