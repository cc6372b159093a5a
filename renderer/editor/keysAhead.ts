/**
 * After a click in the text come keys. In: the text's element; out: the controls around it told so while the page rests.
 * Left to themselves they hear of it with the first key, and every row of the running order is drawn before its letter.
 */
import { setInteractionModality } from 'react-aria-components';

/** Watches the text until the returned function is called. */
export function expectKeys(text: HTMLElement): () => void {
  let waiting = 0;
  const expect = (): void => {
    cancelIdleCallback(waiting);
    waiting = requestIdleCallback(() => {
      // Whoever has gone on to a control by then is led by the pointer, and sees no ring of the keyboard's focus.
      if (text.contains(document.activeElement)) setInteractionModality('keyboard');
    });
  };
  text.addEventListener('click', expect);
  return () => {
    cancelIdleCallback(waiting);
    text.removeEventListener('click', expect);
  };
}
