/** Looks into the proof's stores for components. In: the workbench around them; out: parts of its states. */
import { useEffect, useRef, useState } from 'react';
import { type LayoutState, type Readable, useStore, useWorkbench } from '../state/index.ts';
import { useTools } from '../ui/index.ts';
import { type ProofRoom, proofRoom } from './room.ts';
import type { ViewState } from './viewStore.ts';

export function useProofRoom(): ProofRoom {
  return proofRoom(useWorkbench());
}

export function useView<Part>(select: (state: ViewState) => Part): Part {
  return useStore(useProofRoom().view, select);
}

export function useLayout<Part>(select: (state: LayoutState) => Part): Part {
  return useStore(useWorkbench().layout, select);
}

/** Milliseconds without a new state after which slow followers look again. */
const QUIET = 400;

/**
 * What a state leads to, looked at again only when it has come to rest: for texts that nobody needs while keys are pressed.
 * @param derive takes the latest states itself; a new function is a reason to look again.
 */
export function useAtRest<Value>(one: Readable<unknown>, other: Readable<unknown>, derive: () => Value): Value {
  const [value, setValue] = useState(derive);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | null = null;
    const look = (): void => setValue(() => derive());
    const wait = (): void => {
      if (timer !== null) clearTimeout(timer);
      timer = setTimeout(look, QUIET);
    };
    look();
    const endings = [one.subscribe(wait), other.subscribe(wait)];
    return () => {
      if (timer !== null) clearTimeout(timer);
      for (const end of endings) end();
    };
  }, [one, other, derive]);
  return value;
}

/**
 * Says to screen readers what is shown now, where the keyboard is in the part of the page that turns it: the name of what has
 * the focus is not read again by itself.
 * @param within the part, as a selector.
 */
export function useSaid(within: string, text: string): void {
  const { say } = useTools();
  const isFirst = useRef(true);
  useEffect(() => {
    if (!isFirst.current && document.activeElement?.closest(within)) say(text);
    isFirst.current = false;
  }, [within, text, say]);
}
