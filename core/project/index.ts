export { FORMAT, VERSION } from './format.ts';
export { readProject } from './read.ts';
export { projectState } from './state.ts';
export { writeProject } from './write.ts';
