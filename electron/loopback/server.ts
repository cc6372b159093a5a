/**
 * The window over loopback HTTP, where there is no shell to hold it. In: the host; out: an address of this computer alone,
 * whose first visitor is the window, until it is closed.
 */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { decode, EVENTS_PATH, encode, type HostEvent, LARGEST_CALL, WIRE_TYPE } from '#host';
import { GUARDING_HEADERS } from '../host/policy.ts';
import type { Served } from '../host/resources.ts';
import { bodyOf } from './body.ts';
import { EventStreams } from './events.ts';
import { Gate, type Refusal } from './gate.ts';
import { isAnotherPersons } from './peer.ts';

/** The host as the server needs it. */
export interface ServedHost {
  answer(name: unknown, request: unknown): Promise<unknown>;
  listen(listener: (event: HostEvent) => void): () => void;
  serve(path: string): Promise<Served>;
}

export interface Loopback {
  /** Where the window enters; good for one visit. */
  readonly address: string;
  /** Resolves when no window has listened for a while: a browser that runs already may take the window over. */
  deserted(): Promise<void>;
  close(): Promise<void>;
}

export async function startLoopback(host: ServedHost): Promise<Loopback> {
  const server = createServer({ maxHeaderSize: 16 * 1024, requestTimeout: 120_000, headersTimeout: 10_000 });
  await listening(server);
  const desk = new LoopbackDesk(host, new Gate((server.address() as AddressInfo).port));
  server.on('connection', (socket) => {
    if (isAnotherPersons(socket)) socket.destroy();
  });
  server.on('request', (request, response) => void desk.take(request, response));
  return { address: desk.gate.entrance, deserted: () => desk.deserted(), close: () => closed(server, desk) };
}

function listening(server: Server): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: '127.0.0.1', port: 0 }, resolve);
  });
}

async function closed(server: Server, desk: LoopbackDesk): Promise<void> {
  desk.close();
  await new Promise<void>((resolve) => {
    server.close(() => resolve());
    server.closeAllConnections();
  });
}

class LoopbackDesk {
  private readonly streams = new EventStreams();
  private readonly deaf: () => void;

  constructor(
    private readonly host: ServedHost,
    readonly gate: Gate,
  ) {
    this.deaf = host.listen((event) => this.streams.tell(event));
  }

  deserted(): Promise<void> {
    return this.streams.deserted();
  }

  close(): void {
    this.deaf();
    this.streams.close();
  }

  /** Answers a request; a fault of the program ends the request, not the server, and is told on standard error. */
  async take(request: IncomingMessage, response: ServerResponse): Promise<void> {
    try {
      await this.answer(request, response);
    } catch (fault) {
      // A window that went away in the middle is no fault.
      if (response.destroyed) return;
      process.stderr.write(`reglet: ${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}\n`);
      if (response.headersSent) response.destroy();
      else refuse(response, { status: 500, sentence: 'Reglet made a mistake and could not do this.' });
    }
  }

  private async answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const { method = '', url = '', headers } = request;
    const path = url.split('?', 1)[0] ?? '';
    const refusal = this.gate.refusesAddress({ method, headers });
    if (refusal) return refuse(response, refusal);
    if (method === 'GET' && path.startsWith(ENTER)) return this.enter(path.slice(ENTER.length), response);
    const stranger = this.gate.refusesPass(headers);
    if (stranger) return refuse(response, stranger);
    if (method === 'POST') return this.call(path, request, response);
    if (method !== 'GET') return refuse(response, { status: 405, sentence: 'Only GET and POST are answered.' });
    if (path === `/${EVENTS_PATH}`) return this.streams.add(response, GUARDING_HEADERS);
    const { status, headers: more, body } = await this.host.serve(path);
    response.writeHead(status, status === 204 ? more : { ...more, 'content-length': body.length }).end(body);
  }

  private enter(token: string, response: ServerResponse): void {
    const cookie = this.gate.enter(token);
    if (cookie === null) {
      refuse(response, { status: 403, sentence: 'This address was used already. Start Reglet again.' });
      return;
    }
    const headers = { ...GUARDING_HEADERS, location: '/', 'set-cookie': cookie, 'cache-control': 'no-store' };
    response.writeHead(303, headers).end();
  }

  private async call(path: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
    if (!path.startsWith(CALL) || request.headers['content-type'] !== WIRE_TYPE) {
      return refuse(response, { status: 404, sentence: 'There is no such call.' });
    }
    const body = await bodyOf(request, LARGEST_CALL);
    if (!body) return refuse(response, { status: 413, sentence: 'The request is larger than any book needs.' });
    const message = decoded(body);
    if (!message) return refuse(response, { status: 400, sentence: 'The request can’t be read.' });
    const reply = await this.host.answer(path.slice(CALL.length), message.value);
    const bytes = encode(reply);
    response.writeHead(200, { ...GUARDING_HEADERS, ...REPLY, 'content-length': bytes.length }).end(bytes);
  }
}

const ENTER = '/enter/';
const CALL = '/call/';
const REPLY = { 'content-type': WIRE_TYPE, 'cache-control': 'no-store' };

/** The message of a body, null where the bytes are none. */
function decoded(body: Uint8Array): { readonly value: unknown } | null {
  try {
    return { value: decode(body) };
  } catch (problem) {
    if (problem instanceof Error) return null;
    throw problem;
  }
}

function refuse(response: ServerResponse, { status, sentence }: Refusal): void {
  const headers = { ...GUARDING_HEADERS, 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-store' };
  // What is left of a body that nobody reads would keep the line busy.
  response.writeHead(status, { ...headers, connection: 'close' }).end(`${sentence}\n`);
}
