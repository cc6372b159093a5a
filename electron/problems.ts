/** The two failures that a user of the command can mend. Each message is one clear sentence. */

/** The arguments make no sense: exit status 2. */
export class UsageProblem extends Error {}

/** The input can't be used, or the output can't be written: exit status 1. */
export class InputProblem extends Error {}
