/** The characters of fonts that can stand between scenes, as the worker draws them. In: families; out: marks, null at first. */
import { useEffect, useState } from 'react';
import { useWorkbench } from '../state/index.ts';
import type { GlyphMark } from '../worker/index.ts';

export function useMarks(families: readonly string[]): readonly GlyphMark[] | null {
  const { link } = useWorkbench();
  const [marks, setMarks] = useState<readonly GlyphMark[] | null>(null);
  const key = families.join('\n');
  useEffect(() => {
    const end = link.listen((reply) => {
      if (reply.kind === 'marks') setMarks(reply.marks);
    });
    link.worker?.marks(key.split('\n'));
    return end;
  }, [link, key]);
  return marks;
}
