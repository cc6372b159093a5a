/** The loopback server by real HTTP: the window gets in once, and nobody else. */

import { spawn } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { type IncomingMessage, request as send } from 'node:http';
import { connect } from 'node:net';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { callPath, decode, EVENTS_PATH, encode, FrameReader, LARGEST_CALL, WIRE_TYPE } from '#host';
import { userOf } from '../../electron/loopback/peer.ts';
import { type Loopback, startLoopback } from '../../electron/loopback/server.ts';
import { freshFolder, hosted } from './hosting.ts';

const open: Loopback[] = [];

afterEach(async () => {
  for (const each of open.splice(0)) await each.close();
});

interface Answer {
  readonly status: number;
  readonly headers: IncomingMessage['headers'];
  readonly body: Buffer;
}

interface Ask {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: Uint8Array;
}

/** Sends a request as it stands: headers that a browser would set can be forged here. */
function ask(port: number, path: string, { method = 'GET', headers = {}, body }: Ask = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const outgoing = send({ host: '127.0.0.1', port, path, method, headers, agent: false }, async (incoming) => {
      const pieces: Buffer[] = [];
      for await (const piece of incoming as AsyncIterable<Buffer>) pieces.push(piece);
      resolve({ status: incoming.statusCode ?? 0, headers: incoming.headers, body: Buffer.concat(pieces) });
    });
    outgoing.on('error', reject);
    outgoing.end(body);
  });
}

/** A program folder with a page in it, as the build makes it, and something beside the page that is nobody's business. */
function programWithPage(): string {
  const program = freshFolder();
  mkdirSync(join(program, 'renderer/assets'), { recursive: true });
  writeFileSync(join(program, 'renderer/index.html'), '<!doctype html><title>Reglet</title>');
  writeFileSync(join(program, 'renderer/assets/index-Ab_1-x.js'), 'export {};');
  writeFileSync(join(program, 'secret.json'), '{}');
  symlinkSync(join(program, 'secret.json'), join(program, 'renderer/link.json'));
  return program;
}

async function served() {
  const { host, folder, events } = await hosted({ program: programWithPage() });
  const loopback = await startLoopback(host);
  open.push(loopback);
  const { port, pathname, origin } = new URL(loopback.address);
  return { host, folder, events, loopback, port: Number(port), entrance: pathname, origin };
}

/** As `served`, with the window inside: its cookie is sent along. */
async function entered() {
  const given = await served();
  const { headers } = await ask(given.port, given.entrance);
  const cookie = headers['set-cookie']?.[0]?.split(';')[0] ?? '';
  const get = (path: string, more: Readonly<Record<string, string>> = {}): Promise<Answer> =>
    ask(given.port, path, { headers: { cookie, ...more } });
  const post = (path: string, body: Uint8Array, more: Readonly<Record<string, string>> = {}): Promise<Answer> =>
    ask(given.port, path, {
      method: 'POST',
      headers: { cookie, origin: given.origin, 'content-type': WIRE_TYPE, ...more },
      body,
    });
  return { ...given, cookie, get, post };
}

describe('the entrance', () => {
  it('is on this computer alone, with a secret that is good for one visit', async () => {
    const { loopback, port, entrance } = await served();
    expect(loopback.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/enter\/[\w-]{43}$/);
    const first = await ask(port, entrance);
    expect(first.status).toBe(303);
    expect(first.headers.location).toBe('/');
    expect(first.headers['set-cookie']?.[0]).toMatch(/^reglet-\d+=[\w-]{43}; HttpOnly; SameSite=Strict; Path=\/$/);
    const second = await ask(port, entrance);
    expect(second.status).toBe(403);
    expect(second.headers['set-cookie']).toBeUndefined();
  });

  it('is closed to a wrong secret, which does not use up the right one', async () => {
    const { port, entrance } = await served();
    expect((await ask(port, '/enter/')).status).toBe(403);
    expect((await ask(port, `${entrance}x`)).status).toBe(403);
    expect((await ask(port, entrance)).status).toBe(303);
  });
});

