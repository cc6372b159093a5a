export { startWindow } from './startWindow.tsx';
