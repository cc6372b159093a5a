/**
 * The window's host and its loopback server as one thing that runs and stops. In: what to open and where things lie; out:
 * an address, until it is stopped.
 */
import { access, constants } from 'node:fs/promises';
import { fontFolders } from '../host/fonts/fontFolders.ts';
import { createHostServices } from '../host/host.ts';
import { type Loopback, startLoopback } from '../loopback/server.ts';
import { InputProblem } from '../problems.ts';
import { makeFolder } from '../services/folders.ts';
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
  await makeDataFolder(appData);
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

/** Makes the folder of the program's own data, for this person alone. Throws `InputProblem` where it can't be had. */
async function makeDataFolder(folder: string): Promise<void> {
  try {
    await makeFolder(folder, 0o700);
    await access(folder, constants.W_OK);
  } catch (problem) {
    const code = problem instanceof Error && 'code' in problem ? String(problem.code) : '';
    if (code === '') throw problem;
    throw new InputProblem(
      `the folder for the program's own data, ${folder}, can't be made or written to (${code}); name another in REGLET_DATA.`,
    );
  }
}
