export { RunningOrder } from './runningOrder.tsx';
