/** What belongs to the frame alone: the flows around files and what is under way. */
import { createContext, useContext } from 'react';
import { Store } from '../state/index.ts';
import type { BookFlows } from './bookFlows.ts';

/** What is under way and for how long it has been: a text, or null. */
export class BusyStore extends Store<string | null> {
  constructor() {
    super(null);
  }

  /** Shows a text until the returned function is called. */
  readonly begin = (text: string): (() => void) => {
    this.become(text);
    return () => {
      if (this.get() === text) this.become(null);
    };
  };
}

export interface Frame {
  readonly flows: BookFlows;
  readonly busy: BusyStore;
}

const FrameContext = createContext<Frame | null>(null);

export const FrameProvider = FrameContext.Provider;

export function useFrame(): Frame {
  const frame = useContext(FrameContext);
  if (!frame) throw new RangeError('there is no frame around this component');
  return frame;
}
