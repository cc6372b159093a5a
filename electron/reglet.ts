/** Starts the `reglet` command: the scripts of `dist/command`, with what V8 has kept of them. */
import { commandScripts, compileForShortRun } from './launch/index.ts';

// Before anything is compiled: what was kept is good for these flags only.
compileForShortRun();
const { finish, main } = commandScripts().load('command.cjs') as typeof import('./command.ts');
await finish(await main(process.argv.slice(2)));
