/** An ornament in small, for a choice. In: its outline; out: the drawing, in the colour of the text around it. */
import type { Ornament } from '#design';

export function MarkDrawing({
  ornament: { path, viewBox },
}: {
  readonly ornament: Pick<Ornament, 'path' | 'viewBox'>;
}) {
  return (
    <svg className="mark-drawing" viewBox={`0 0 ${viewBox.width} ${viewBox.height}`} aria-hidden="true">
      <path d={path} fill="currentColor" />
    </svg>
  );
}
