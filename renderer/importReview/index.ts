export { Correction } from './correction.tsx';
export { ImportReview } from './importReview.tsx';
