/** Where the command's scripts lie. */
import { join } from 'node:path';
import { programFolder } from '../services/program.ts';
import { Scripts } from './scripts.ts';

export function commandScripts(): Scripts {
  return new Scripts(join(programFolder(), 'command'));
}
