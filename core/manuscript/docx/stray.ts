/** Content where the schema has none, with a container made for it: its words still count. */
import type { Scope, Tag } from './xml.ts';

/** Passes everything to the stray element's own scope; its end also ends the container. */
export class StrayScope implements Scope {
  constructor(
    private readonly content: Scope,
    private readonly endContainer: () => void,
  ) {}

  open(name: string, tag: Tag): Scope | null {
    return this.content.open(name, tag);
  }

  text(text: string): void {
    this.content.text?.(text);
  }

  close(name: string): void {
    this.content.close?.(name);
    this.endContainer();
  }
}
