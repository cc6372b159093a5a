/**
 * The design panel, beside every desk so that the proof is seen while a design is changed. In: the edition in proof; out: its
 * design chosen, adjusted, saved, loaded.
 */
import { useEffect, useMemo, useRef, useState } from 'react';
import type { EditionId } from '#base';
import type { Book, Edition } from '#book';
import { useBookState, usePlace, useWorkbench } from '../state/index.ts';
import { Chooser, IconButton, texts, useTools } from '../ui/index.ts';
import { design as words } from '../ui/texts/design.en.ts';
import { Adjustments } from './adjustments.tsx';
import { isOwn, settingsOf } from './changes.ts';
import { DesignDeeds } from './designDeeds.tsx';
import { Designing } from './designing.ts';
import { DifferencesList } from './differencesList.tsx';
import { EditionLine } from './editionLine.tsx';
import { Specimens } from './specimens.tsx';
import './design.css';

export function DesignPanel() {
  const editions = useBookState((state) => state.book.editions);
  const { place } = useWorkbench();
  const inProof = usePlace((state) => state.printEdition);
  const [chosen, choose] = useState<EditionId | null>(null);
  const edition = editionOf(editions, chosen ?? inProof);
  const panel = useRef<HTMLElement>(null);
  // It was asked for by a command: whoever did goes on in it, and comes back where they were.
  useEffect(() => {
    const before = document.activeElement;
    panel.current?.focus();
    return () => {
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, []);
  const close = (): void => place.toggle('design', false);
  return (
    <aside
      ref={panel}
      tabIndex={-1}
      className="panel design-panel"
      aria-label={words.title}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !event.defaultPrevented) close();
      }}
    >
      <div className="drawer-head">
        <h2>{words.title}</h2>
        <IconButton icon="close" name={texts.common.close} onPress={close} />
      </div>
      {edition && <EditionDesign key={edition.id} edition={edition} onEdition={choose} />}
    </aside>
  );
}

function editionOf(editions: Book['editions'], id: EditionId | null): Edition | null {
  return editions.find((each) => each.id === id) ?? editions[0] ?? null;
}

interface EditionDesignProps {
  readonly edition: Edition;
  readonly onEdition: (edition: EditionId) => void;
}

function EditionDesign({ edition, onEdition }: EditionDesignProps) {
  const designs = useBookState((state) => state.book.designs);
  const editions = useBookState((state) => state.book.editions);
  const workbench = useWorkbench();
  const tools = useTools();
  const designing = useMemo(() => new Designing(workbench, tools, edition), [workbench, tools, edition]);
  const settings = useMemo(() => settingsOf({ designs }, edition.design), [designs, edition.design]);
  const print = edition.kind === 'print' ? edition : editions.find((each) => each.kind === 'print');
  const others = editions.filter((each) => each.design === edition.design && each.id !== edition.id);
  return (
    <div className="design-body">
      <Chooser
        label={words.edition}
        value={edition.id}
        options={editions.map(({ id, name }) => ({ value: id as string, text: name }))}
        onChange={onEdition}
      />
      <EditionLine edition={edition} />
      <Specimens edition={edition} designing={designing} />
      <DesignDeeds settings={settings} designing={designing} own={isOwn({ designs }, settings.id)} />
      {others.length > 0 && <p className="field-help">{words.shared(others.map((each) => each.name))}</p>}
      {edition.kind === 'print' && edition.largePrint && <p className="field-help">{words.largePrint}</p>}
      <DifferencesList settings={settings} designing={designing} />
      <Adjustments settings={settings} designing={designing} print={print?.id ?? null} />
    </div>
  );
}
