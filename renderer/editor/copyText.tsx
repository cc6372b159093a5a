/** The section in view, to be read. */
import { textblocksOf, textOf } from '#book';
import { useBook, usePlace } from '../state/index.ts';

export function CopyText() {
  const book = useBook();
  const id = usePlace((place) => place.section);
  const section = book.text.children.find((each) => each.attrs['id'] === id);
  if (!section) return null;
  return (
    <article lang={book.metadata.language}>
      {textblocksOf(section).map((block) => (
        <p key={String(block.attrs['id'])}>{textOf(block)}</p>
      ))}
    </article>
  );
}
