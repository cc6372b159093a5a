export { ImportReview } from './importReview.tsx';
