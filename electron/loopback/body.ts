/** The body of a call. In: a request; out: its bytes within a bound, or null where it is larger. */
import type { IncomingMessage } from 'node:http';

export async function bodyOf(request: IncomingMessage, limit: number): Promise<Uint8Array | null> {
  if (Number(request.headers['content-length'] ?? 0) > limit) return null;
  const pieces: Buffer[] = [];
  let size = 0;
  for await (const piece of request as AsyncIterable<Buffer>) {
    size += piece.length;
    if (size > limit) return null;
    pieces.push(piece);
  }
  const bytes = new Uint8Array(size);
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}
