/**
 * Zooming by hand: the wheel with Ctrl, and two fingers on a touchpad, which browsers hand on as the same event (UI Events,
 * "wheel"; common practice of browsers, no other source). In: an element; out: by how much, and around which point.
 */

export interface ZoomGesture {
  /** Times the size now. */
  readonly factor: number;
  /** The point of the window that stays where it is. */
  readonly x: number;
  readonly y: number;
}

/** A notch of a wheel is some hundred pixels, fingers come in small steps: both are held to this. */
const LARGEST_STEP = 24;

/** How much a pixel does. */
const PER_PIXEL = 0.01;

/** Pixels to a line or a page, for wheels that count in those. */
const UNITS = [1, 16, 400] as const;

/** What a turn of the wheel does to the size: towards the person is smaller. */
export function factorOf({ deltaY, deltaMode }: Pick<WheelEvent, 'deltaY' | 'deltaMode'>): number {
  const pixels = deltaY * (UNITS[deltaMode] ?? 1);
  return Math.exp(-Math.max(-LARGEST_STEP, Math.min(LARGEST_STEP, pixels)) * PER_PIXEL);
}

/** Hears zooming on an element until the returned function is called; the page around it stays as it is. */
export function onZoomGesture(element: HTMLElement, zoom: (gesture: ZoomGesture) => void): () => void {
  const turn = (event: WheelEvent): void => {
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    zoom({ factor: factorOf(event), x: event.clientX, y: event.clientY });
  };
  element.addEventListener('wheel', turn, { passive: false });
  return () => element.removeEventListener('wheel', turn);
}
