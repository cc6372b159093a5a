/**
 * Parts of the page that may be loaded before they are wanted. In: how a part is loaded; out: a component that shows at once
 * where the part is there already. React would show what stands in for it, and keep that for a while.
 */
import { type ComponentType, type LazyExoticComponent, lazy } from 'react';

export interface AheadPart {
  readonly Part: LazyExoticComponent<ComponentType>;
  /** Loads the part. */
  readonly ahead: () => Promise<void>;
}

type Loaded = { readonly default: ComponentType };

export function aheadOf(load: () => Promise<ComponentType>): AheadPart {
  let loaded: Loaded | null = null;
  const ahead = async (): Promise<void> => {
    loaded = { default: await load() };
  };
  const Part = lazy(() => (loaded ? here(loaded) : load().then((part) => ({ default: part }))));
  return { Part, ahead };
}

/** A promise that is kept before anyone can ask; a real one would make React wait for the next turn. */
function here(loaded: Loaded): Promise<Loaded> {
  // biome-ignore lint/suspicious/noThenProperty: React asks for nothing else of it
  return { then: (done: (loaded: Loaded) => void) => done(loaded) } as unknown as Promise<Loaded>;
}
