/**
 * The records of a journal, as bytes. In: values that survive JSON; out: records each with its length and check sum, and
 * the values again as far as the bytes are whole. A record that was being written when the program stopped is dropped.
 */

import { createHash } from 'node:crypto';
import { strToU8 } from 'fflate';

/** Length of the JSON (32 bits, little-endian), then its check sum: the first bytes of its SHA-256. */
const LENGTH = 4;
const SUM = 8;
const HEAD = LENGTH + SUM;

/** No change is larger: a picture of 100 MB as base64, with room. */
const LARGEST = 256 * 1024 * 1024;

export function recordOf(value: unknown): Uint8Array {
  const json = strToU8(JSON.stringify(value));
  const record = new Uint8Array(HEAD + json.length);
  new DataView(record.buffer).setUint32(0, json.length, true);
  record.set(sumOf(json), LENGTH);
  record.set(json, HEAD);
  return record;
}

function sumOf(bytes: Uint8Array): Buffer {
  return createHash('sha256').update(bytes).digest().subarray(0, SUM);
}

export interface Records {
  readonly values: readonly unknown[];
  /** How many bytes hold whole records; what follows is torn. */
  readonly whole: number;
}

/** Reads records until the first that is not whole. */
export function readRecords(bytes: Uint8Array): Records {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const values: unknown[] = [];
  let at = 0;
  while (at + HEAD <= bytes.length) {
    const length = view.getUint32(at, true);
    const end = at + HEAD + length;
    if (length > LARGEST || end > bytes.length) break;
    const json = bytes.subarray(at + HEAD, end);
    if (!sumOf(json).equals(bytes.subarray(at + LENGTH, at + HEAD))) break;
    try {
      values.push(JSON.parse(Buffer.from(json).toString('utf8')));
    } catch {
      break;
    }
    at = end;
  }
  return { values, whole: at };
}
