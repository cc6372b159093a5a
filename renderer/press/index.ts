export { Drawers } from './drawers.tsx';
export { PressDesk } from './pressDesk.tsx';
