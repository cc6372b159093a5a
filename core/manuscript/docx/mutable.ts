/** A readonly value while it is being made. */
export type Mutable<T> = { -readonly [K in keyof T]: T[K] };
