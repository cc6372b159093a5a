/**
 * The `reglet` command: the same host without a window. In: arguments; out: files, text or JSON on standard output, and
 * the exit status (0 done, 1 the input can't be used, 2 wrong usage).
 */
import { parseCommandLine, USAGE } from './arguments.ts';
import { runCheck } from './commands/check.ts';
import { runKeep } from './commands/keep.ts';
import { runMake } from './commands/make.ts';
import { runOutline } from './commands/outline.ts';
import { InputProblem, UsageProblem } from './problems.ts';
import { version } from './version.ts';

async function run(words: readonly string[]): Promise<void> {
  const request = parseCommandLine(words);
  switch (request.kind) {
    case 'help':
      process.stdout.write(USAGE);
      return;
    case 'version':
      process.stdout.write(`reglet ${version}\n`);
      return;
    case 'make':
      return runMake(request);
    case 'check':
      return runCheck(request);
    case 'outline':
      return runOutline(request);
    case 'keep':
      return runKeep(request);
  }
}

/** Runs the command and gives its exit status. A fault in the program itself is not caught: it has to be seen. */
export async function main(words: readonly string[]): Promise<number> {
  outlastReader(process.stdout);
  outlastReader(process.stderr);
  try {
    await run(words);
    return 0;
  } catch (problem) {
    if (problem instanceof UsageProblem) {
      process.stderr.write(`reglet: ${problem.message}\nSee reglet --help.\n`);
      return 2;
    }
    if (problem instanceof InputProblem) {
      process.stderr.write(`reglet: ${problem.message}\n`);
      return 1;
    }
    throw problem;
  }
}

/** Ends the process when all that was written has left it. */
export async function finish(status: number): Promise<never> {
  await flushed(process.stdout);
  await flushed(process.stderr);
  // Not by running out of work: taking down a heap that the system takes back anyway costs a twentieth of a novel's run.
  process.exit(status);
}

/** Waits until what was written to a stream has left the process. */
function flushed(stream: NodeJS.WriteStream): Promise<void> {
  return new Promise((resolve) => {
    stream.write('', () => resolve());
  });
}

/** A reader that has seen enough closes the pipe, which is no fault of the run. */
function outlastReader(stream: NodeJS.WriteStream): void {
  stream.on('error', (problem: NodeJS.ErrnoException) => {
    if (problem.code !== 'EPIPE') throw problem;
  });
}
