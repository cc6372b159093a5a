/** The few drawings of the interface, made for this project on a grid of 16, in strokes of 1.5 in the ink of the text. */
import type { ReactNode } from 'react';

const DRAWINGS = {
  more: (
    <>
      <circle cx="3" cy="8" r="1.1" fill="currentColor" stroke="none" />
      <circle cx="8" cy="8" r="1.1" fill="currentColor" stroke="none" />
      <circle cx="13" cy="8" r="1.1" fill="currentColor" stroke="none" />
    </>
  ),
  add: <path d="M8 3v10M3 8h10" />,
  less: <path d="M3 8h10" />,
  close: <path d="M4 4l8 8M12 4l-8 8" />,
  down: <path d="M4 6.5l4 4 4-4" />,
  up: <path d="M4 9.5l4-4 4 4" />,
  left: <path d="M9.5 4l-4 4 4 4" />,
  right: <path d="M6.5 4l4 4-4 4" />,
  tick: <path d="M3.5 8.5l3 3 6-7" />,
  grip: <path d="M3 6h10M3 10h10" />,
  menu: <path d="M2.5 4.5h11M2.5 8h11M2.5 11.5h7" />,
  manuscript: <path d="M4 2.5h6l2.5 2.5v8.5h-8.5zM6 7h4M6 9.5h4M6 12h2" />,
  book: <path d="M8 4c-1.5-1-3.5-1.2-5.5-1v9c2-.2 4 0 5.5 1 1.5-1 3.5-1.2 5.5-1v-9c-2-.2-4 0-5.5 1zM8 4v9" />,
  folder: <path d="M2 4.5h4l1.5 1.5h6.5v7h-12z" />,
  file: <path d="M4 2.5h5l3 3v8h-8zM9 2.5v3h3" />,
  print: <path d="M3.5 3h9v10h-9zM5.5 6h5M5.5 8h5M5.5 10h3" />,
  ebook: <path d="M4.5 2h7v12h-7zM7 12h2" />,
  error: <path d="M8 2.5l6 10.5h-12zM8 6.5v3M8 11.2v.3" />,
  warning: <path d="M8 2.5a5.5 5.5 0 1 0 .01 0zM8 5.5v3.2M8 10.700v.3" />,
  note: <path d="M3 3h10v7.5h-5l-3 2.5v-2.5h-2z" />,
  search: <path d="M7 2.5a4.5 4.5 0 1 0 .01 0zM10.300 10.300l3.2 3.2" />,
  undo: <path d="M5.5 3.5l-3 3 3 3M2.5 6.5h7a3.2 3.2 0 0 1 0 6.5h-2" />,
} satisfies Readonly<Record<string, ReactNode>>;

export type IconName = keyof typeof DRAWINGS;

/** A drawing beside a word, or inside a control that has a name: it says nothing by itself. */
export function Icon({ name }: { readonly name: IconName }) {
  return (
    <svg
      className="icon-drawing"
      viewBox="0 0 16 16"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.5"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
    >
      {DRAWINGS[name]}
    </svg>
  );
}
