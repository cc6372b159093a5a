/** A run of values at a pace that the book can follow, while what is shown follows at once. */
import { useEffect, useRef, useState } from 'react';
import { Pacer } from './pacer.ts';

export interface Paced {
  /** The value to show. */
  readonly shown: number;
  readonly step: (value: number) => void;
  /** The run is over. */
  readonly end: () => void;
}

export function usePaced(value: number, onChange: (value: number) => void, onEnd: () => void): Paced {
  const [running, setRunning] = useState<number | null>(null);
  const change = useRef(onChange);
  const [pacer] = useState(() => new Pacer((next) => change.current(next)));
  useEffect(() => {
    change.current = onChange;
  });
  useEffect(() => () => pacer.stop(), [pacer]);
  const step = (next: number): void => {
    setRunning(next);
    pacer.step(next);
  };
  const end = (): void => {
    pacer.end();
    setRunning(null);
    onEnd();
  };
  return { shown: running ?? value, step, end };
}
