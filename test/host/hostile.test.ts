/**
 * Broken and hostile files through the host: one sentence or a book, in time and without growing, and nothing written. The
 * whole corpus goes through the command; here it is the host's own threads and bounds that are held.
 */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { zipSync } from 'fflate';
import { beforeEach, describe, expect, it } from 'vitest';
import { newBook } from '#book';
import { writeProject } from '#project';
import { book, chapter, p as paragraph } from '../builders/book.ts';
import { docx, p } from '../builders/docx.ts';
import { demo } from '../e2e/command.ts';
import { type Hosted, hosted, problem } from './hosting.ts';

const W = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"';

function withMain(body: string, prolog = ''): Uint8Array {
  const main = `<?xml version="1.0"?>${prolog}<w:document ${W}><w:body>${body}</w:body></w:document>`;
  return docx([], { parts: { 'word/document.xml': main } });
}

const text = (words: string): string => `<w:p><w:r><w:t>${words}</w:t></w:r></w:p>`;

const entities = Array.from({ length: 9 }, (_, at) => `<!ENTITY e${at + 1} "${`&e${at};`.repeat(10)}">`).join('');

/** Files that are refused, by the name that they come under. */
const REFUSED: Readonly<Record<string, () => Uint8Array>> = {
  'bomb.docx': () => withMain(text('a'.repeat(80 * 2 ** 20))),
  'expansion.docx': () => withMain(text('&e9;'), `<!DOCTYPE w [<!ENTITY e0 "ha">${entities}]>`),
  'outside.docx': () => withMain(text('&x;'), '<!DOCTYPE w [<!ENTITY x SYSTEM "file:///etc/passwd">]>'),
  'nested.docx': () => withMain(`${'<w:p>'.repeat(100_000)}${'</w:p>'.repeat(100_000)}`),
  'picture.docx': () => new Uint8Array([137, 80, 78, 71, 13, 10, 26, 10, ...new Array<number>(64).fill(0)]),
  'other.docx': () => zipSync({ '../../escape.txt': new Uint8Array(10), 'word/nothing.xml': new Uint8Array(10) }),
};

describe('a hostile manuscript', () => {
  let given: Hosted;

  beforeEach(async () => {
    given = await hosted();
  });

  it.each(Object.keys(REFUSED))('%s is refused in one sentence that names it', async (name) => {
    const bytes = REFUSED[name]?.() ?? new Uint8Array(0);
    const before = process.memoryUsage.rss();
    const sentence = problem(await given.call('importManuscript', { source: { name, bytes }, without: [] }));
    expect(sentence).toContain(name);
    expect(process.memoryUsage.rss() - before).toBeLessThan(2 ** 30);
    expect(readdirSync(given.folder)).toEqual([]);
  });

  it('cut anywhere or altered is refused or read, and the next one is read', async () => {
    const whole = new Uint8Array(readFileSync(demo));
    const damage = fc.record({
      cut: fc.integer({ min: 0, max: whole.length }),
      at: fc.integer({ min: 0, max: whole.length - 1 }),
      to: fc.integer({ min: 0, max: 255 }),
    });
    await fc.assert(
      fc.asyncProperty(damage, async ({ cut, at, to }) => {
        const bytes = whole.slice(0, cut);
        if (at < cut) bytes[at] = to;
        const reply = await given.call('importManuscript', { source: { name: 'x.docx', bytes }, without: [] });
        if (!reply.ok) problem(reply);
      }),
      { numRuns: 10 },
    );
    const good = docx([p('Chapter One', { style: 'Heading1' }), p('The lamp was lit.')]);
    expect((await given.call('importManuscript', { source: { name: 'y.docx', bytes: good }, without: [] })).ok).toBe(
      true,
    );
  });
});

describe('a hostile book', () => {
  it('cut anywhere or altered is refused in one sentence, or is the book', async () => {
    const given = await hosted();
    const sections = [...book(chapter('One', paragraph('The lamp was lit.'))).children];
    const whole = writeProject(newBook({ metadata: { title: 'The Weir' }, sections }));
    const damage = fc.record({
      cut: fc.integer({ min: 0, max: whole.length }),
      flips: fc.array(fc.tuple(fc.integer({ min: 0, max: whole.length - 1 }), fc.integer({ min: 0, max: 255 })), {
        maxLength: 4,
      }),
    });
    await fc.assert(
      fc.asyncProperty(damage, async ({ cut, flips }) => {
        const bytes = whole.slice(0, cut);
        for (const [at, to] of flips) if (at < cut) bytes[at] = to;
        const reply = await given.call('openBook', { source: { name: 'weir.reglet', bytes } });
        if (!reply.ok) expect(problem(reply)).toContain('weir.reglet');
        else expect(reply.value.book.metadata.title).toBe('The Weir');
      }),
      { numRuns: 150 },
    );
    expect(readdirSync(given.folder)).toEqual([]);
  });
});
