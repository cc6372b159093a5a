/**
 * How much memory a program takes at its peak: a command in, the greatest sum of the proportional set sizes of its
 * processes out, sampled while it runs. Linux only, since `/proc` is where the figures stand.
 */
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';

/** Milliseconds between samples: a tenth of a second would miss a short peak. */
const STEP = 20;

/** Whether this system tells what a process takes. */
export const canMeasureMemory = existsSync('/proc/self/smaps_rollup');

/**
 * MiB at the peak of a program and all processes that it starts.
 * @param {string} program @param {readonly string[]} args @returns {Promise<number>}
 */
export function peakOf(program, args) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { stdio: 'ignore' });
    let peak = 0;
    const timer = setInterval(() => {
      if (child.pid !== undefined) peak = Math.max(peak, sizeOf(familyOf(child.pid)));
    }, STEP);
    child.on('error', reject);
    child.on('exit', (code) => {
      clearInterval(timer);
      if (code === 0) resolve(peak);
      else reject(new Error(`${program} ended with ${code}`));
    });
  });
}

/** A process with its children, theirs, and so on. @param {number} parent @returns {readonly number[]} */
function familyOf(parent) {
  /** @type {Map<number, number[]>} */
  const children = new Map();
  for (const name of readdirSync('/proc')) {
    const pid = Number(name);
    if (!Number.isInteger(pid)) continue;
    // The name of a program may hold spaces and brackets: what follows the last bracket is state and parent.
    const fields = read(`/proc/${name}/stat`).split(')').at(-1)?.trim().split(' ') ?? [];
    const of = Number(fields[1]);
    children.set(of, [...(children.get(of) ?? []), pid]);
  }
  const family = [parent];
  for (const pid of family) family.push(...(children.get(pid) ?? []));
  return family;
}

/** MiB that processes take together; what they share is counted once. @param {readonly number[]} pids */
function sizeOf(pids) {
  const sizes = pids.map((pid) => Number(/^Pss:\s+(\d+) kB/m.exec(read(`/proc/${pid}/smaps_rollup`))?.[1] ?? 0));
  return sizes.reduce((sum, size) => sum + size, 0) / 1024;
}

/** What a file says; nothing where its process has just ended. @param {string} path */
function read(path) {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}
