/**
 * Looks into stores that may come a moment late, so that a key draws nothing of them. In: stores and what is read from them;
 * out: values for components that nobody watches while keys are pressed.
 */
import { useEffect, useRef, useState } from 'react';
import type { Readable } from './store.ts';

/** As `useStore`, but what lasts a shorter time than this is never shown: a state between two others that comes with every key. */
export function useLasting<State, Part>(
  store: Readable<State>,
  select: (state: State) => Part,
  milliseconds: number,
): Part {
  const latest = useRef(select);
  const [part, setPart] = useState(() => select(store.get()));
  const shown = useRef(part);
  useEffect(() => {
    latest.current = select;
  });
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | null = null;
    let waiting = shown.current;
    const callOff = (): void => {
      if (timer !== null) clearTimeout(timer);
      timer = null;
    };
    const show = (): void => {
      timer = null;
      shown.current = waiting;
      setPart(() => waiting);
    };
    const hear = (): void => {
      const now = latest.current(store.get());
      if (timer !== null && Object.is(now, waiting)) return;
      callOff();
      waiting = now;
      if (!Object.is(now, shown.current)) timer = setTimeout(show, milliseconds);
    };
    hear();
    const deaf = store.subscribe(hear);
    return () => {
      callOff();
      deaf();
    };
  }, [store, milliseconds]);
  return part;
}

/**
 * What several stores lead to, looked at again once so long after one of them has changed.
 * @param derive reads the stores itself; a new function is a reason to look again at once.
 */
export function useLately<Value>(
  stores: readonly Readable<unknown>[],
  derive: () => Value,
  milliseconds: number,
): Value {
  const [value, setValue] = useState(derive);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list is written where it is used; what counts are its stores
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | null = null;
    const look = (): void => {
      timer = null;
      setValue(() => derive());
    };
    look();
    const endings = stores.map((store) =>
      store.subscribe(() => {
        timer ??= setTimeout(look, milliseconds);
      }),
    );
    return () => {
      if (timer !== null) clearTimeout(timer);
      for (const end of endings) end();
    };
  }, [...stores, derive, milliseconds]);
  return value;
}
