/** The built shaping thread does what it is sent: without it everything works as well, only later, and nobody would notice. */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { expect, test } from 'vitest';
import { loadFontLibrary, ShapingAside } from '#type';
import { root } from '../e2e/command.ts';
import { fontModules, textFiles } from '../type/fonts.ts';
import { glyphsByWord, stretches } from '../type/stretches.ts';

const WORDS = ['“fjord', 'AVATAR', 'cœur', 'waistcoat.”'];
const ENGLISH = { features: 'onum,pnum', language: 'en-US', direction: 'ltr' } as const;

test('shapes words, to the glyphs that they have here', async () => {
  const thread = new Worker(join(root, 'dist/shaping-thread.mjs'));
  try {
    const aside = new ShapingAside((job) => thread.postMessage(job));
    const library = await loadFontLibrary(textFiles, { ...fontModules(), aside });
    const { regular, italic } = library.family('EB Garamond');
    for (const face of [regular, italic]) {
      const shaped = face.beginWords(stretches(WORDS), ENGLISH)!.take();
      expect(shaped.glyphs.buffer, 'shaped by the thread').toBeInstanceOf(SharedArrayBuffer);
      const here = glyphsByWord(face.shapeWords(stretches(WORDS), ENGLISH), WORDS.length);
      expect(glyphsByWord(shaped, WORDS.length)).toEqual(here);
    }
  } finally {
    await thread.terminate();
  }
});
