/**
 * A state that is replaced, never changed, and those who listen to it. In: whole new states; out: the state of the moment,
 * to React through `useStore`, to everyone else through `get` and `subscribe`.
 */
import { useSyncExternalStore } from 'react';

/** What can be looked at and listened to. */
export interface Readable<State> {
  readonly get: () => State;
  /** Hears of every new state until the returned function is called. */
  readonly subscribe: (listener: () => void) => () => void;
}

export class Store<State> implements Readable<State> {
  private state: State;
  private readonly listeners = new Set<() => void>();

  constructor(first: State) {
    this.state = first;
  }

  readonly get = (): State => this.state;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** Puts another state in place of this one. */
  protected become(state: State): void {
    if (Object.is(state, this.state)) return;
    this.state = state;
    for (const listener of [...this.listeners]) listener();
  }
}

/**
 * A part of a store's state; the component is drawn anew when that part becomes another.
 * @param select gives the same value for the same state: a member, never an object made on the spot.
 */
export function useStore<State, Part>(store: Readable<State>, select: (state: State) => Part): Part {
  return useSyncExternalStore(store.subscribe, () => select(store.get()));
}
