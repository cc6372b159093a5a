/** `reglet outline`: what was understood of a manuscript, and why. */
import { outlineOf, outlineText } from '#manuscript';
import type { OutlineRequest } from '../arguments.ts';
import { openInput } from '../services/input.ts';

export async function runOutline(request: OutlineRequest): Promise<void> {
  const { book, report } = await openInput(request.input);
  const outline = outlineOf(book, report ?? undefined, { text: request.text });
  process.stdout.write(request.json ? `${JSON.stringify(outline)}\n` : outlineText(outline));
}
