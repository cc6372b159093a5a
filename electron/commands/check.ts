/** `reglet check`: everything that `make` does, but only the findings come out and nothing is written. */
import type { MakeRequest } from '../arguments.ts';
import { makeBook, stepSentence } from '../services/editions.ts';
import { Progress } from '../services/progress.ts';
import { report } from './make.ts';

export async function runCheck(request: MakeRequest): Promise<void> {
  const progress = new Progress();
  const made = await makeBook(request, (step) => progress.step(stepSentence(step)));
  progress.done();
  const editions = made.editions.map((edition) => ({ ...edition.about, files: [] }));
  report(request, made, editions);
}
