/** Fills a section's pages: finds the best ends, and moves figures that leave a hole. */
import { FilledPage } from './content.ts';
import { moveFigure } from './figures.ts';
import type { Filler } from './filler.ts';
import { bestFilling } from './search.ts';
import { Strip } from './strip.ts';

/** Fills a section's pages; with a figure moved, and then with others, as long as one leaves a hole. */
export const fillPages: Filler = ({ flow, side }) => {
  let strip = new Strip(flow);
  let { ends } = bestFilling(strip, side);
  for (let moved = moveFigure(strip, ends); moved; moved = moveFigure(strip, ends)) {
    strip = new Strip(moved);
    ({ ends } = bestFilling(strip, side));
  }
  return ends.map((end, index) => new FilledPage(strip, end, index === 0));
};
