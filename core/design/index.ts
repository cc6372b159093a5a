export type { DesignSettings, DisplaySetting, LetterStyle, OpenerNumber } from './settings.ts';
