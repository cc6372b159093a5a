/** Cards beside the lines that they belong to. In: where each would like to stand, and its height; out: where it stands. */

export interface Card {
  /** Wished top edge, pixels. */
  readonly wish: number;
  readonly height: number;
}

const GAP = 8;

/** The tops of the cards, in their order: as near to their wishes as can be without one upon another. */
export function stacked(cards: readonly Card[]): readonly number[] {
  const tops: number[] = [];
  let free = 0;
  for (const { wish, height } of cards) {
    const top = Math.max(wish, free);
    tops.push(top);
    free = top + height + GAP;
  }
  return tops;
}
