/** The worker thread: fonts by address, turns by a message to itself, and the workroom between them. */
import { type FontFile, type FontLibrary, loadFontLibrary, loadHyphenator } from '#type';
import type { WarmRequest, WorkerFace, WorkerRequest } from './messages.ts';
import { Workroom } from './workroom.ts';

/** Milliseconds without a message after which the book is checked. */
const REST = 400;

async function bytesAt(address: string, base: string): Promise<Uint8Array> {
  const reply = await fetch(new URL(address, base));
  if (!reply.ok) throw new RangeError(`"${address}" could not be loaded (${reply.status}).`);
  return new Uint8Array(await reply.arrayBuffer());
}

/** What was fetched stays: a design in another font needs the same files and one more. */
const fetched = new Map<string, Promise<Uint8Array>>();

function bytesOnce(address: string, base: string): Promise<Uint8Array> {
  const known = fetched.get(address) ?? bytesAt(address, base);
  fetched.set(address, known);
  return known;
}

/** A face of this computer, or null: it may have gone since it was listed, and another stands in for it. */
async function fileOf(face: WorkerFace, base: string): Promise<FontFile | null> {
  const { family, weight, italic, fallback, installed = false, address } = face;
  try {
    return { family, weight, italic, fallback, installed, bytes: await bytesOnce(address, base) };
  } catch (problem) {
    if (installed && problem instanceof RangeError) return null;
    throw problem;
  }
}

const MODULES = ['wasm/harfbuzz.wasm', 'wasm/harfbuzz-subset.wasm'];

/** Fetches what every book needs. What can't be had is asked for again, and told of, when a book needs it. */
function warm({ faces, base }: WarmRequest): void {
  for (const address of [...MODULES, ...faces.map((face) => face.address)]) {
    bytesOnce(address, base).catch(() => fetched.delete(address));
  }
}

async function loadFonts(faces: readonly WorkerFace[], base: string): Promise<FontLibrary> {
  const files = faces.map((face) => fileOf(face, base));
  const modules = MODULES.map((file) => bytesOnce(file, base));
  const [shaper, subsetter] = await Promise.all(modules);
  if (!shaper || !subsetter) throw new RangeError('the modules of the shaper are missing');
  const loaded = (await Promise.all(files)).filter((file) => file !== null);
  return loadFontLibrary(loaded, { shaper, subsetter });
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

self.onmessage = ({ data }: MessageEvent<WorkerRequest | WarmRequest>) => {
  if (data.kind === 'warm') warm(data);
  else void room.take(data);
};
