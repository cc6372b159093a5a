/** What the window remembers between runs. In: settings as the person changes them; out: the same, kept by the host. */
import type { Host, Settings } from '#host';
import { Store } from './store.ts';

export class SettingsStore extends Store<Settings> {
  constructor(
    private readonly host: Pick<Host, 'setSettings'>,
    first: Settings,
  ) {
    super(first);
  }

  /** Changes some settings at once; the host keeps them. */
  set(some: Partial<Settings>): void {
    const panels = { ...this.get().panels, ...some.panels };
    this.become({ ...this.get(), ...some, panels });
    // A host that is gone is told of by the call that matters; a setting that it forgets harms nobody.
    this.host.setSettings(some as Parameters<Host['setSettings']>[0]).catch(() => undefined);
  }

  /** The remembered size of a panel, or what it is at first. */
  panel(name: string, first: number): number {
    const size = this.get().panels[name];
    return typeof size === 'number' ? size : first;
  }
}
