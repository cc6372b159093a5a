/** The program in Electron, driven over doubles: files handed over, the way out, the window's place, look and language. */
import { describe, expect, it } from 'vitest';
import { COMMANDS, type CommandId, MENU, type MenuState } from '#host';
import { WINDOW_ADDRESS } from '../../electron/shell/address.ts';
import { EVENT_CHANNEL } from '../../electron/shell/channels.ts';
import { fileNamed } from '../../electron/shell/files.ts';
import { checkedLanguages, languageSet } from '../../electron/shell/language.ts';
import { Shell } from '../../electron/shell/shell.ts';
import { onScreen, readPlace } from '../../electron/shell/window.ts';
import { DoubleEvent, DoubleWindow, doubles } from './doubles.ts';
import { started } from './started.ts';

const PAGE = { url: WINDOW_ADDRESS, parent: null };

function theWindow(): DoubleWindow {
  const [window] = DoubleWindow.made;
  if (!window) throw new RangeError('no window was made');
  return window;
}

const opening = (language: string) => ({ ok: true, value: { book: { metadata: { language } } } });

describe('files', () => {
  it('of the command line are opened when the window begins', async () => {
    const { call } = await started({ argv: ['--hidden', 'harbour.reglet'] });
    await expect(call(PAGE, 'start', {})).resolves.toMatchObject({ open: '/work/harbour.reglet' });
    await expect(call(PAGE, 'start', {})).resolves.toMatchObject({ open: null });
  });

  it('of a second start come to the first, before and after it has begun', async () => {
    const { given, call } = await started();
    given.app.emit('second-instance', {}, ['reglet', 'a.docx'], '/home');
    await expect(call(PAGE, 'start', {})).resolves.toMatchObject({ open: '/home/a.docx' });
    given.app.emit('second-instance', {}, ['reglet', 'b.reglet'], '/home');
    expect(theWindow().webContents.sent).toEqual([[EVENT_CHANNEL, { kind: 'openFile', path: '/home/b.reglet' }]]);
  });

  it('opened by the system are taken', async () => {
    const { given, call } = await started({ platform: 'darwin' });
    await call(PAGE, 'start', {});
    const event = new DoubleEvent();
    given.app.emit('open-file', event, '/home/c.reglet');
    expect(event.defaultPrevented).toBe(true);
    expect(theWindow().webContents.sent).toEqual([[EVENT_CHANNEL, { kind: 'openFile', path: '/home/c.reglet' }]]);
  });

  it('that it cannot open are passed over', () => {
    expect(fileNamed(['reglet', '--flag.docx', 'a.txt'], '/x')).toBeNull();
    expect(fileNamed(['reglet', 'a.reglet', 'B.DOCX'], '/x')).toBe('/x/B.DOCX');
    expect(fileNamed(['a.docx'], '/x')).toBeNull();
  });

  it('a second start gives way to the first', async () => {
    const given = doubles();
    given.app.lock = false;
    const never = (): never => {
      throw new RangeError('a second start must not get so far');
    };
    const begun = await new Shell({
      parts: given.parts,
      makeHost: never,
      preload: '',
      platform: 'linux',
      argv: [],
      folder: '/',
      menu: never,
      place: { read: never, write: never },
    }).start();
    expect([begun, given.app.done]).toEqual([false, ['quit']]);
  });
});

describe('the way out', () => {
  it('asks the page, and goes when the page says so', async () => {
    const { call, given, closed } = await started();
    const window = theWindow();
    window.close();
    expect(window.destroyed).toBe(false);
    expect(window.webContents.sent).toEqual([[EVENT_CHANNEL, { kind: 'closeRequested' }]]);
    await call(PAGE, 'leave', {});
    expect(window.destroyed).toBe(true);
    given.app.emit('window-all-closed');
    given.app.emit('will-quit');
    expect([given.app.done, closed]).toEqual([['sandbox', 'quit'], ['host']]);
  });

  it('lets a page go that has died or hangs', async () => {
    await started();
    theWindow().webContents.emit('render-process-gone');
    theWindow().close();
    expect(theWindow().destroyed).toBe(true);
    await started();
    theWindow().emit('unresponsive');
    theWindow().emit('responsive');
    theWindow().close();
    expect(theWindow().destroyed).toBe(false);
    theWindow().emit('unresponsive');
    theWindow().close();
    expect(theWindow().destroyed).toBe(true);
  });

  it('stays in the dock of macOS, and comes back', async () => {
    const { given, call } = await started({ platform: 'darwin' });
    theWindow().close();
    await call(PAGE, 'leave', {});
    given.app.emit('window-all-closed');
    expect(given.app.done).toEqual(['sandbox']);
    given.app.emit('activate');
    expect(DoubleWindow.made).toHaveLength(2);
  });
});

