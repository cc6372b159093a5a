/** How eagerly V8 compiles for a run that is over in two seconds. */
import { setFlagsFromString } from 'node:v8';

/** The V8 of Node 20 and 21, on which these figures were taken. Later ones have another compiler in between. */
const MEASURED = /^11\./;

/**
 * Lets V8 optimise a function later and inline less. Its optimising compiler works on threads of its own; in a short run
 * on two cores they took as much time as the work, and took it from the work. Measured on a novel of 210,000 words (Node
 * 20.20, 2 cores, medians of interleaved runs): 0.87 of the time to the finished PDF, 0.81 of the processor time, the
 * same time on the main thread. What the program writes does not depend on it. Not for the window, which runs for hours.
 *
 * WebAssembly is left as it was first compiled for longer, too: the run was over while a large function of the subsetter
 * was still being optimised, and its end waited for that. 0.88 to 0.92 of the time with Node 20.20, 0.95 with Node 24.21,
 * the same time on the main thread.
 */
export function compileForShortRun(): void {
  // By default 1,800,000 (roughly, bytes executed).
  setFlagsFromString('--wasm-tiering-budget=120000000');
  if (!MEASURED.test(process.versions.v8)) return;
  // By default 67,584 and 920 (in bytes of bytecode).
  setFlagsFromString('--interrupt-budget=132000');
  setFlagsFromString('--max-inlined-bytecode-size-cumulative=200');
}
