/** Memory for columns that grow: it only ever grows, and goes with its instance. */

/** At least so many bytes with what the old block held; 0 for none yet. The old block is no longer good. */
export function widened(old: usize, bytes: usize): usize {
  return old === 0 ? heap.alloc(bytes) : heap.realloc(old, bytes);
}
