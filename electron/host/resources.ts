/**
 * What the window loads. In: the path of an address; out: bytes, their type and the headers that guard the page, or "not
 * found". Electron's protocol handler and the loopback server both serve by this, and nothing else:
 *
 *     /                            the window's page
 *     /fonts/<file>                a bundled face
 *     /wasm/<file>                 a bundled module
 *     /installed/<face>            a face installed on this computer
 *     /asset/<session>/<sha256>    a picture of an open book
 *     /<file>                      what belongs to the page
 */
import { readFile, realpath } from 'node:fs/promises';
import { extname, join, sep } from 'node:path';
import { BUNDLED_FONTS, BUNDLED_MODULES } from '../services/bundled.ts';
import { GUARDING_HEADERS, PICTURE_POLICY } from './policy.ts';

export interface Served {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array;
}

export interface ResourceParts {
  /** The folder of the built program. */
  readonly program: string;
  readonly picture: (session: string, id: string) => { readonly bytes: Uint8Array; readonly mediaType: string } | null;
  readonly installedFace: (id: string) => Promise<Uint8Array | null>;
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.wasm': 'application/wasm',
  '.ttf': 'font/ttf',
  '.otf': 'font/otf',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
};

const FONT_FILES: ReadonlySet<string> = new Set(BUNDLED_FONTS.flatMap((font) => [font.file, font.licenceFile]));
const MODULE_FILES: ReadonlySet<string> = new Set(BUNDLED_MODULES.map((module) => module.file));

/** A name of the build: no dots first, nothing that another system could read as a way or a device. */
const PLAIN_NAME = /^[A-Za-z0-9_-][A-Za-z0-9._-]{0,120}$/;
const LONGEST_PATH = 1_000;

const NEVER = 'no-store';
/** Built files change with the program and keep their names only while they are the same. */
const ASK = 'no-cache';
const FOR_EVER = 'private, max-age=31536000, immutable';

/** Gives the resource at `path`, as it stands in the address, query left out. */
export async function resourceAt(path: string, parts: ResourceParts): Promise<Served> {
  const names = namesOf(path);
  if (names === null) return notFound();
  const [first = 'index.html', second, third] = names;
  if (names.length === 2 && second !== undefined) {
    if (first === 'fonts') return FONT_FILES.has(second) ? file(join(parts.program, 'fonts', second)) : notFound();
    if (first === 'wasm') return MODULE_FILES.has(second) ? file(join(parts.program, 'wasm', second)) : notFound();
    if (first === 'installed') return installed(await parts.installedFace(second));
  }
  // Browsers ask for it unbidden; the window has no tab to show it in.
  if (first === 'favicon.ico') return { status: 204, headers: GUARDING_HEADERS, body: new Uint8Array(0) };
  if (first === 'asset') return third !== undefined && names.length === 3 ? picture(names, parts) : notFound();
  return fileOfPage(join(parts.program, 'renderer'), names.length === 0 ? [first] : names);
}

/** The names of a path between its slashes; null for a path that no file of ours has. */
function namesOf(path: string): readonly string[] | null {
  if (path.length > LONGEST_PATH || !path.startsWith('/')) return null;
  const names = path.slice(1) === '' ? [] : path.slice(1).split('/');
  return names.every((name) => PLAIN_NAME.test(name)) ? names : null;
}

function installed(bytes: Uint8Array | null): Served {
  return bytes ? served(bytes, 'font/sfnt', { 'cache-control': NEVER }) : notFound();
}

function picture(names: readonly string[], parts: ResourceParts): Served {
  const [, session = '', id = ''] = names;
  const found = parts.picture(session, id);
  if (!found) return notFound();
  const guard = { 'content-security-policy': PICTURE_POLICY, 'cache-control': FOR_EVER };
  return served(found.bytes, PICTURE_TYPES.has(found.mediaType) ? found.mediaType : 'application/octet-stream', guard);
}

/** Types that a browser shows as pictures; nothing of a book is ever served as a page. */
const PICTURE_TYPES: ReadonlySet<string> = new Set([
  'image/png',
  'image/jpeg',
  'image/gif',
  'image/webp',
  'image/svg+xml',
]);

/** A file of the page; links that would lead out of its folder are not followed. */
async function fileOfPage(folder: string, names: readonly string[]): Promise<Served> {
  const root = await realpath(folder).catch(() => null);
  const real = await realpath(join(folder, ...names)).catch(() => null);
  return root !== null && real?.startsWith(root + sep) ? file(real) : notFound();
}

async function file(path: string): Promise<Served> {
  const type = TYPES[extname(path).toLowerCase()];
  if (type === undefined) return notFound();
  // Read in one step, which also works inside the archive of the packaged program.
  const bytes = await readFile(path).catch(() => null);
  return bytes ? served(bytes, type, { 'cache-control': ASK }) : notFound();
}

function served(body: Uint8Array, type: string, more: Readonly<Record<string, string>>): Served {
  return { status: 200, headers: { ...GUARDING_HEADERS, 'content-type': type, ...more }, body };
}

function notFound(): Served {
  const headers = { ...GUARDING_HEADERS, 'content-type': 'text/plain; charset=utf-8', 'cache-control': NEVER };
  return { status: 404, headers, body: new TextEncoder().encode('Not found.\n') };
}
