/** Arrays that grow. In: an array that is too short; out: a longer one with the same numbers. */

type Numbers = Uint8Array | Uint16Array | Int32Array | Float64Array;

/** At least twice as long, and long enough for `wanted` numbers. */
export function grown<T extends Numbers>(from: T, wanted: number): T {
  const wider = new (from.constructor as new (length: number) => T)(Math.max(from.length * 2, wanted));
  wider.set(from);
  return wider;
}
