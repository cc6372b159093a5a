/** The worker thread: fonts by address, turns by a message to itself, and the workroom between them. */
import { type FontLibrary, loadFontLibrary, loadHyphenator } from '#type';
import type { WorkerFace, WorkerRequest } from './messages.ts';
import { Workroom } from './workroom.ts';

/** Milliseconds without a message after which the book is checked. */
const REST = 400;

async function bytesAt(address: string, base: string): Promise<Uint8Array> {
  const reply = await fetch(new URL(address, base));
  if (!reply.ok) throw new RangeError(`"${address}" could not be loaded (${reply.status}).`);
  return new Uint8Array(await reply.arrayBuffer());
}

async function loadFonts(faces: readonly WorkerFace[], base: string): Promise<FontLibrary> {
  const files = faces.map(async ({ family, weight, italic, fallback, address }) => {
    return { family, weight, italic, fallback, bytes: await bytesAt(address, base) };
  });
  const modules = ['wasm/harfbuzz.wasm', 'wasm/harfbuzz-subset.wasm'].map((file) => bytesAt(file, base));
  const [shaper, subsetter] = await Promise.all(modules);
  if (!shaper || !subsetter) throw new RangeError('the modules of the shaper are missing');
  return loadFontLibrary(await Promise.all(files), { shaper, subsetter });
}

/** A message to oneself comes after those that wait already, and without the delay of a timer. */
const { port1, port2 } = new MessageChannel();
let wake: () => void = () => undefined;
port1.onmessage = () => wake();

function turn(): Promise<void> {
  return new Promise((done) => {
    wake = done;
    port2.postMessage(null);
  });
}

const room = new Workroom({
  loadFonts,
  loadHyphenator,
  turn,
  now: () => performance.now(),
  rest: () => new Promise((done) => setTimeout(done, REST)),
  post: (reply, transfer) => self.postMessage(reply, { transfer }),
});

self.onmessage = ({ data }: MessageEvent<WorkerRequest>) => void room.take(data);
