export { CopyText } from './copyText.tsx';
