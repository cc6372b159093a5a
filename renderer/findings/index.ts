export { MuteDialog, useHearing } from './muting.tsx';