describe('a stranger', () => {
  it('without the cookie gets nothing', async () => {
    const { port, cookie, origin } = await entered();
    for (const path of ['/', '/index.html', '/wasm/harfbuzz.wasm', `/${EVENTS_PATH}`]) {
      expect((await ask(port, path)).status).toBe(403);
      expect((await ask(port, path, { headers: { cookie: `${cookie}x` } })).status).toBe(403);
    }
    const body = encode({});
    const headers = { origin, 'content-type': WIRE_TYPE };
    expect((await ask(port, `/${callPath('start')}`, { method: 'POST', headers, body })).status).toBe(403);
  });

  it('under another name for this computer gets nothing, even with the cookie', async () => {
    const { get, port } = await entered();
    for (const host of ['localhost', `localhost:${port}`, 'evil.example', `evil.example:${port}`, `127.0.0.1:1`]) {
      expect((await get('/', { host })).status).toBe(403);
    }
    expect((await get('/', { host: `127.0.0.1:${port}` })).status).toBe(200);
  });

  it('from another page gets nothing, even with the cookie', async () => {
    const { get, post, port } = await entered();
    for (const origin of ['http://evil.example', 'null', `http://localhost:${port}`, `https://127.0.0.1:${port}`]) {
      expect((await get('/', { origin })).status).toBe(403);
      expect((await post('/call/start', encode({}), { origin })).status).toBe(403);
    }
    for (const site of ['cross-site', 'same-site']) {
      expect((await get('/', { 'sec-fetch-site': site })).status).toBe(403);
    }
    expect((await get('/', { 'sec-fetch-site': 'none' })).status).toBe(200);
  });

  it('that does not say where it comes from may not call', async () => {
    const { port, cookie } = await entered();
    const headers = { cookie, 'content-type': WIRE_TYPE };
    const answer = await ask(port, '/call/start', { method: 'POST', headers, body: encode({}) });
    expect(answer.status).toBe(403);
  });
});

