export { DesignPanel } from './designPanel.tsx';
