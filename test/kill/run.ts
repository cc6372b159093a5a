/** `npm run test:kill -- --seed N --kills N`: the kill test as long as one likes. Exit status 1 where anything was lost. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { bookOf, openFile } from '#engine';
import { killAgainAndAgain } from './killing.ts';

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      seed: { type: 'string', default: '1' },
      kills: { type: 'string', default: '300' },
      fault: { type: 'string' },
    },
  });
  const [seed, kills] = [Number(values.seed), Number(values.kills)];
  if (!Number.isInteger(seed) || !Number.isInteger(kills) || kills < 1) {
    process.stderr.write('Usage: npm run test:kill -- [--seed N] [--kills N] [--fault late-journal|in-place]\n');
    process.exit(2);
  }
  const demo = resolve(process.cwd(), 'assets/demo/manuscript.docx');
  const opened = openFile(readFileSync(demo), 'manuscript.docx');
  if (!opened.ok) throw new Error(opened.problem);
  const say = (line: string): void => void process.stdout.write(`${line}\n`);
  const book = bookOf(opened.value);
  const killed = await killAgainAndAgain({ seed, kills, book, say, ...(values.fault ? { fault: values.fault } : {}) });
  for (const loss of killed.losses) say(loss);
  const { kills: done, whileSaving, changes, losses } = killed;
  say(`Seed ${seed}: ${done} kills, ${whileSaving} of them while saving; ${changes} changes; ${losses.length} lost.`);
  process.exitCode = killed.losses.length === 0 ? 0 : 1;
}

void main();
