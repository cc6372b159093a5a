export { FORMAT, VERSION } from './format.ts';
export { readProject } from './read.ts';
export { projectState } from './state.ts';
export { type Project, type ProjectHost, projectAside, projectOf, stateOf, writeProject } from './write.ts';
