/**
 * What the commands do. In: deeds that components lend while they are on the page; out: the same deeds to menus, keys, the
 * native menu and the list of commands. Names and keys are in core/host.
 */
import { useEffect, useRef } from 'react';
import { COMMANDS, type CommandId } from '#host';
import { type KeyPlatform, type KeyPress, matchesKeys } from './keys.ts';

export interface Deed {
  readonly run: () => void;
  /** Whether it can be done now; it can where nothing is said. */
  readonly enabled?: () => boolean;
}

export type Deeds = { readonly [Id in CommandId]?: Deed | (() => void) };

export class Commands {
  private readonly lent: (() => Deeds)[] = [];

  constructor(private readonly platform: KeyPlatform) {}

  /** Lends deeds until the returned function is called. Whoever lends last is asked first. */
  lend(deeds: () => Deeds): () => void {
    this.lent.push(deeds);
    return () => {
      const at = this.lent.indexOf(deeds);
      if (at >= 0) this.lent.splice(at, 1);
    };
  }

  isEnabled(id: CommandId): boolean {
    const deed = this.deedOf(id);
    return deed !== null && (deed.enabled?.() ?? true);
  }

  /** Carries a command out; false where nothing on the page can. */
  run(id: CommandId): boolean {
    if (!this.isEnabled(id)) return false;
    this.deedOf(id)?.run();
    return true;
  }

  /** The command of a key press that can be carried out now, or null. */
  forKeys(press: KeyPress): CommandId | null {
    for (const id of Object.keys(COMMANDS) as CommandId[]) {
      const { keys } = COMMANDS[id];
      if (keys !== null && matchesKeys(press, keys, this.platform) && this.isEnabled(id)) return id;
    }
    return null;
  }

  private deedOf(id: CommandId): Deed | null {
    for (let at = this.lent.length - 1; at >= 0; at--) {
      const deed = this.lent[at]?.()[id];
      if (deed) return typeof deed === 'function' ? { run: deed } : deed;
    }
    return null;
  }
}

/** Lends a component's deeds while it is on the page; always those of its latest drawing. */
export function useDeeds(commands: Commands, deeds: Deeds): void {
  const latest = useRef(deeds);
  useEffect(() => {
    latest.current = deeds;
  });
  useEffect(() => commands.lend(() => latest.current), [commands]);
}
