/**
 * Clean-up of the text. In: rich text; out: the same words, tidied; every kind of change is counted and can be switched
 * off.
 */
import { applyEdits, type Rich, trim } from '../collect/rich.ts';
import type { Tally, TidyKind, TidyOptions } from './kinds.ts';
import { spaceEdits } from './spaces.ts';

export class Tidier implements Tally {
  readonly counts = new Map<TidyKind, number>();

  constructor(
    readonly language: string,
    private readonly options: TidyOptions,
  ) {}

  count(kind: TidyKind, times: number): void {
    if (times > 0) this.counts.set(kind, (this.counts.get(kind) ?? 0) + times);
  }

  on(kind: TidyKind): boolean {
    return this.options[kind] !== false;
  }

  prose(rich: Rich): Rich {
    return trim(applyEdits(rich, spaceEdits(rich.text, this)));
  }

  title(rich: Rich): Rich {
    return this.prose(rich);
  }
}
