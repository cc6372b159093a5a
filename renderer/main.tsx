/** The window's beginning: puts the workbench on the page. */
import { startWindow } from './frame/index.ts';

const root = document.getElementById('root');
if (!root) throw new RangeError('the page has no root element');
await startWindow(window, root);
