/**
 * What the commands do. In: deeds that components lend while they are on the page; out: the same deeds to menus, keys, the
 * native menu and the list of commands. Names and keys are in core/host.
 */
import { useEffect, useRef } from 'react';
import { COMMANDS, type CommandId, type MenuState } from '#host';
import { type KeyPlatform, type KeyPress, matchesKeys } from './keys.ts';

export interface Deed {
  readonly run: () => void;
  /** Whether it can be done now; it can where nothing is said. */
  readonly enabled?: () => boolean;
  /** Whether what it switches holds now; for commands with a mark. */
  readonly on?: () => boolean;
}

export type Deeds = { readonly [Id in CommandId]?: Deed | (() => void) };

export class Commands {
  private readonly lent: (() => Deeds)[] = [];
  private readonly listeners = new Set<() => void>();

  constructor(private readonly platform: KeyPlatform) {}

  /** Lends deeds until the returned function is called. Whoever lends last is asked first. */
  lend(deeds: () => Deeds): () => void {
    this.lent.push(deeds);
    this.touch();
    return () => {
      const at = this.lent.indexOf(deeds);
      if (at >= 0) this.lent.splice(at, 1);
      this.touch();
    };
  }

  /** Hears that commands may stand differently now, until the returned function is called. */
  listen(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** What the commands hang on has changed. */
  readonly touch = (): void => {
    for (const listener of [...this.listeners]) listener();
  };

  readonly all = Object.keys(COMMANDS) as readonly CommandId[];

  /** How all commands stand. */
  get state(): MenuState {
    const disabled = this.all.filter((id) => !this.isEnabled(id));
    return { disabled, on: this.all.filter((id) => this.isOn(id)) };
  }

  isEnabled(id: CommandId): boolean {
    const deed = this.deedOf(id);
    return deed !== null && (deed.enabled?.() ?? true);
  }

  isOn(id: CommandId): boolean {
    return this.deedOf(id)?.on?.() ?? false;
  }

  /** Carries a command out; false where nothing on the page can. */
  run(id: CommandId): boolean {
    if (!this.isEnabled(id)) return false;
    this.deedOf(id)?.run();
    return true;
  }

  /** The command of a key press that can be carried out now, or null. */
  forKeys(press: KeyPress): CommandId | null {
    for (const id of this.all) {
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
    commands.touch();
  });
  useEffect(() => commands.lend(() => latest.current), [commands]);
}
