/** Fills a section's pages: finds the best ends, and moves figures that leave a hole. */
import type { Side } from '#page';
import type { Flow } from '../flow.ts';
import { FilledPage } from './content.ts';
import { FORCED, NEED } from './costs.ts';
import type { End } from './end.ts';
import { moveFigure } from './figures.ts';
import type { Filler } from './filler.ts';
import { bestFilling, cheaperFilling } from './search.ts';
import { Strip } from './strip.ts';

/** Fills a section's pages; with a figure moved, and then with others, as long as one leaves a hole. */
export const fillPages: Filler = ({ flow, side }) => {
  let filled = fillStrip(flow, side);
  for (let moved = moveFigure(filled.strip, filled.ends); moved; moved = moveFigure(filled.strip, filled.ends)) {
    filled = fillStrip(moved, side);
  }
  const { strip, ends } = filled;
  return ends.map((end, index) => new FilledPage(strip, end, index === 0));
};

interface Filled {
  readonly strip: Strip;
  readonly ends: readonly End[];
}

/** The best pages; of a section in need those with what its blocks then give, if they are better. */
function fillStrip(flow: Flow, side: Side): Filled {
  const strip = new Strip(flow);
  const { ends, cost } = bestFilling(strip, side);
  if (cost < NEED || cost >= FORCED || !flow.items.some(({ inNeed }) => inNeed)) return { strip, ends };
  const giving = new Strip(flow, true);
  const better = cheaperFilling(giving, side, cost);
  return better ? { strip: giving, ends: better.ends } : { strip, ends };
}
