/** A host with a data folder of its own, for tests. In: what differs from the usual; out: the host and what it told. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach } from 'vitest';
import type { Outcome } from '#base';
import type { CallName, CallReplies, CallRequest, HostEvent } from '#host';
import { createHostServices, type HostOptions, type HostServices } from '../../electron/host/host.ts';
import { Store } from '../../electron/store/index.ts';

/** The built program, whose threads a host starts; another build is named by `REGLET_PROGRAM`. */
export const PROGRAM = process.env['REGLET_PROGRAM'] ?? resolve(import.meta.dirname, '../../dist');

/** An empty folder that nothing else uses. */
export function freshFolder(): string {
  return mkdtempSync(join(tmpdir(), 'reglet-host-'));
}

export interface Hosted {
  readonly host: HostServices;
  /** A folder for the person's files. */
  readonly folder: string;
  readonly appData: string;
  readonly events: readonly HostEvent[];
  call<Name extends CallName>(name: Name, request: CallRequest<Name>): Promise<CallReplies[Name]>;
  /** The first event that fits, told already or later. */
  heard<Kind extends HostEvent['kind']>(kind: Kind): Promise<Extract<HostEvent, { readonly kind: Kind }>>;
}

const open: HostServices[] = [];

afterEach(async () => {
  for (const host of open.splice(0)) await host.close();
});

export async function hosted(options: Partial<HostOptions> = {}): Promise<Hosted> {
  const appData = options.appData ?? freshFolder();
  const folder = freshFolder();
  const host = await createHostServices({
    appData,
    documents: folder,
    program: PROGRAM,
    keeper: new Store({ folder: appData, now: () => Date.now() }),
    dialogs: 'page',
    menu: 'page',
    platform: 'linux',
    shell: { reveal: async () => undefined, open: async () => '' },
    fontFolders: [],
    open: null,
    now: () => Date.now(),
    ...options,
  });
  open.push(host);
  const events: HostEvent[] = [];
  const waiting = new Set<(event: HostEvent) => void>();
  host.listen((event) => {
    events.push(event);
    for (const each of waiting) each(event);
  });
  return {
    host,
    folder,
    appData,
    events,
    call: async <Name extends CallName>(name: Name, request: CallRequest<Name>) =>
      (await host.answer(name, request)) as CallReplies[Name],
    heard: <Kind extends HostEvent['kind']>(kind: Kind) =>
      new Promise<Extract<HostEvent, { readonly kind: Kind }>>((done) => {
        const take = (event: HostEvent): void => {
          if (event.kind !== kind) return;
          waiting.delete(take);
          done(event as Extract<HostEvent, { readonly kind: Kind }>);
        };
        waiting.add(take);
        events.forEach(take);
      }),
  };
}

/** The value of an outcome that has to be one. */
export function value<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new RangeError(outcome.problem);
  return outcome.value;
}

/** The sentence of an outcome that has to be a failure: one sentence with its full stop. */
export function problem(outcome: unknown): string {
  const { ok, problem: sentence } = outcome as { readonly ok: boolean; readonly problem: string };
  if (ok !== false || typeof sentence !== 'string') throw new RangeError(`no failure: ${JSON.stringify(outcome)}`);
  if (!/^\S[^\n]*[.!?]$/.test(sentence)) throw new RangeError(`no sentence: ${JSON.stringify(sentence)}`);
  return sentence;
}
