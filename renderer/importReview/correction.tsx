/**
 * A corrected manuscript for the book that is open: read, compared, shown, and taken in as one change. Design, editions and
 * order stay.
 */
import { useRef, useState } from 'react';
import { assetIdOf, failure, type Outcome, success } from '#base';
import {
  type Asset,
  assetRecord,
  type Book,
  type Change,
  type Corrected,
  correctedText,
  type Correction as Place,
} from '#book';
import { type BookSession, bookOfMessage } from '#host';
import { nameOfRow, newId, useOutline, useWorkbench, type Workbench } from '../state/index.ts';
import { Button, Dialog, nameOf, useDeeds, useTools } from '../ui/index.ts';
import { importing } from '../ui/texts/import.en.ts';

const words = importing.correction;

interface Compared {
  readonly name: string;
  readonly session: BookSession;
  readonly manuscript: Book;
  readonly corrected: Corrected;
}

export function Correction() {
  const workbench = useWorkbench();
  const { commands, picker, problem, tell } = useTools();
  const { books, host } = workbench;
  const [compared, setCompared] = useState<Compared | null>(null);
  /** Pictures are on their way: pressing once more takes nothing in twice. */
  const taking = useRef(false);

  const compare = async (): Promise<void> => {
    const path = await picker.choose('openManuscript');
    const asked = books.get()?.session;
    if (path === null || asked === undefined) return;
    const opened = await host.importManuscript({ source: { path }, without: [] });
    if (!opened.ok) {
      problem(opened.problem);
      return;
    }
    const { session } = opened.value;
    // The manuscript corrects the book that was open when it was asked for, and no other.
    if (books.get()?.session !== asked) {
      await host.close({ session, discard: true });
      return;
    }
    const manuscript = bookOfMessage(opened.value.book);
    const corrected = correctedText(books.current.book, manuscript, () => newId('block'));
    setCompared({ name: nameOf(path), session, manuscript, corrected });
  };
  const leave = async (): Promise<void> => {
    if (compared) await host.close({ session: compared.session, discard: true });
    setCompared(null);
  };
  const take = async (): Promise<void> => {
    const change = compared?.corrected.change;
    if (!compared || !change || taking.current) return;
    taking.current = true;
    try {
      const pictures = await newPictures(workbench, compared);
      const made = pictures.ok
        ? books.apply({ kind: 'group', changes: [...pictures.value, change] }, { origin: 'correction' })
        : pictures;
      if (made.ok) tell({ kind: 'done', text: words.done });
      else problem(made.problem);
      await leave();
    } finally {
      taking.current = false;
    }
  };
  useDeeds(commands, { 'book.correct': () => void compare() });
  return compared && <Report compared={compared} onLeave={() => void leave()} onTake={() => void take()} />;
}

/** Pictures of the manuscript that the book does not have yet, with their bytes. */
async function newPictures(
  { books }: Workbench,
  { manuscript, session }: Compared,
): Promise<Outcome<readonly Change[]>> {
  const known = books.current.book.assets;
  const changes: Change[] = [];
  for (const asset of manuscript.assets.values()) {
    if (known.has(asset.id)) continue;
    const bytes = await bytesOf(`asset/${session}/${asset.id}`, asset);
    if (!bytes.ok) return bytes;
    changes.push({ kind: 'putAsset', asset: assetRecord({ ...asset, bytes: bytes.value }) });
  }
  return success(changes);
}

async function bytesOf(address: string, { id, name }: Asset): Promise<Outcome<Uint8Array>> {
  const reply = await fetch(address).catch(() => null);
  const bytes = reply?.ok ? new Uint8Array(await reply.arrayBuffer()) : null;
  return bytes && assetIdOf(bytes) === id ? success(bytes) : failure(`The picture “${name}” could not be read.`);
}

interface ReportProps {
  readonly compared: Compared;
  readonly onLeave: () => void;
  readonly onTake: () => void;
}

function Report({ compared: { name, corrected }, onLeave, onTake }: ReportProps) {
  const rows = useOutline();
  const nameOfSection = (id: string): string => {
    const row = rows.find((each) => String(each.id) === id);
    return row ? nameOfRow(row) : '';
  };
  const { changed, added, missing, unchanged, change } = corrected;
  return (
    <Dialog
      title={words.title(name)}
      wide
      onClose={onLeave}
      actions={
        <>
          <Button onPress={onLeave}>{words.leave}</Button>
          <Button look="main" onPress={onTake} isDisabled={change === null}>
            {words.take}
          </Button>
        </>
      }
    >
      <p className="quiet">{change === null ? words.nothing : words.help}</p>
      <p>
        {[
          changed.length > 0 ? words.changed(changed.length) : '',
          added.length > 0 ? words.added(added.length) : '',
          unchanged > 0 ? words.unchanged(unchanged) : '',
        ]
          .filter(Boolean)
          .join(', ')}
        .
      </p>
      {missing.length > 0 && (
        <p>
          {words.missing} {missing.map((id) => nameOfSection(String(id))).join(', ')}.
        </p>
      )}
      <ul className="corrections">
        {changed.map(({ section, corrections }) => (
          <li key={String(section)}>
            <h3>{nameOfSection(String(section))}</h3>
            <Places places={corrections} />
          </li>
        ))}
      </ul>
    </Dialog>
  );
}

/** Places shown of a section. */
const MOST = 6;

function Places({ places }: { readonly places: readonly Place[] }) {
  return (
    <ol>
      {places.slice(0, MOST).map((place) => (
        <li key={place.before + place.after}>
          <Difference {...place} />
        </li>
      ))}
      {places.length > MOST && <li className="quiet">{words.more(places.length - MOST)}</li>}
    </ol>
  );
}

/** Characters shown around what differs. */
const AROUND = 40;

/** What differs between two paragraphs, with some words around it. */
function Difference({ before, after }: Place) {
  if (before === '' || after === '') {
    return (
      <>
        <span className="quiet">{before === '' ? words.fresh : words.gone}: </span>
        {before === '' ? <ins>{after.slice(0, 4 * AROUND)}</ins> : <del>{before.slice(0, 4 * AROUND)}</del>}
      </>
    );
  }
  const { start, end } = differing(before, after);
  return (
    <>
      {start > AROUND ? '…' : ''}
      {before.slice(Math.max(0, start - AROUND), start)}
      <del>{before.slice(start, before.length - end)}</del> <ins>{after.slice(start, after.length - end)}</ins>
      {before.slice(before.length - end, before.length - end + AROUND)}
      {end > AROUND ? '…' : ''}
    </>
  );
}

/** How much two texts share at their beginnings and ends, to whole words. */
function differing(before: string, after: string): { readonly start: number; readonly end: number } {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  while (start > 0 && before[start - 1] !== ' ') start--;
  let end = 0;
  while (end < most - start && before.at(-1 - end) === after.at(-1 - end)) end++;
  while (end > 0 && before.at(-end) !== ' ') end--;
  return { start, end };
}
