/** The first page: bring a manuscript, open a book, look at the demo; recent books with their fore-edges; unsaved work. */
import { Button as AriaButton } from 'react-aria-components';
import type { RecentBook } from '#host';
import { useStore, useWorkbench } from '../../state/index.ts';
import { Icon, IconButton, type IconName, texts } from '../../ui/index.ts';
import { useFrame } from '../context.ts';
import { PageMenu } from '../pageMenu.tsx';
import { dayAndClock } from '../times.ts';
import { SmallForeEdge } from './smallForeEdge.tsx';
import { UnsavedBooks } from './unsaved.tsx';
import './home.css';

const words = texts.frame.home;

export function Home() {
  const { flows } = useFrame();
  const { info } = useWorkbench();
  return (
    <main className="home">
      {info.menu === 'page' && (
        <div className="home-menu">
          <PageMenu />
        </div>
      )}
      <div className="home-sheet">
        <header className="home-head">
          <h1>{texts.frame.product}</h1>
          <p>{words.promise}</p>
        </header>
        <UnsavedBooks />
        <ul className="home-ways">
          <Way
            icon="manuscript"
            text={words.import}
            help={words.importHelp}
            run={() => flows.chooseManuscript()}
            main
          />
          <Way icon="book" text={words.open} help={words.openHelp} run={() => flows.chooseBook()} />
          <Way icon="search" text={words.demo} help={words.demoHelp} run={() => flows.openDemo()} />
        </ul>
        <RecentBooks />
      </div>
    </main>
  );
}

interface WayProps {
  readonly icon: IconName;
  readonly text: string;
  readonly help: string;
  readonly run: () => unknown;
  readonly main?: boolean;
}

function Way({ icon, text, help, run, main = false }: WayProps) {
  return (
    <li>
      <AriaButton className={main ? 'home-way main' : 'home-way'} onPress={() => void run()} autoFocus={main}>
        <Icon name={icon} />
        <span className="home-way-text">{text}</span>
        <span className="home-way-help">{help}</span>
      </AriaButton>
    </li>
  );
}

function RecentBooks() {
  const { home } = useWorkbench();
  const recent = useStore(home, (state) => state.recent);
  return (
    <section className="home-recent" aria-label={words.recent}>
      <h2>{words.recent}</h2>
      {recent.length === 0 ? (
        <p className="quiet">{words.noRecent}</p>
      ) : (
        <ul>
          {recent.map((book) => (
            <Recent key={book.path} book={book} />
          ))}
        </ul>
      )}
    </section>
  );
}

function Recent({ book }: { readonly book: RecentBook }) {
  const { flows } = useFrame();
  const { home } = useWorkbench();
  const title = book.title || texts.frame.untitled;
  return (
    <li className="home-book">
      <AriaButton
        className="home-book-open"
        isDisabled={!book.found}
        onPress={() => void flows.openBook({ path: book.path })}
      >
        <SmallForeEdge pages={book.foreEdge} />
        <span className="home-book-words">
          <span className="home-book-title">{title}</span>
          {book.author !== '' && <span className="quiet">{words.by(book.author)}</span>}
          <span className="quiet figures">{book.found ? dayAndClock(book.openedAt) : words.gone}</span>
        </span>
      </AriaButton>
      <IconButton icon="close" name={words.forget(title)} onPress={() => void home.forget(book.path)} />
    </li>
  );
}
