/** All texts of the interface in English, by room. A translation is another file of this shape. */
import { common } from './common.en.ts';
import { frame } from './frame.en.ts';
import { order } from './order.en.ts';
import { press } from './press.en.ts';

export const texts = { common, frame, order, press };
