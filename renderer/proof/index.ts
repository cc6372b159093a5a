export { ProofDesk } from './ProofDesk.tsx';
export { lineOf } from './places.ts';
export { type ProofRoom, proofRoom } from './room.ts';
export { Slip } from './Slip.tsx';
export { SpreadCanvas, type SpreadElements, type SpreadHit, type SpreadOptions } from './spreadCanvas.ts';
