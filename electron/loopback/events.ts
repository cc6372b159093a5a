/** The stream of events. In: what the host tells; out: frames to every window that listens. */
import type { ServerResponse } from 'node:http';
import { setTimeout } from 'node:timers/promises';
import { frameOf, type HostEvent, idleFrame, WIRE_TYPE } from '#host';

/** So often a silent line shows that it is alive. */
const IDLE_MS = 15_000;

/** A page that is loaded anew is away for less. */
const DESERTED_MS = 2_500;
const LOOK_MS = 250;

/** A window that has stopped reading is let go before its events fill the memory. */
const LARGEST_BACKLOG = 64 * 2 ** 20;

export class EventStreams {
  private readonly open = new Set<ServerResponse>();
  private readonly heartbeat = setInterval(() => this.send(idleFrame()), IDLE_MS).unref();

  add(response: ServerResponse, headers: Readonly<Record<string, string>>): void {
    response.writeHead(200, { ...headers, 'content-type': WIRE_TYPE, 'cache-control': 'no-store' });
    response.write(idleFrame());
    this.open.add(response);
    response.once('close', () => this.open.delete(response));
  }

  tell(event: HostEvent): void {
    this.send(frameOf(event));
  }

  async deserted(): Promise<void> {
    for (let left = DESERTED_MS; left > 0; left = this.open.size > 0 ? DESERTED_MS : left - LOOK_MS) {
      await setTimeout(LOOK_MS);
    }
  }

  close(): void {
    clearInterval(this.heartbeat);
    for (const response of this.open) response.end();
  }

  private send(frame: Uint8Array): void {
    for (const response of this.open) {
      if (response.writableLength > LARGEST_BACKLOG) response.destroy();
      else response.write(frame);
    }
  }
}
