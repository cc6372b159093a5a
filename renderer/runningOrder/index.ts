export { RunningOrder } from './runningOrder.tsx';
export { retitle, splitAt, typedTitle } from './sections.ts';
