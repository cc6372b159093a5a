/** The press desk. */
import { texts } from '../ui/index.ts';

export function PressDesk() {
  return <h2 className="desk-heading">{texts.press.title}</h2>;
}
