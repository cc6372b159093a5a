/** A book drawn to scale, front and spine side by side. In: its size and thickness in points; out: a drawing. */
import type { Points, Size } from '#base';

export interface BookDrawingProps {
  readonly name: string;
  readonly title: string;
  readonly author: string;
  readonly size: Size;
  /** null for a book without a spine. */
  readonly thickness: Points | null;
  /** Pixels to the point, the same for all books that stand beside each other. */
  readonly scale: number;
}

/** Shares of the cover's width. */
const MARGIN = 0.1;
const LARGEST_TYPE = 0.16;
/** Width of a letter of the text face in ems, near enough to keep a word inside. */
const LETTER = 0.5;

export function BookDrawing({ name, title, author, size, thickness, scale }: BookDrawingProps) {
  const spine = thickness ?? 0;
  const lines = linesOf(title);
  const longest = Math.max(1, ...lines.map((line) => line.length));
  const room = size.width * (1 - 2 * MARGIN);
  const type = Math.min(size.width * LARGEST_TYPE, room / (longest * LETTER));
  const middle = spine + size.width / 2;
  const small = type * 0.5;
  return (
    <svg
      className="book-drawing"
      role="img"
      aria-label={name}
      width={(size.width + spine) * scale}
      height={size.height * scale}
      viewBox={`0 0 ${size.width + spine} ${size.height}`}
    >
      {thickness !== null && <rect className="spine" x="0" y="0" width={spine} height={size.height} />}
      <rect className="front" x={spine} y="0" width={size.width} height={size.height} />
      {thickness !== null && spine > type * 0.55 && (
        <text
          className="spine-title"
          fontSize={Math.min(spine * 0.62, size.width * 0.09)}
          transform={`translate(${spine * 0.34} ${size.height * MARGIN}) rotate(90)`}
        >
          {title}
        </text>
      )}
      {lines.map((line, at) => (
        <text key={line} className="front-title" x={middle} y={size.height * 0.26 + at * type * 1.1} fontSize={type}>
          {line}
        </text>
      ))}
      <rect
        className="reglet"
        x={middle - size.width * 0.09}
        y={size.height * 0.26 + lines.length * type * 1.1 - type * 0.4}
        width={size.width * 0.18}
        height={size.height * 0.006}
      />
      <text
        className="front-author"
        x={middle}
        y={size.height * 0.88}
        fontSize={Math.min(small, room / (Math.max(1, author.length) * LETTER))}
      >
        {author}
      </text>
    </svg>
  );
}

/** Characters in a line of the drawn title. */
const LINE = 14;

function linesOf(title: string): readonly string[] {
  const lines: string[] = [];
  for (const word of title.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && `${last} ${word}`.length <= LINE) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.slice(0, 5);
}
