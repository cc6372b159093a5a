/**
 * Folders for a file dialog that the window draws itself. In: a folder, or null to begin; out: what lies in it, bounded,
 * hidden files left out.
 */
import type { Dirent, Stats } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { homedir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { failure, type Outcome, success } from '#base';
import type { FolderListing } from '#host';
import { sentenceOf, usablePath } from './paths.ts';

type Entry = FolderListing['entries'][number];

/** More names than anyone reads; a folder with more shows the first. */
const MOST_ENTRIES = 5_000;

export async function listFolder(path: string | null, documents: string): Promise<Outcome<FolderListing>> {
  const usable = usablePath(path ?? documents);
  if (!usable.ok) return usable;
  const folder = usable.value;
  try {
    const found = await readdir(folder, { withFileTypes: true });
    const entries = await entriesOf(folder, found.filter(isShown).slice(0, MOST_ENTRIES));
    const parent = dirname(folder);
    const places = await placesOf(documents);
    return success({ path: folder, parent: parent === folder ? null : parent, entries, places });
  } catch (problem) {
    return failure(sentenceOf(problem, folder));
  }
}

function isShown({ name }: Dirent): boolean {
  return !name.startsWith('.');
}

async function entriesOf(folder: string, found: readonly Dirent[]): Promise<Entry[]> {
  const all = await Promise.all(found.map(({ name }) => entryOf(folder, name)));
  return all.filter((each) => each !== null).sort(inOrder);
}

async function entryOf(folder: string, name: string): Promise<Entry | null> {
  const path = join(folder, name);
  const about = await aboutOf(path);
  if (!about?.isDirectory() && !about?.isFile()) return null;
  const kind = about.isDirectory() ? 'folder' : 'file';
  return { name, path, kind, modifiedAt: Math.round(about.mtimeMs), size: kind === 'file' ? about.size : 0 };
}

/** What the system knows of a file; null for one that went away or may not be seen. */
async function aboutOf(path: string): Promise<Stats | null> {
  return stat(path).catch(() => null);
}

/** Folders first, then by name, capitals and small letters alike. */
function inOrder(one: Entry, other: Entry): number {
  if (one.kind !== other.kind) return one.kind === 'folder' ? -1 : 1;
  const [first, second] = [one.name.toLowerCase(), other.name.toLowerCase()];
  if (first !== second) return first < second ? -1 : 1;
  return one.name < other.name ? -1 : 1;
}

async function placesOf(documents: string): Promise<FolderListing['places']> {
  const home = homedir();
  const wanted = [home, documents, join(home, 'Desktop'), join(home, 'Downloads')];
  const places: { name: string; path: string }[] = [];
  for (const path of wanted) {
    if (places.some((each) => each.path === path) || !(await aboutOf(path))?.isDirectory()) continue;
    places.push({ name: path === home ? 'Home' : basename(path), path });
  }
  return places;
}
