/** The shell, started over doubles of Electron's parts, serving a real folder by the host's own rules. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type HostEvent, type Settings, USUAL_SETTINGS } from '#host';
import { resourceAt } from '../../electron/host/resources.ts';
import { CALL_CHANNEL } from '../../electron/shell/channels.ts';
import { menuTemplate } from '../../electron/shell/menu.ts';
import { type HostShell, Shell } from '../../electron/shell/shell.ts';
import { type Doubles, doubles } from './doubles.ts';

export interface Started {
  readonly given: Doubles;
  readonly shell: HostShell;
  /** Calls the host as a frame would. */
  readonly call: (frame: object | null, name: string, request: object) => Promise<unknown>;
  /** Asks the program's scheme for an address. */
  readonly get: (address: string, method?: string) => Promise<Response>;
  /** Says something as the host. */
  readonly say: (event: HostEvent) => void;
  readonly asked: { readonly name: unknown; readonly request: unknown }[];
  readonly place: { text: string };
  readonly closed: string[];
}

export interface StartOptions {
  readonly argv?: readonly string[];
  readonly place?: string;
  readonly platform?: NodeJS.Platform;
  /** What the host answers, by call. */
  readonly replies?: Readonly<Record<string, unknown>>;
}

const SETTINGS: Settings = { ...USUAL_SETTINGS, appearance: 'dark' };

/** A program folder with a page, a face, and a secret beside it. */
function programFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'reglet-test-'));
  const program = join(folder, 'program');
  for (const each of ['renderer', 'fonts', 'wasm']) mkdirSync(join(program, each), { recursive: true });
  writeFileSync(join(program, 'renderer/index.html'), '<!doctype html><title>Reglet</title>');
  writeFileSync(join(program, 'reglet.mjs'), '');
  writeFileSync(join(folder, 'package.json'), '{}');
  return program;
}

export async function started(options: StartOptions = {}): Promise<Started> {
  const given = doubles();
  const asked: { name: unknown; request: unknown }[] = [];
  const closed: string[] = [];
  const place = { text: options.place ?? '' };
  const program = programFolder();
  let hear: (event: HostEvent) => void = () => {};
  let shell: HostShell | null = null;
  const started = await new Shell({
    parts: given.parts,
    makeHost: async (given) => {
      shell = given;
      return {
        answer: async (name, request) => {
          asked.push({ name, request });
          return options.replies?.[String(name)] ?? {};
        },
        listen: (listener) => {
          hear = listener;
          return () => {};
        },
        serve: (path) => resourceAt(path, { program, picture: () => null, installedFace: async () => null }),
        settings: SETTINGS,
        close: async () => {
          closed.push('host');
        },
      };
    },
    preload: '/program/preload.cjs',
    platform: options.platform ?? 'linux',
    argv: ['reglet', ...(options.argv ?? [])],
    folder: '/work',
    menu: (run) => menuTemplate(options.platform ?? 'linux', run),
    place: {
      read: () => place.text,
      write: (text) => {
        place.text = text;
      },
    },
  }).start();
  if (!started || !shell) throw new RangeError('the shell did not start');
  const handler = given.handled.get(CALL_CHANNEL) as (event: object, name: string, request: object) => Promise<unknown>;
  const serve = given.handled.get('reglet') as (request: Request) => Promise<Response>;
  return {
    given,
    shell,
    asked,
    place,
    closed,
    call: async (senderFrame, name, request) => handler({ senderFrame }, name, request),
    get: (url, method = 'GET') => serve({ url, method } as Request),
    say: (event) => hear(event),
  };
}
