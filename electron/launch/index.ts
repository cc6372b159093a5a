/** What a start of the command needs. */
export { commandScripts } from './command.ts';
export { compileForShortRun } from './compiler.ts';
