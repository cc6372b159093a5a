/** Lists that scroll while the focus stays in the field above them: they can be reached by the Tab key all the same. */
export function reachable(list: HTMLElement | null): void {
  list?.setAttribute('tabindex', '0');
}
