/**
 * The window's host and its loopback server as one thing that runs and stops. In: what to open and where things lie; out:
 * an address, until it is stopped.
 */
import { mkdir } from 'node:fs/promises';
import { fontFolders } from '../host/fonts/fontFolders.ts';
import { createHostServices } from '../host/host.ts';
import { type Loopback, startLoopback } from '../loopback/server.ts';
import { programFolder } from '../services/program.ts';
import { Store } from '../store/index.ts';
import { openFile, revealFile } from './desktop.ts';
import { documentsFolder, type Machine, platformName } from './places.ts';

export interface Service {
  readonly loopback: Loopback;
  /** Closes the server, then the books: what was not saved is in the journal. */
  stop(): Promise<void>;
}

export async function startService(machine: Machine, appData: string, open: string | null): Promise<Service> {
  const { platform, environment } = machine;
  await mkdir(appData, { recursive: true, mode: 0o700 });
  const now = (): number => Date.now();
  const host = await createHostServices({
    appData,
    documents: await documentsFolder(),
    program: programFolder(),
    keeper: new Store({ folder: appData, now }),
    dialogs: 'page',
    menu: 'page',
    platform: platformName(platform),
    shell: { reveal: (path) => revealFile(path, platform), open: (path) => openFile(path, platform) },
    fontFolders: fontFolders(platform, environment),
    open,
    now,
  });
  const loopback = await startLoopback(host);
  const stop = async (): Promise<void> => {
    await loopback.close();
    await host.close();
  };
  return { loopback, stop };
}