describe('another person on the same computer', () => {
  // The columns of /proc/net/tcp (proc(5)): slot, local and remote address, state, queues, timers, retransmits, user.
  const TABLE = `  sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode
   0: 0100007F:1F90 00000000:0000 0A 00000000:00000000 00:00000000 00000000  1000        0 11 1 0000000000000000
   1: 0100007F:1F90 0100007F:C001 01 00000000:00000000 00:00000000 00000000  1000        0 12 1 0000000000000000
   2: 0100007F:C001 0100007F:1F90 01 00000000:00000000 00:00000000 00000000  1001        0 13 1 0000000000000000
   3: 0000000000000000FFFF00000100007F:C002 0000000000000000FFFF00000100007F:1F90 01 00000000:00000000 00:00000000 00000000 7 0 14`;

  it('is known by the end of the connection that they hold', () => {
    expect(userOf(TABLE, 0xc001, 0x1f90)).toBe(1001);
    expect(userOf(TABLE, 0x1f90, 0xc001)).toBe(1000);
    expect(userOf(TABLE, 0xc002, 0x1f90)).toBe(7);
    expect(userOf(TABLE, 0xc003, 0x1f90)).toBeNull();
    expect(userOf('', 1, 2)).toBeNull();
  });

  it('gets no answer at all', async () => {
    const given = await served();
    // Only an administrator can become somebody else; anybody else gets in as themselves, and uses up the entrance.
    const other = process.getuid?.() === 0 && process.platform === 'linux';
    expect(await heardBy(given.port, given.entrance)).toBe(other ? 'refused' : '303');
    expect((await ask(given.port, given.entrance)).status).toBe(other ? 303 : 403);
  });

  /** What another process hears when it asks for a path: as nobody, if it can become that. */
  function heardBy(port: number, path: string): Promise<string> {
    const script = `require('http').get({ host: '127.0.0.1', port: ${port}, path: '${path}' },
      (answer) => process.stdout.write(String(answer.statusCode))).on('error', () => process.stdout.write('refused'));`;
    const identity = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
    return new Promise((resolve, reject) => {
      const child = spawn(process.execPath, ['-e', script], {
        ...identity,
        cwd: '/',
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      let said = '';
      child.stdout.on('data', (data) => (said += String(data)));
      child.once('error', reject).once('exit', () => resolve(said));
    });
  }
});

describe('what is served', () => {
  it('is the page with its policy', async () => {
    const { get } = await entered();
    const page = await get('/');
    expect(page.status).toBe(200);
    expect(page.headers['content-type']).toBe('text/html; charset=utf-8');
    expect(page.headers['x-content-type-options']).toBe('nosniff');
    const policy = page.headers['content-security-policy'] as string;
    for (const rule of ["default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "frame-ancestors 'none'"]) {
      expect(policy.split('; ')).toContain(rule);
    }
    expect(policy).not.toMatch(/unsafe-inline|\*|https?:|'unsafe-eval'/);
    expect((await get('/assets/index-Ab_1-x.js')).headers['content-type']).toMatch(/^text\/javascript/);
  });

  it('never lies outside the page’s folder', async () => {
    const { get } = await entered();
    const ways = [
      '/../secret.json',
      '/..%2fsecret.json',
      '/%2e%2e/secret.json',
      '/assets/../../secret.json',
      '/assets/..%5c..%5csecret.json',
      '/.../secret.json',
      '//etc/passwd',
      '/%00',
      '/index.html%00.js',
      '/link.json',
      '/fonts/../secret.json',
      '/fonts/secret.json',
      '/wasm/..',
      '/.hidden',
      '/assets',
      '/CON',
      `/${'a/'.repeat(600)}`,
      '/secret.json',
    ];
    for (const way of ways) expect([way, (await get(way)).status]).toEqual([way, 404]);
  });
});

describe('a call', () => {
  it('is answered', async () => {
    const { post } = await entered();
    const answer = await post('/call/start', encode({}));
    expect(answer.status).toBe(200);
    expect(decode(answer.body)).toMatchObject({ dialogs: 'page', settings: { appearance: 'system' } });
  });

  it('that is none gets one sentence', async () => {
    const { post } = await entered();
    for (const name of ['nothing', '__proto__', 'constructor', 'toString', '../start', '']) {
      const answer = await post(`/call/${name}`, encode({}));
      if (answer.status === 200) expect(decode(answer.body)).toMatchObject({ ok: false });
      else expect([400, 404]).toContain(answer.status);
    }
    const strange = decode((await post('/call/save', encode({ session: 7 }))).body);
    expect(strange).toEqual({ ok: false, problem: expect.stringMatching(/^The window asked for "save" .*\.$/) });
  });

  it('with a body that is no message, too large or of another type is refused', async () => {
    const { post, get } = await entered();
    expect((await post('/call/start', new Uint8Array([0xc1]))).status).toBe(400);
    expect((await post('/call/start', encode({}), { 'content-type': 'text/plain' })).status).toBe(404);
    expect((await get('/call/start')).status).toBe(404);
    const claimed = { 'content-length': String(LARGEST_CALL + 1), expect: '100-continue' };
    expect((await post('/call/start', new Uint8Array(0), claimed)).status).toBe(413);
  });

  it('of a method that the window does not use is refused', async () => {
    const { port, cookie, origin } = await entered();
    for (const method of ['PUT', 'DELETE', 'OPTIONS', 'PATCH']) {
      expect((await ask(port, '/', { method, headers: { cookie, origin } })).status).toBe(405);
    }
  });
});

describe('the server', () => {
  it('outlives what is no HTTP at all', async () => {
    const { port, get } = await entered();
    await new Promise<void>((resolve) => {
      const socket = connect(port, '127.0.0.1', () => socket.end('\u0000\u0001 nonsense\r\n\r\n'));
      socket.on('error', () => resolve()).on('close', () => resolve());
      socket.resume();
    });
    expect((await get('/')).status).toBe(200);
  });

  it('tells events as they come, in frames', async () => {
    const { port, cookie, post, folder } = await entered();
    const reader = new FrameReader();
    const heard = new Promise<unknown>((resolve, reject) => {
      const outgoing = send({ host: '127.0.0.1', port, path: `/${EVENTS_PATH}`, headers: { cookie } }, (incoming) => {
        incoming.on('data', (piece: Buffer) => {
          const [event] = reader.take(new Uint8Array(piece));
          if (event === undefined) return;
          outgoing.destroy();
          resolve(event);
        });
        incoming.on('error', () => undefined);
        void begin();
      });
      outgoing.on('error', reject);
      outgoing.end();
    });
    const begin = async (): Promise<void> => {
      const bytes = await emptyBook();
      const opened = decode((await post('/call/openBook', encode({ source: { name: 'a.reglet', bytes } }))).body);
      const { session } = (opened as { value: { session: string } }).value;
      await post('/call/save', encode({ session, path: join(folder, 'a.reglet'), overwrite: false }));
    };
    expect(await heard).toMatchObject({ kind: 'kept', kept: { path: join(folder, 'a.reglet') } });
  });

  it('is gone when it is closed', async () => {
    const { port, loopback } = await entered();
    await loopback.close();
    await expect(ask(port, '/')).rejects.toMatchObject({ code: 'ECONNREFUSED' });
  });
});

async function emptyBook(): Promise<Uint8Array> {
  const { newBook } = await import('#book');
  const { writeProject } = await import('#project');
  return writeProject(newBook({ metadata: { title: 'A' }, sections: [] }));
}
