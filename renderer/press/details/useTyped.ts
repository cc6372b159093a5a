/** What stands in a field while it is typed in. In: what the book says; out: the typed text, which follows the book's changes. */
import { useState } from 'react';

export function useTyped(shown: string): [string, (text: string) => void] {
  const [state, setState] = useState({ shown, typed: shown });
  // The book says something else than what was typed here: undo, or a change made elsewhere.
  const isOurs = shown === state.shown || shown.trim() === state.typed.trim();
  const typed = isOurs ? state.typed : shown;
  if (shown !== state.shown) setState({ shown, typed });
  return [typed, (text) => setState({ shown, typed: text })];
}
