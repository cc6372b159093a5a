/**
 * What a writer's keys turn into. In: a book's language; out: input rules for quotation marks, apostrophes, dashes and
 * ellipses as that language sets them. Backspace straight after gives back what was typed.
 */
import { ellipsis, InputRule, inputRules } from 'prosemirror-inputrules';
import type { EditorState, Plugin, Transaction } from 'prosemirror-state';
import { usualHabits } from '#manuscript';

/** After these a mark opens: the beginning, a space, an opening bracket, a dash, another opening mark. */
const OPENS_AFTER = /(?:^|[\s([{\u2014\u2013\u00ab\u201c\u201e\u2018\u201a\u00a1\u00bf\ufffc])$/;

export function typingPlugin(language: string): Plugin {
  const { quotes, dashes, french } = usualHabits(language);
  const double = (before: string): string =>
    OPENS_AFTER.test(before) ? quotes.open + quotes.inside : quotes.inside + quotes.close;
  const single = (before: string): string => (OPENS_AFTER.test(before) ? quotes.innerOpen : APOSTROPHE);
  return inputRules({
    rules: [
      markRule('"', double),
      markRule("'", single),
      ellipsis,
      new InputRule(/(?<=[^\s-])--$/, dashes.close),
      new InputRule(/(?<=\s)-- $/, dashes.spaced.trimStart()),
      ...(french ? [new InputRule(/(?<=[\p{L}\p{N}\u00bb!?])([;!?])$/u, withThinSpace)] : []),
    ],
  });
}

const APOSTROPHE = '\u2019';
const NARROW = '\u202f';

/** A straight mark as it is typed, turned by what stands before it. */
function markRule(mark: string, turned: (before: string) => string): InputRule {
  return new InputRule(new RegExp(`${mark}$`), (state, _match, from, to) => {
    const $from = state.doc.resolve(from);
    const before = $from.parent.textBetween(Math.max(0, $from.parentOffset - 2), $from.parentOffset, null, '\ufffc');
    return state.tr.insertText(turned(before), from, to);
  });
}

/** French sets a thin space that never breaks before high punctuation (Lexique des règles typographiques, from memory). */
function withThinSpace(state: EditorState, match: RegExpMatchArray, from: number, to: number): Transaction {
  return state.tr.insertText(`${NARROW}${match[1] ?? ''}`, from, to);
}
