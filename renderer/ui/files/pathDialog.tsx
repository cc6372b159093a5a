/** The window's own file dialog, where the system has none for it. In: a request for a path; out: a path or none. */
import { type FormEvent, useEffect, useState } from 'react';
import { GridList, GridListItem } from 'react-aria-components';
import type { FolderListing } from '#host';
import { useStore, useWorkbench } from '../../state/index.ts';
import { Button, IconButton, TextInput } from '../controls.tsx';
import { Icon } from '../icons.tsx';
import { Dialog } from '../overlays.tsx';
import { texts } from '../texts/en.ts';
import { useTools } from '../tools.ts';
import { fits, folderOf, isSaving, joinPath, nameOf, type PathPurpose, withEnding } from './picker.ts';
import './files.css';

const words = texts.frame.files;

export function PathDialog() {
  const { picker } = useTools();
  const asked = useStore(picker, (state) => state);
  if (!asked) return null;
  return <Asked key={`${asked.purpose} ${asked.suggested}`} {...asked} />;
}

interface AskedProps {
  readonly purpose: PathPurpose;
  readonly suggested: string | null;
  readonly answer: (path: string | null) => void;
}

type Entry = FolderListing['entries'][number];

function Asked({ purpose, suggested, answer }: AskedProps) {
  const { listing, problem, go } = useFolder(suggested === null ? null : folderOf(suggested));
  const [name, setName] = useState(suggested !== null && isSaving(purpose) ? nameOf(suggested) : '');
  const [chosen, setChosen] = useState<string | null>(null);
  /** Whether Enter was pressed before the folder was read: the answer is given as soon as it is. */
  const [hurried, setHurried] = useState(false);
  const { asking } = useTools();
  const saving = isSaving(purpose);
  const entries = listing?.entries.filter((each) => each.kind === 'folder' || fits(purpose, each.name)) ?? [];

  const save = async (): Promise<void> => {
    const full = withEnding(purpose, name.trim());
    const there = listing?.entries.find((each) => each.name === full);
    const over = { id: 'over', text: words.over, look: 'grave' } as const;
    const stay = { id: 'stay', text: texts.common.cancel } as const;
    const go = there
      ? await asking.ask<'over' | 'stay'>({
          title: words.overTitle(full),
          text: [words.overText],
          answers: [stay, over],
          otherwise: 'stay',
        })
      : 'over';
    if (listing && go === 'over') answer(joinPath(listing.path, full));
  };

  const take = (entry: Entry): void => {
    if (entry.kind === 'folder') go(entry.path);
    else if (saving) setName(entry.name);
    else answer(entry.path);
  };

  const finish = (): void => {
    if (saving) void save();
    else if (purpose === 'folder') answer(listing?.path ?? null);
    else if (chosen !== null) {
      const entry = entries.find((each) => each.path === chosen);
      if (entry) take(entry);
    }
  };

  useEffect(() => {
    if (!hurried || listing === null) return;
    setHurried(false);
    finish();
  });

  const ready = saving ? name.trim() !== '' && !/[\\/]/.test(name) : purpose === 'folder' || chosen !== null;
  return (
    <Dialog
      wide
      title={words[purpose]}
      onClose={() => answer(null)}
      actions={
        <>
          <Button onPress={() => answer(null)}>{texts.common.cancel}</Button>
          <Button look="main" isDisabled={!ready || listing === null} onPress={finish}>
            {saving ? words.save : purpose === 'folder' ? words.takeFolder : words.take}
          </Button>
        </>
      }
    >
      <form
        className="files"
        onSubmit={(event: FormEvent) => {
          event.preventDefault();
          if (ready && listing === null) setHurried(true);
          else if (ready) finish();
        }}
      >
        {saving && <TextInput label={words.name} value={name} onChange={setName} autoFocus />}
        <Places listing={listing} go={go} />
        {problem !== null && <p className="field-problem">{problem}</p>}
        <EntryList
          entries={entries}
          autoFocus={!saving}
          onChoose={(path) => {
            setChosen(path);
            const entry = entries.find((each) => each.path === path);
            if (saving && entry?.kind === 'file') setName(entry.name);
          }}
          onTake={take}
        />
      </form>
    </Dialog>
  );
}

/** A folder as the host lists it; the one before stays in view until the next has come. */
function useFolder(first: string | null) {
  const { host } = useWorkbench();
  const [path, go] = useState<string | null>(first);
  const [listing, setListing] = useState<FolderListing | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    host.listFolder({ path }).then((reply) => {
      if (!wanted) return;
      if (reply.ok) setListing(reply.value);
      setProblem(reply.ok ? null : reply.problem);
      // A folder that is gone: the person begins where files usually are.
      if (!reply.ok && path === first) go(null);
    });
    return () => {
      wanted = false;
    };
  }, [host, path, first]);
  return { listing, problem, go };
}

interface PlacesProps {
  readonly listing: FolderListing | null;
  readonly go: (path: string) => void;
}

function Places({ listing, go }: PlacesProps) {
  if (!listing) return null;
  const { parent } = listing;
  return (
    <nav className="files-places" aria-label={words.places}>
      <IconButton
        icon="up"
        name={words.up}
        isDisabled={parent === null}
        onPress={() => parent !== null && go(parent)}
      />
      <span className="files-path">{listing.path}</span>
      {listing.places.map((place) => (
        <Button key={place.path} look="bare" onPress={() => go(place.path)}>
          {place.name}
        </Button>
      ))}
    </nav>
  );
}

interface EntryListProps {
  readonly entries: readonly Entry[];
  readonly autoFocus: boolean;
  readonly onChoose: (path: string) => void;
  readonly onTake: (entry: Entry) => void;
}

function EntryList({ entries, onChoose, onTake, autoFocus }: EntryListProps) {
  // The Tab key never leaves an empty list of the library's: there is none then.
  if (entries.length === 0) return <p className="files-list quiet">{words.empty}</p>;
  return (
    <GridList
      className="files-list"
      aria-label={words.here}
      selectionMode="single"
      selectionBehavior="replace"
      autoFocus={autoFocus ? 'first' : false}
      items={entries}
      onSelectionChange={(keys) => {
        const [key] = keys;
        if (key !== undefined) onChoose(String(key));
      }}
      onAction={(key) => {
        const entry = entries.find((each) => each.path === key);
        if (entry) onTake(entry);
      }}
    >
      {(entry) => (
        <GridListItem className="files-entry" id={entry.path} textValue={entry.name}>
          <Icon name={entry.kind === 'folder' ? 'folder' : 'file'} />
          <span className="files-name">{entry.name}</span>
        </GridListItem>
      )}
    </GridList>
  );
}
