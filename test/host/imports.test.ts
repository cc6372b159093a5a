/** Manuscripts on their way in: the book with its report, the same again with other wishes, or one sentence. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bookOfMessage, type OpenedBook } from '#host';
import { docx, p } from '../builders/docx.ts';
import { demo } from '../e2e/command.ts';
import { type Hosted, hosted, problem, value } from './hosting.ts';

const NOVEL = docx([
  p('Chapter One', { style: 'Heading1' }),
  p('"The tide," she said, "is out."'),
  p(''),
  p('Nobody  answered her.'),
  p('Chapter Two', { style: 'Heading1' }),
  p('The tide came in.'),
]);

const textOf = ({ book }: OpenedBook): string => bookOfMessage(book).text.textContent;

function imported(given: Hosted, without: readonly string[] = []) {
  return given.call('importManuscript', { source: { name: 'tide.docx', bytes: NOVEL }, without: [...without] });
}

describe('a manuscript', () => {
  it('becomes a book that was never saved, with the report of its import', async () => {
    const opened = value(await imported(await hosted()));
    expect(opened.kept).toEqual({ path: null, savedAt: null, dirty: true });
    const report = opened.imported;
    if (!report) throw new RangeError('the import has no report');
    expect(report.lines.map((line) => line.text)).toEqual([
      'Chapter One',
      '"The tide," she said, "is out."',
      '',
      'Nobody  answered her.',
      'Chapter Two',
      'The tide came in.',
    ]);
    const sections = new Set<unknown>();
    for (const section of bookOfMessage(opened.book).text.children) sections.add(section.attrs['id']);
    for (const { section } of report.lines) if (section !== null) expect(sections).toContain(section);
    for (const { section, reasons } of report.sections) {
      expect(sections).toContain(section);
      expect(reasons.length).toBeGreaterThan(0);
    }
    expect(report.notices).toContainEqual(expect.objectContaining({ kind: 'quote', count: 4, tidy: 'quote' }));
    expect(textOf(opened)).toContain('“The tide,” she said, “is out.”');
  });

  it('is read again with clean-ups left undone, in place of the session before', async () => {
    const given = await hosted();
    const first = value(await imported(given));
    const again = value(
      await given.call('importAgain', { session: first.session, without: ['quote', 'double-space'] }),
    );
    expect(textOf(again)).toContain('"The tide," she said, "is out."');
    expect(textOf(again)).toContain('Nobody  answered her.');
    expect(again.imported?.without).toEqual(['quote', 'double-space']);
    problem(await given.call('backups', { session: first.session }));
    expect((await given.call('start', {})).unsaved).toHaveLength(1);
  });

  it('that is the demo is found whole, by path too', async () => {
    const given = await hosted();
    const bundled = value(await given.call('openDemo', {}));
    expect(bundled.imported).toBeNull();
    const byPath = value(await given.call('importManuscript', { source: { path: demo }, without: [] }));
    expect(textOf(byPath)).toBe(textOf(bundled));
    expect(byPath.imported?.name).toBe('manuscript.docx');
  });

  it('keeps nothing of a book file to read again', async () => {
    const given = await hosted();
    const { session } = value(await given.call('openDemo', {}));
    problem(await given.call('importAgain', { session, without: [] }));
  });

  it('that is none is refused in one sentence that names it', async () => {
    const given = await hosted();
    const path = join(given.folder, 'letter.docx');
    const whole = new Uint8Array(readFileSync(demo));
    for (const bytes of [new Uint8Array(0), whole.slice(0, 40_000), new TextEncoder().encode('%PDF-1.7\n')]) {
      writeFileSync(path, bytes);
      expect(problem(await given.call('importManuscript', { source: { path }, without: [] }))).toContain('letter.docx');
      const dropped = { name: 'letter.docx', bytes };
      problem(await given.call('importManuscript', { source: dropped, without: [] }));
      problem(await given.call('openBook', { source: { path } }));
    }
  });
});
