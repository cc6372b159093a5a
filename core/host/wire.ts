/**
 * How calls and events cross a socket, where window and host share no process. In: plain data; out: bytes (MessagePack),
 * and the data again. Server and window both use these, so the wire is written down once:
 *
 * - a call is `POST call/<name>` with its encoded request; status 200 brings the encoded reply, any other a sentence as
 *   plain text;
 * - events come from one long-lived `GET events` as frames: four bytes of length, most significant first, then the
 *   encoded event. A frame of length 0 only shows that the line is alive.
 *
 * All addresses are relative to the window's own.
 */
import { Decoder, Encoder } from '@msgpack/msgpack';

/** Where a call is posted. */
export function callPath(name: string): string {
  return `call/${name}`;
}

/** Where events come from. */
export const EVENTS_PATH = 'events';

/** The type of a body in MessagePack. */
export const WIRE_TYPE = 'application/vnd.msgpack';

/** The largest body of a call: a manuscript full of pictures that was dropped on the window. */
export const LARGEST_CALL = 256 * 1024 * 1024;

/** A book's text nests less than a hundred deep; a message that nests deeper is no message. */
const DEEPEST = 400;

/** Data as bytes. What is undefined is left out. */
export function encode(value: unknown): Uint8Array<ArrayBuffer> {
  return new Encoder({ ignoreUndefined: true, maxDepth: DEEPEST }).encode(value);
}

/** The data of a message. Throws an Error where the bytes are no message. */
export function decode(bytes: Uint8Array): unknown {
  return new Decoder({ maxExtLength: 64 }).decode(bytes);
}

const LENGTH_BYTES = 4;
const NOTHING = new Uint8Array(0);

/** An event as a frame of the stream. */
export function frameOf(event: unknown): Uint8Array {
  const body = encode(event);
  const frame = new Uint8Array(LENGTH_BYTES + body.length);
  new DataView(frame.buffer).setUint32(0, body.length);
  frame.set(body, LENGTH_BYTES);
  return frame;
}

/** The frame that says nothing. */
export function idleFrame(): Uint8Array {
  return new Uint8Array(LENGTH_BYTES);
}

/** Puts events together again from pieces of a stream, however it was cut. */
export class FrameReader {
  private rest: Uint8Array = NOTHING;

  /** Takes the next piece; gives the events that are complete now. */
  take(piece: Uint8Array): unknown[] {
    let bytes = joined(this.rest, piece);
    const events: unknown[] = [];
    for (;;) {
      const end = frameEnd(bytes);
      if (end === null) break;
      if (end > LENGTH_BYTES) events.push(decode(bytes.subarray(LENGTH_BYTES, end)));
      bytes = bytes.subarray(end);
    }
    this.rest = bytes;
    return events;
  }
}

/** Where the first frame ends, null while it is not all there. */
function frameEnd(bytes: Uint8Array): number | null {
  if (bytes.length < LENGTH_BYTES) return null;
  const end = LENGTH_BYTES + new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint32(0);
  return bytes.length < end ? null : end;
}

function joined(one: Uint8Array, other: Uint8Array): Uint8Array {
  if (one.length === 0) return other;
  const both = new Uint8Array(one.length + other.length);
  both.set(one);
  both.set(other, one.length);
  return both;
}
