/** How runs look: defaults, styles that build on each other, toggles, direct formatting, languages. */
import { describe, expect, it } from 'vitest';
import { p, r, rx } from '../builders/docx.ts';
import { looks, paragraphs, read, readParagraph } from './docxReading.ts';

const style = (type: string, id: string, rest: string) =>
  `<w:style w:type="${type}" w:styleId="${id}"><w:name w:val="${id}"/>${rest}</w:style>`;

function looksWith(styles: string, blocks: Parameters<typeof read>[0]): string {
  return paragraphs(read(blocks, { styles })).map(looks).join(' / ');
}

describe('direct looks', () => {
  it('reads every mark of a run', () => {
    const content = [
      r('a', { italic: true }),
      r('b', { bold: true }),
      r('c', { underline: true }),
      r('d', { smallCaps: true }),
      r('e', { allCaps: true }),
      r('f', { strike: true }),
      r('g', { raised: 'superscript' }),
      r('h', { raised: 'subscript' }),
      r('i', { xml: '<w:dstrike/>' }),
      r('j', { bold: true, italic: true }),
    ];
    expect(looks(readParagraph(content))).toBe(
      'i:a|b:b|u:c|sc:d|caps:e|strike:f|superscript:g|subscript:h|strike:i|i b:j',
    );
  });

  it('reads every spelling of on and off', () => {
    const run = (value: string, text: string) => r(text, { xml: `<w:i w:val="${value}"/>` });
    const content = [
      run('1', 'a'),
      run('0', 'b'),
      run('true', 'c'),
      run('false', 'd'),
      run('on', 'e'),
      run('off', 'f'),
    ];
    expect(looks(readParagraph(content))).toBe('i:a|b|i:c|d|i:e|f');
  });

  it('takes small raised letters for superscript, but not a shifted line', () => {
    const raise = (half: number) => `<w:position w:val="${half}"/>`;
    const content = [r('M'), r('lle', { size: 8, xml: raise(8) }), r(' stood'), r(' up', { xml: raise(8) })];
    expect(looks(readParagraph(content))).toBe('M|superscript:lle| stood up');
  });

  it('gives sizes in points', () => {
    expect(readParagraph([r('x', { size: 17.5 }), r('y')]).inlines).toEqual([
      { kind: 'text', text: 'x', size: 17.5 },
      { kind: 'text', text: 'y', size: 12 },
    ]);
  });
});

describe('styles', () => {
  it('follows what a style is based on', () => {
    const styles =
      style('paragraph', 'A', '<w:rPr><w:i/><w:sz w:val="30"/></w:rPr>') +
      style('paragraph', 'B', '<w:basedOn w:val="A"/><w:rPr><w:b/></w:rPr>') +
      style('paragraph', 'C', '<w:basedOn w:val="B"/><w:rPr><w:i w:val="0"/></w:rPr>');
    expect(looksWith(styles, [p('a', { style: 'A' }), p('b', { style: 'B' }), p('c', { style: 'C' })])).toBe(
      'i:a / i b:b / b:c',
    );
    const [only] = paragraphs(read([p('c', { style: 'C' })], { styles }));
    expect(only?.inlines).toEqual([{ kind: 'text', text: 'c', bold: true, size: 15 }]);
  });

  it('does not loop where styles are based on each other', () => {
    const styles =
      style('paragraph', 'A', '<w:basedOn w:val="B"/><w:rPr><w:i/></w:rPr>') +
      style('paragraph', 'B', '<w:basedOn w:val="A"/>');
    expect(looksWith(styles, [p('a', { style: 'B' })])).toBe('i:a');
  });

  // ECMA-376 part 1, 17.7.3: a toggle that both the paragraph's and the character's style set is off.
  it('cancels toggles of paragraph and character style', () => {
    expect(looksWith('', [p([r('plain '), r('set off', { style: 'Emphasis' })], { style: 'Quote' })])).toBe(
      'i:plain |set off',
    );
    expect(looksWith('', [p([r('direct', { style: 'Emphasis', italic: true })], { style: 'Quote' })])).toBe('i:direct');
  });

  it('does not cancel toggles within one chain, nor underline', () => {
    const styles =
      style('character', 'Base', '<w:rPr><w:i/><w:u w:val="single"/></w:rPr>') +
      style('character', 'More', '<w:basedOn w:val="Base"/><w:rPr><w:i/></w:rPr>') +
      style('paragraph', 'Lined', '<w:rPr><w:u w:val="single"/></w:rPr>');
    expect(looksWith(styles, [p([r('x', { style: 'More' })], { style: 'Lined' })])).toBe('i u:x');
  });

  it('hides text by style', () => {
    const styles = style('character', 'Secret', '<w:rPr><w:vanish/></w:rPr>');
    const shown = paragraphs(read([p([r('a', { style: 'Secret', hidden: false }), r('b')])], { styles }));
    expect(shown.map(looks)).toEqual(['ab']);
  });

  it('needs no style sheet, and keeps the name of a style that the sheet lacks', () => {
    const [first] = paragraphs(read([p('One', { style: 'Heading2' })], { allStyles: '' }));
    expect(first).toMatchObject({ style: 'heading 2', outlineLevel: 2, inlines: [{ text: 'One', size: 10 }] });
  });
});

describe('languages', () => {
  it('marks only what is in another language than the manuscript', () => {
    const content = [r('She said '), r('bonjour', { language: 'fr-FR' }), r(' politely', { language: 'en-GB' })];
    const manuscript = read([p(content)]);
    expect(paragraphs(manuscript).map(looks)).toEqual(['She said |fr-FR:bonjour| politely']);
    expect(manuscript.properties.language).toBe('en-US');
  });

  it('takes the language of most text for the manuscript’s', () => {
    const long = r('Es war einmal ein König, der hatte drei Töchter', { language: 'de-AT' });
    const manuscript = read([p([long, r(' once')])]);
    expect(paragraphs(manuscript).map(looks)).toEqual(['Es war einmal ein König, der hatte drei Töchter|en-US: once']);
    expect(manuscript.properties.language).toBe('de-AT');
  });

  it('does not part text where only the region differs', () => {
    expect(looks(readParagraph([r('grey '), r('and gray', { language: 'en-GB' })]))).toBe('grey and gray');
    const parts = [r('Il y avait ', { language: 'fr-FR' }), r('une fois', { language: 'fr-CA' })];
    expect(looks(readParagraph(parts))).toBe('Il y avait une fois');
  });

  it('falls back to the language that the file declares', () => {
    const manuscript = read([p('x')], { allStyles: '', language: 'nl-NL' });
    expect(manuscript.properties.language).toBe('nl-NL');
    expect(paragraphs(read([p(rx('<w:t>x</w:t>', { language: 'x-none' }))]))[0]?.inlines[0]).not.toHaveProperty(
      'language',
    );
  });
});
