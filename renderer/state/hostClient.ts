/**
 * The host as the window calls it. In: the bridge that preload put on the page, or an address of the loopback server; out:
 * one Host, whichever of the two is there.
 */
import {
  CALLS,
  type CallName,
  callPath,
  decode,
  EVENTS_PATH,
  encode,
  FrameReader,
  type Host,
  type HostEvent,
  WIRE_TYPE,
} from '#host';

/** How calls leave the window and events come in. */
export interface Line {
  call(name: string, request: unknown): Promise<unknown>;
  listen(listener: (event: HostEvent) => void): () => void;
}

/** A host over a line: one method for each call that is declared. */
export function hostOver(line: Line): Host {
  const calls = (Object.keys(CALLS) as CallName[]).map(
    (name) => [name, (request: unknown) => line.call(name, request)] as const,
  );
  const listen = (listener: (event: HostEvent) => void): (() => void) => line.listen(listener);
  return { ...Object.fromEntries(calls), listen } as unknown as Host;
}

/** The line of this window. */
export function lineOfWindow(page: Window): Line {
  const bridge = (page as { readonly regletHost?: Line }).regletHost;
  return bridge ?? new LoopbackLine((address, init) => page.fetch(address, init));
}

/** Milliseconds after which a broken stream of events is taken up again. */
const PAUSE = 500;

export class LoopbackLine implements Line {
  private readonly listeners = new Set<(event: HostEvent) => void>();
  private reading = false;

  constructor(private readonly fetch: (address: string, init?: RequestInit) => Promise<Response>) {}

  async call(name: string, request: unknown): Promise<unknown> {
    const reply = await this.fetch(callPath(name), {
      method: 'POST',
      headers: { 'content-type': WIRE_TYPE },
      body: encode(request),
    });
    if (!reply.ok) throw new Error(await reply.text());
    return decode(new Uint8Array(await reply.arrayBuffer()));
  }

  listen(listener: (event: HostEvent) => void): () => void {
    this.listeners.add(listener);
    if (!this.reading) void this.read();
    return () => this.listeners.delete(listener);
  }

  /** Reads events as long as anyone listens. */
  private async read(): Promise<void> {
    this.reading = true;
    while (this.listeners.size > 0) {
      await this.readStream().catch(() => undefined);
      await new Promise((done) => setTimeout(done, PAUSE));
    }
    this.reading = false;
  }

  private async readStream(): Promise<void> {
    const { body, ok } = await this.fetch(EVENTS_PATH);
    if (!ok || !body) return;
    const frames = new FrameReader();
    const reader = body.getReader();
    for (let piece = await reader.read(); !piece.done; piece = await reader.read()) {
      for (const event of frames.take(piece.value)) this.tell(event as HostEvent);
    }
  }

  private tell(event: HostEvent): void {
    for (const listener of [...this.listeners]) listener(event);
  }
}