describe("the window's place", () => {
  const place = { x: 20, y: 30, width: 1000, height: 700, maximized: false };

  it('is kept and found again', async () => {
    const first = await started();
    theWindow().close();
    expect(readPlace(first.place.text)).toEqual(place);
    await started({ place: first.place.text });
    expect(theWindow().options).toMatchObject({ x: 20, y: 30, width: 1000, height: 700, show: false });
    theWindow().emit('ready-to-show');
    expect(theWindow().shown).toBe(true);
  });

  it('is given up where the screen is gone or the file is spoilt', () => {
    const screens = [{ workArea: { x: 0, y: 0, width: 1920, height: 1080 } }];
    expect(onScreen(place, screens)).toEqual(place);
    expect(onScreen({ ...place, x: 3000 }, screens)).toBeNull();
    expect(onScreen({ ...place, y: -500 }, screens)).toBeNull();
    for (const text of ['', '{', 'null', '{"x":1}', '{"x":0,"y":0,"width":1e9,"height":700}', '[]']) {
      expect([text, readPlace(text)]).toEqual([text, null]);
    }
  });
});

describe('what the window is told by its replies', () => {
  it('the look follows the settings', async () => {
    const { given, call } = await started({ replies: { setSettings: { appearance: 'light' } } });
    expect(given.theme.themeSource).toBe('dark');
    await call(PAGE, 'setSettings', { appearance: 'light' });
    expect(given.theme.themeSource).toBe('light');
  });

  it('spell-check follows the language of the book', async () => {
    const { given, call } = await started({ replies: { openBook: opening('fr-CA') } });
    await call(PAGE, 'openBook', {});
    expect(given.session.spellCheckerLanguages).toEqual(['fr']);
    await call(PAGE, 'change', { changes: [{ kind: 'setMetadata', set: { language: 'en-GB' } }] });
    expect(given.session.spellCheckerLanguages).toEqual(['en-GB']);
    await call(PAGE, 'change', { changes: [{ kind: 'setMetadata', set: { title: 'x' } }] });
    expect(given.session.spellCheckerLanguages).toEqual(['en-GB']);
  });

  it('knows the nearest language of the checker', () => {
    const available = ['de', 'en-GB', 'en-US', 'pt-BR'];
    expect(checkedLanguages('en', available)).toEqual(['en-GB']);
    expect(checkedLanguages('en-us', available)).toEqual(['en-US']);
    expect(checkedLanguages('de-AT', available)).toEqual(['de']);
    expect(checkedLanguages('pt', available)).toEqual(['pt-BR']);
    expect(checkedLanguages('grc', available)).toEqual([]);
    expect(languageSet([{ kind: 'group', changes: [{ kind: 'setMetadata', set: { language: 'it' } }] }])).toBe('it');
  });
});

