export { ProofDesk } from './ProofDesk.tsx';
export { Slip } from './Slip.tsx';
export { SpreadCanvas, type SpreadElements, type SpreadHit, type SpreadOptions } from './spreadCanvas.ts';
