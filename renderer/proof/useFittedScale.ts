/** How much smaller than life something has to be shown to fit its room. In: the room and a size; out: a share up to 1. */
import { type RefObject, useEffect, useState } from 'react';

/** CSS pixels kept free around it. */
const MARGIN = 16;

export function useFittedScale(room: RefObject<HTMLElement | null>, width: number, height: number): number {
  const [scale, setScale] = useState(1);
  useEffect(() => {
    const element = room.current;
    if (!element) return undefined;
    const measure = (): void => {
      const across = (element.clientWidth - 2 * MARGIN) / width;
      const down = (element.clientHeight - 2 * MARGIN) / height;
      setScale(Math.max(0.2, Math.min(1, across, down)));
    };
    const sizes = new ResizeObserver(measure);
    sizes.observe(element);
    measure();
    return () => sizes.disconnect();
  }, [room, width, height]);
  return scale;
}
