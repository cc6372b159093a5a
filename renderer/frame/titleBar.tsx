/** The head of the window: the book's title, the three desks as tabs, what is safe, the list of commands. */
import { COMMANDS, type Kept } from '#host';
import { useBookState, useLasting, useWorkbench } from '../state/index.ts';
import { Button, texts, useTools } from '../ui/index.ts';
import { DeskTabs } from './deskTabs.tsx';
import { PageMenu } from './pageMenu.tsx';
import { clock } from './times.ts';

const words = texts.frame;

export function TitleBar() {
  const title = useBookState((state) => state.book.metadata.title);
  const language = useBookState((state) => state.book.metadata.language);
  const { info } = useWorkbench();
  const { commands, keys } = useTools();
  return (
    <header className="title-bar">
      <div className="title-bar-start">
        {info.menu === 'page' && <PageMenu />}
        <h1 className="book-title" lang={language}>
          {title || words.untitled}
        </h1>
      </div>
      <DeskTabs />
      <div className="title-bar-end">
        <Safety />
        <Button look="bare" icon="search" onPress={() => commands.run('help.commands')}>
          <span className="commands-word">{words.commands}</span>{' '}
          <span className="keys">{keys(COMMANDS['help.commands'].keys)}</span>
        </Button>
      </div>
    </header>
  );
}

/** Milliseconds: every key is on its way for a moment, and nobody wants to be told so. */
const PATIENCE = 400;

/** What is safe, in words. Not told as it changes, which is with every pause in typing: what was asked for is told. */
function Safety() {
  const { books } = useWorkbench();
  const text = useLasting(books, (state) => (state ? safetyText(state.kept, state.unsent > 0) : ''), PATIENCE);
  const stopped = useBookState((state) => state.problem !== null);
  const { commands } = useTools();
  return (
    <div className="safety" data-stopped={stopped || undefined}>
      {stopped ? (
        <Button look="bare" onPress={() => commands.run('book.save')}>
          {words.safe.stopped}
        </Button>
      ) : (
        text
      )}
    </div>
  );
}

export function safetyText({ path, savedAt, dirty }: Kept, unsent: boolean): string {
  if (unsent) return words.safe.writing;
  if (path === null || savedAt === null) return words.safe.kept;
  return dirty ? words.safe.keptSince(clock(savedAt)) : words.safe.saved(clock(savedAt));
}
