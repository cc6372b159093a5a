/** What the kernel asks of its host. Columns may have moved when a call returns, so that no record is held across one. */

/** Has the other lengths of a block added: see `startStretch`. */
export declare function askLengths(item: i32): void;
