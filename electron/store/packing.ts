/** How a book file is packed while the program goes on answering. In: bytes; out: their hash, and the bytes deflated. */
import { promisify } from 'node:util';
import { deflateRaw } from 'node:zlib';
import type { ProjectHost } from '#project';
import { sha256 } from '../services/hash.ts';

/** zlib's usual level: beyond it books shrink by hundredths and take twice the time. */
const LEVEL = 6;

const deflated = promisify<Uint8Array, { readonly level: number }, Uint8Array>(deflateRaw);

/** Hashes by Node's own, deflates in its threads. */
export const QUICKLY: ProjectHost = { hash: sha256, deflate: (bytes) => deflated(bytes, { level: LEVEL }) };