describe('dialogs, folders and menus', () => {
  it('show files of the kind that is wanted', async () => {
    const { given, shell } = await started();
    given.chosen.paths = ['/home/a.docx'];
    await expect(shell.choosePath({ purpose: 'openManuscript', suggested: '/home' })).resolves.toBe('/home/a.docx');
    await expect(shell.choosePath({ purpose: 'saveBook', suggested: null })).resolves.toBe('/home/a.docx');
    await expect(shell.choosePath({ purpose: 'folder', suggested: null })).resolves.toBe('/home/a.docx');
    expect(given.dialogs).toMatchObject([
      { defaultPath: '/home', properties: ['openFile'], filters: [{ extensions: ['docx'] }] },
      { filters: [{ extensions: ['reglet'] }] },
      { properties: ['openDirectory', 'createDirectory'] },
    ]);
    given.chosen.paths = [];
    await expect(shell.choosePath({ purpose: 'openBook', suggested: null })).resolves.toBeNull();
    await expect(shell.choosePath({ purpose: 'saveBook', suggested: null })).resolves.toBeNull();
  });

  it('show finished files', async () => {
    const { given, shell } = await started();
    await shell.reveal('/out/book.pdf');
    await shell.open('/out/book.pdf');
    expect(given.opened).toEqual(['folder of /out/book.pdf', '/out/book.pdf']);
  });

  it('send what the host says to the window', async () => {
    const { say } = await started();
    say({ kind: 'openFile', path: '/x' });
    expect(theWindow().webContents.sent).toEqual([[EVENT_CHANNEL, { kind: 'openFile', path: '/x' }]]);
  });
});

describe('the native menu', () => {
  const state = (disabled: readonly CommandId[], on: readonly CommandId[]): MenuState => ({ disabled, on });
  const ALL = Object.keys(COMMANDS) as CommandId[];

  /** A program whose window has said how its commands stand. */
  async function standing(said: MenuState) {
    const given = await started({ replies: { menuState: said } });
    await given.call(PAGE, 'menuState', said);
    const menu = given.given.menus[0];
    if (!menu) throw new RangeError('there is no menu');
    return { ...given, menu };
  }

  it('does nothing until the window says what it can do', async () => {
    const { given } = await started();
    expect(given.menus[0]?.those('enabled')).toEqual([]);
  });

  it('greys out what cannot be done, and nothing else', async () => {
    const { menu } = await standing(state(['edit.undo', 'press.make'], []));
    expect(menu.those('enabled')).toEqual(inMenu().filter((id) => id !== 'edit.undo' && id !== 'press.make'));
  });

  it('marks what holds: the desk, the light, what lies over the pages', async () => {
    const { menu } = await standing(state([], ['view.proof', 'view.dark', 'proof.grid']));
    expect([...menu.those('checked')].sort()).toEqual(['proof.grid', 'view.dark', 'view.proof']);
  });

  it('marks only commands that are made for it, by the kind of mark that Electron has', async () => {
    const { menu } = await standing(state([], ALL));
    expect([...menu.those('checked')].sort()).toEqual(ALL.filter((id) => 'mark' in COMMANDS[id]).sort());
    const items = menu.template.flatMap(({ submenu }) => (Array.isArray(submenu) ? submenu : []));
    const typeOf = (id: CommandId) => items.find((each) => each.id === id)?.type;
    expect([typeOf('view.proof'), typeOf('proof.grid'), typeOf('edit.undo')]).toEqual(['radio', 'checkbox', 'normal']);
  });

  it('tells the window what was chosen, and leaves the mark to it', async () => {
    const { menu } = await standing(state(['book.save'], ['proof.grid']));
    menu.choose('proof.grid');
    menu.choose('book.save');
    expect(theWindow().webContents.sent).toEqual([[EVENT_CHANNEL, { kind: 'command', command: 'proof.grid' }]]);
    expect(menu.those('checked')).toEqual(['proof.grid']);
  });

  it('is greyed out again when the window is gone, and stays so for a refused message', async () => {
    const { menu } = await standing(state([], ['view.dark']));
    theWindow().webContents.emit('render-process-gone');
    theWindow().close();
    expect([menu.those('enabled'), menu.those('checked')]).toEqual([[], []]);
    const refused = await started({ replies: { menuState: { ok: false, problem: 'The window asked for too much.' } } });
    await refused.call(PAGE, 'menuState', {});
    expect(refused.given.menus[0]?.those('enabled')).toEqual([]);
  });

  /** All commands, in the order of the menu. */
  function inMenu(): readonly CommandId[] {
    return MENU.flatMap(({ items }) => items.flatMap((item) => (item.kind === 'command' ? [item.command] : [])));
  }
});
