/** The designs that every book may use, the default one first. */
import { frisket } from './frisket.ts';
import { quoin } from './quoin.ts';
import type { DesignSettings } from './settings.ts';
import { tympan } from './tympan.ts';

export const builtInDesigns: readonly [DesignSettings, ...DesignSettings[]] = [quoin, tympan, frisket];
