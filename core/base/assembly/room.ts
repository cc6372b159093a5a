/** Memory for columns that grow: it only ever grows, and goes with its instance. */

let counted: i32 = 0;

/** How often something has moved: whoever looks at the memory from outside looks anew when the number has changed. */
export function moves(): i32 {
  return counted;
}

/** At least so many bytes with what the old block held; 0 for none yet. The old block is no longer good. */
export function widened(old: usize, bytes: usize): usize {
  counted++;
  return old === 0 ? heap.alloc(bytes) : heap.realloc(old, bytes);
}
