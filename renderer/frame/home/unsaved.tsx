/** Work that an earlier run did not save: open it, give it up, or leave it for later. */
import type { UnsavedWork } from '#host';
import { useStore, useWorkbench } from '../../state/index.ts';
import { Button, texts, useTools } from '../../ui/index.ts';
import { useFrame } from '../context.ts';
import { dayAndClock } from '../times.ts';

const words = texts.frame.recovery;

export function UnsavedBooks() {
  const { home } = useWorkbench();
  const unsaved = useStore(home, (state) => state.unsaved);
  if (unsaved.length === 0) return null;
  return (
    <section className="home-unsaved" aria-label={words.title}>
      <h2>{words.title}</h2>
      <p>{words.text}</p>
      <ul>
        {unsaved.map((work) => (
          <Unsaved key={work.id} work={work} />
        ))}
      </ul>
    </section>
  );
}

function Unsaved({ work }: { readonly work: UnsavedWork }) {
  const { home } = useWorkbench();
  const { flows } = useFrame();
  const { asking } = useTools();
  const title = work.title || texts.frame.untitled;
  const discard = async (): Promise<void> => {
    const answer = await asking.ask<'yes' | 'no'>({
      title: words.discardTitle(title),
      text: [words.discardText],
      answers: [
        { id: 'yes', text: words.discard, look: 'grave' },
        { id: 'no', text: words.keep, look: 'main' },
      ],
      otherwise: 'no',
    });
    if (answer === 'yes') await home.discard(work.id);
  };
  return (
    <li className="plain-row">
      <span className="home-book-words">
        <span className="home-book-title">{title}</span>
        <span className="quiet figures">
          {words.changes(work.changes)}, {words.last(dayAndClock(work.lastChangeAt))}
        </span>
        {work.fileChanged && <span>{words.fileChanged}</span>}
      </span>
      <Button onPress={() => void discard()}>{words.discard}</Button>
      <Button look="main" onPress={() => void flows.recover(work.id)}>
        {words.open}
      </Button>
    </li>
  );
}
