/**
 * What the desktop does for us where there is no shell of ours: showing a file in its folder, opening it. In: a path that
 * was checked; out: whether a program took it.
 */
import { spawn } from 'node:child_process';
import { dirname } from 'node:path';

/** A program with its arguments; nothing goes through a command line that could be misread. */
type Command = readonly [program: string, ...arguments_: string[]];

export async function revealFile(path: string, platform: NodeJS.Platform): Promise<void> {
  await run(revealCommand(path, platform));
}

/** '' where a program took the file, else why not. */
export async function openFile(path: string, platform: NodeJS.Platform): Promise<string> {
  return (await run(openCommand(path, platform))) ? '' : 'no program for it was found.';
}

function revealCommand(path: string, platform: NodeJS.Platform): Command {
  if (platform === 'darwin') return ['open', '-R', path];
  return platform === 'win32' ? ['explorer.exe', `/select,${path}`] : ['xdg-open', dirname(path)];
}

function openCommand(path: string, platform: NodeJS.Platform): Command {
  if (platform === 'darwin') return ['open', path];
  return platform === 'win32' ? ['explorer.exe', path] : ['xdg-open', path];
}

/** Whether the program started; what becomes of it is its own affair. */
function run([program, ...rest]: Command): Promise<boolean> {
  return new Promise((resolve) => {
    const child = spawn(program, rest, { stdio: 'ignore', detached: true });
    child.once('error', () => resolve(false));
    child.once('spawn', () => {
      child.unref();
      resolve(true);
    });
  });
}
