/** A section's proof: what it shows is what the ebook's file of that section holds, letter for letter. */
import { describe, expect, it } from 'vitest';
import type { Book } from '#book';
import { makeEbook, type PageStart, proofSection, type SectionProof } from '#ebook';
import { book, bookValue, chapter, p, section } from '../builders/book.ts';
import { filesOf, request } from './request.ts';
import { richBook } from './rich.ts';

const FONTS = [
  { family: 'EB Garamond', weight: 400, italic: false, path: 'fonts/EBGaramond-400.ttf' },
  { family: 'EB Garamond', weight: 400, italic: true, path: 'fonts/EBGaramond-400-italic.ttf' },
];

function proofOf(value: Book, id: string, pageStarts: readonly PageStart[] = []): SectionProof | null {
  const { view, design } = request(value);
  return proofSection({ view, design, section: id, pageStarts, fonts: FONTS });
}

/** Every section's proof beside the ebook's own files; gives how many were compared. */
function expectSameAsEbook(value: Book, pageStarts: readonly PageStart[]): number {
  const files = filesOf(makeEbook(request(value, { pageStarts })));
  // The name in the title bar tells files of one name apart; pictures are counted through the book.
  const plain = (xhtml: string) => xhtml.replace(/<title>.*<\/title>/, '').replaceAll(/picture-\d+/g, 'picture');
  const documents = new Set([...files].filter(([path]) => path.includes('/text/')).map(([, xhtml]) => plain(xhtml)));
  let compared = 0;
  for (const node of value.text.children) {
    const proof = proofOf(value, String(node.attrs['id']), pageStarts);
    if (!proof || proof.xhtml.includes('epub:type="toc"')) continue;
    expect(documents).toContain(plain(proof.xhtml));
    expect(files.get('EPUB/style.css')).toBe(proof.css);
    compared++;
  }
  return compared;
}

describe('proofSection', () => {
  it('shows the very files of the ebook', () => {
    expect(expectSameAsEbook(richBook(), [])).toBeGreaterThan(3);
  });

  it('has the page breaks of the print edition where the ebook has them', () => {
    const value = bookValue(book(chapter('One', p('The ferry lay on the far bank.'), p('Nobody had a bell.'))));
    const block = String(value.text.child(0).child(1).attrs['id']);
    const starts = [{ label: '7', block, offset: 4 }];
    expect(expectSameAsEbook(value, starts)).toBe(1);
    expect(proofOf(value, String(value.text.child(0).attrs['id']), starts)?.xhtml).toContain('id="x-page-7"');
  });

  it('names each picture and ornament that it refers to', () => {
    const value = richBook();
    const proofs = value.text.children.flatMap((node) => proofOf(value, String(node.attrs['id'])) ?? []);
    for (const { xhtml, css, pictures, ornaments } of proofs) {
      const sources = [...xhtml.matchAll(/<img src="([^"]+)"/g)].map((match) => match[1]);
      expect(pictures.map(({ src }) => src)).toEqual([...new Set(sources)]);
      const addresses = [...css.matchAll(/url\("(images\/[^"]+)"\)/g)].map((match) => match[1]);
      expect(new Set(ornaments.map(({ href }) => href))).toEqual(new Set(addresses));
    }
    expect(proofs.some(({ pictures }) => pictures.length > 0)).toBe(true);
  });

  it('shows the contents that the edition makes by itself', () => {
    const value = bookValue(book(section('contents', null), chapter('The Weir', p('Water.'))));
    const proof = proofOf(value, String(value.text.child(0).attrs['id']));
    expect(proof?.xhtml).toContain('epub:type="toc"');
    expect(proof?.xhtml).toContain('The Weir');
  });

  it('is null for a section that the ebook has not', () => {
    expect(proofOf(bookValue(book(chapter('One', p('Text.')))), 'nowhere')).toBeNull();
  });
});
