export { Drawers } from './drawers.tsx';
export { EditionDialog } from './editionDialog.tsx';
export { PressDesk } from './pressDesk.tsx';
export { trimText } from './sizes.ts';
