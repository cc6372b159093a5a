/** The press desk: a docket for each edition, everything made at once or one by one, and what was made so far. */
import { useEffect, useMemo, useState } from 'react';
import type { EditionId } from '#base';
import type { Edition } from '#book';
import { shareDone, timeLeft, useBook, useSettings, useStore, useWorkbench } from '../state/index.ts';
import { Button, DropMenu, texts, useTools } from '../ui/index.ts';
import { Docket, EBOOK_SIZE } from './docket.tsx';
import { type EditionChecks, editionChecksOf, UNCHECKED, withShown } from './editionChecks.ts';
import { EditionDialog } from './editionDialog.tsx';
import { addedEdition } from './editions.ts';
import { ExportHistory } from './exportHistory.tsx';
import { Pressing } from './pressing.ts';
import './press.css';

const words = texts.press;

/** Pixels that the tallest book is drawn high. */
const TALLEST = 184;

export function PressDesk() {
  const workbench = useWorkbench();
  const tools = useTools();
  const { editions } = useBook();
  const pressing = useMemo(() => new Pressing(workbench, tools), [workbench, tools]);
  const [open, setOpen] = useState<EditionId | null>(null);
  const checks = useChecks();
  const scale = TALLEST / Math.max(1, ...editions.map((each) => heightOf(each)));
  const edited = editions.find((each) => each.id === open);
  return (
    <div className="press-desk panel">
      <header className="press-head">
        <div>
          <h2 className="desk-heading">{words.title}</h2>
          <p className="quiet">{words.lead}</p>
        </div>
        <div className="press-actions">
          <AddEdition />
          <Button onPress={() => workbench.place.toggle('details', true)}>{words.details}</Button>
          <MakeAll pressing={pressing} />
        </div>
      </header>
      <Folder pressing={pressing} />
      {editions.length === 0 && <p className="press-empty">{words.empty}</p>}
      <div className="dockets">
        {editions.map((edition) => (
          <Docket
            key={edition.id}
            edition={edition}
            check={checks.get(edition.id) ?? UNCHECKED}
            scale={scale}
            pressing={pressing}
            onSettings={() => setOpen(edition.id)}
          />
        ))}
      </div>
      <ExportHistory pressing={pressing} />
      {edited && <EditionDialog edition={edited} onClose={() => setOpen(null)} />}
    </div>
  );
}

function heightOf(edition: Edition): number {
  return edition.kind === 'print' ? edition.trim.height : EBOOK_SIZE.height;
}

/** What is known of each edition; the page count of the one in proof comes with its pages. */
function useChecks(): EditionChecks {
  const workbench = useWorkbench();
  const store = editionChecksOf(workbench);
  const { layout } = workbench;
  const shown = useStore(layout, (state) => state.edition);
  const count = useStore(layout, (state) => state.count);
  const findings = useStore(layout, (state) => (state.checked ? state.findings : null));
  const checks = useStore(store, (state) => state);
  useEffect(() => store.use(), [store]);
  return useMemo(() => {
    return shown === null || count === 0 ? checks : withShown(checks, shown, { count, findings });
  }, [checks, shown, count, findings]);
}

function AddEdition() {
  const { books } = useWorkbench();
  const { problem } = useTools();
  const add = (kind: Edition['kind']) => () => {
    const outcome = books.apply(addedEdition(books.current.book, kind));
    if (!outcome.ok) problem(outcome.problem);
  };
  const choices = [
    { id: 'print', text: words.addPrint, run: add('print') },
    { id: 'ebook', text: words.addEbook, run: add('ebook') },
  ];
  return (
    <DropMenu label={words.addEdition} blocks={[{ choices }]}>
      <Button icon="add">{words.addEdition}</Button>
    </DropMenu>
  );
}

function MakeAll({ pressing }: { readonly pressing: Pressing }) {
  const { press } = useWorkbench();
  const none = useBook().editions.length === 0;
  const running = useStore(press, (state) => state.running);
  const now = useClock(running !== null);
  if (!running) {
    return (
      <Button look="main" isDisabled={none} onPress={() => void pressing.makeAll()}>
        {words.makeAll}
      </Button>
    );
  }
  const left = timeLeft(running, now);
  return (
    <>
      <output className="figures press-left">
        {Math.round(shareDone(running) * 100)}%{left === null ? '' : `, ${words.left(Math.round(left / 1000))}`}
      </output>
      <Button onPress={() => void press.cancel()}>{texts.common.cancel}</Button>
    </>
  );
}

/** The time, once a second, while it is wanted. */
function useClock(wanted: boolean): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    if (!wanted) return;
    const timer = setInterval(() => setNow(Date.now()), 1_000);
    return () => clearInterval(timer);
  }, [wanted]);
  return now;
}

function Folder({ pressing }: { readonly pressing: Pressing }) {
  const { exportFolder } = useSettings();
  return (
    <p className="press-folder quiet">
      {exportFolder === null ? words.noFolder : words.folder(exportFolder)}
      <Button look="bare" onPress={() => void pressing.chooseFolder()}>
        {words.changeFolder}
      </Button>
    </p>
  );
}
