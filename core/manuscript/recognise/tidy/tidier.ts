/**
 * Clean-up of the text. In: rich text; out: the same words, tidied; every kind of change is counted and can be switched
 * off.
 */
import { applyEdits, type Edit, type Rich, trim } from '../collect/rich.ts';
import { copyrightEdits } from './copyright.ts';
import { dashEdits, ellipsisEdits } from './dashes.ts';
import { withEmphasis } from './emphasis.ts';
import { frenchEdits } from './french.ts';
import type { Habits } from './habits.ts';
import type { Tally, TidyKind, TidyOptions } from './kinds.ts';
import { quoteEdits } from './quotes.ts';
import { spaceEdits } from './spaces.ts';

type Rule = (text: string, tally: Tally) => readonly Edit[];

export class Tidier implements Tally {
  readonly counts = new Map<TidyKind, number>();
  private readonly rules: readonly Rule[];

  constructor(
    readonly language: string,
    habits: Habits,
    private readonly options: TidyOptions,
  ) {
    const rules: Rule[] = [spaceEdits];
    if (this.on('ellipsis')) rules.push(ellipsisEdits);
    if (this.on('copyright-sign')) rules.push(copyrightEdits);
    if (this.on('dash')) rules.push((text, tally) => dashEdits(text, habits.dashes, tally));
    if (this.on('quote')) rules.push((text, tally) => quoteEdits(text, habits.quotes, tally));
    if (this.on('french-space') && habits.french) rules.push(frenchEdits);
    this.rules = rules;
  }

  count(kind: TidyKind, times: number): void {
    if (times > 0) this.counts.set(kind, (this.counts.get(kind) ?? 0) + times);
  }

  on(kind: TidyKind): boolean {
    return this.options[kind] !== false;
  }

  /** Running text, verse and headings alike. */
  tidy(rich: Rich): Rich {
    const shown = this.on('emphasis') ? withEmphasis(trim(rich), this) : trim(rich);
    return this.rules.reduce((sum, rule) => applyEdits(sum, rule(sum.text, this)), shown);
  }
}
