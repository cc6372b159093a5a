/** Expected failure as a value: one clear sentence for the person who has to act on it. */

export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: string };

export function success<T>(value: T): Outcome<T> {
  return { ok: true, value };
}

export function failure(problem: string): { readonly ok: false; readonly problem: string } {
  return { ok: false, problem };
}

/** The end of every exhaustive `switch`: a new kind shows all the places to visit. */
export function assertNever(value: never): never {
  throw new RangeError(`unexpected kind: ${JSON.stringify(value)}`);
}
