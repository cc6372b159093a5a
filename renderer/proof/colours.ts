/** Colours of what is drawn around and over the ink, from the style sheet, so that they follow light, dark and contrast. */

export interface ProofColours {
  readonly paper: string;
  readonly edge: string;
  readonly spine: string;
  /** Trim, margins and grid. */
  readonly guide: string;
  readonly grid: string;
  readonly bleed: string;
  /** The line at the cursor. */
  readonly cursor: string;
  readonly finding: string;
  readonly changed: string;
  readonly current: string;
}

/** The colours at an element. */
export function coloursAt(element: Element): ProofColours {
  const style = getComputedStyle(element);
  const of = (name: string): string => style.getPropertyValue(`--proof-${name}`).trim();
  return {
    paper: of('paper'),
    edge: of('edge'),
    spine: of('spine'),
    guide: of('guide'),
    grid: of('grid'),
    bleed: of('bleed'),
    cursor: of('cursor'),
    finding: of('finding'),
    changed: of('changed'),
    current: of('current'),
  };
}
