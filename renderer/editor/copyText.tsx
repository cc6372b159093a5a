/** The text of the section in view, as one writes it, with its margin and the bar for finding. */

import type { Command } from 'prosemirror-state';
import { useEffect, useMemo, useRef, useState } from 'react';
import type { SectionId } from '#base';
import { type Book, fieldValues } from '#book';
import { designOf } from '#design';
import { COMMANDS } from '#host';
import {
  nameOfRow,
  type SectionRow,
  takesFocus,
  useBookState,
  usePlace,
  useSettings,
  useSteadyOutline,
  useWorkbench,
} from '../state/index.ts';
import { type Deeds, useDeeds, useTools } from '../ui/index.ts';
import { editor as texts } from '../ui/texts/editor.en.ts';
import type { FigureOpening } from './dialogs/figureDialog.tsx';
import { pictureOf } from './dialogs/pictures.ts';
import { type TextDialogName, TextDialogs } from './dialogs/textDialogs.tsx';
import { FindBar } from './find/findBar.tsx';
import { expectKeys } from './keysAhead.ts';
import { Margin } from './margin/margin.tsx';
import { type DroppedPicture, onPictureDrop } from './pictureDrops.ts';
import { SectionEditor } from './sectionEditor.ts';
import { Signal } from './signal.ts';
import { TEXT_COMMANDS } from './text/commands.ts';
import { notesOf } from './text/section.ts';
import type { ViewParts } from './text/views.ts';
import './editor.css';

export function CopyText() {
  const section = usePlace((place) => place.section);
  const exists = useBookState(({ book }) => book.text.children.some((each) => each.attrs['id'] === section));
  const session = useBookState((state) => state.session);
  if (section === null || !exists) return <div className="copy-room" />;
  return <SectionText key={`${session} ${section}`} section={section} />;
}

interface DialogState extends FigureOpening {
  readonly name: TextDialogName;
}

function SectionText({ section }: { readonly section: SectionId }) {
  const workbench = useWorkbench();
  const { commands, problem } = useTools();
  const settings = useSettings();
  const rows = useSteadyOutline();
  const at = rows.findIndex((row) => row.id === section);
  const mount = useRef<HTMLDivElement>(null);
  const sheet = useRef<HTMLDivElement>(null);
  const [editor, setEditor] = useState<SectionEditor | null>(null);
  const [dialog, setDialog] = useState<DialogState | null>(null);
  const moved = useRef(new Signal()).current;
  const [note, setNote] = useState<string | null>(null);
  const finding = usePlace((place) => place.open.has('find'));
  const name = rows[at] ? nameOfRow(rows[at]) : '';

  // biome-ignore lint/correctness/useExhaustiveDependencies: the editor lives as long as the section is in view; what else changes reaches it by its stores
  useEffect(() => {
    if (!mount.current || !sheet.current) return undefined;
    const { books, place } = workbench;
    const made = new SectionEditor(mount.current, section, {
      workbench,
      views: viewParts(workbench, {
        editFigure: (figure) => setDialog({ name: 'figure', figure }),
        openNote: setNote,
      }),
      limited: (editions) => texts.limited(namesOf(books.current.book, editions)),
      label: texts.label(name),
      spellCheck: settings.spellCheck,
      problem,
      commandFor: (event) => commands.forKeys(event),
      runCommand: (command) => void commands.run(command),
      moved: () => moved.tell(),
      now: () => performance.now(),
    });
    setEditor(made);
    const drop = async ({ file, figure, at }: DroppedPicture): Promise<void> => {
      const picture = await pictureOf(file.name, new Uint8Array(await file.arrayBuffer()));
      if (picture.ok) setDialog({ name: 'figure', figure, picture: picture.value, ...(at === null ? {} : { at }) });
      else problem(picture.problem);
    };
    const endings = [
      books.onChange((_book, _change, origin) => made.follow(origin)),
      followAsked(workbench, made),
      expectKeys(made.view.dom),
      onPictureDrop(sheet.current, made.view, (dropped) => void drop(dropped)),
    ];
    const { anchor } = place.get();
    if (anchor) made.show(anchor, takesFocus(place.get()));
    return () => {
      for (const end of endings) end();
      setEditor(null);
      made.dispose();
    };
  }, [workbench, section, moved]);

  useEffect(() => {
    editor?.view.setProps({
      attributes: {
        'aria-label': texts.label(name),
        'aria-multiline': 'true',
        role: 'textbox',
        lang: workbench.books.current.book.metadata.language,
        spellcheck: String(settings.spellCheck),
        class: 'copy',
      },
    });
  }, [editor, name, settings.spellCheck, workbench]);

  useDeeds(commands, editor ? textDeeds(editor, setDialog, setNote, workbench) : {});
  const face = useBookFace();
  return (
    <div className="copy-room">
      {finding && <FindBar editor={editor} section={section} />}
      <div className="copy-scroll">
        <div className="copy-columns" style={face}>
          <div className="copy-sheet" ref={sheet}>
            <Neighbour row={rows[at - 1]} words={texts.previous} />
            <div ref={mount} data-testid="copy" />
            <Neighbour row={rows[at + 1]} words={texts.next} />
          </div>
          {editor && <Margin editor={editor} moved={moved} note={note} onNote={setNote} />}
        </div>
      </div>
      {editor && dialog && (
        <TextDialogs editor={editor} name={dialog.name} opening={dialog} onClose={() => setDialog(null)} />
      )}
    </div>
  );
}

/** The section before or after, a step away. */
function Neighbour({ row, words }: { readonly row: SectionRow | undefined; readonly words: (name: string) => string }) {
  const { place } = useWorkbench();
  if (!row) return null;
  return (
    <button type="button" className="copy-neighbour" onClick={() => place.goToSection(row.id, 'copy')}>
      {words(nameOfRow(row))}
    </button>
  );
}

/** The book's own face and paragraphing, at a size for reading. */
function useBookFace(): Record<string, string> {
  const { books } = useWorkbench();
  const designs = useBookState(({ book }) => book.designs);
  const editions = useBookState(({ book }) => book.editions);
  const edition = usePlace((place) => place.printEdition);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the face hangs on designs and editions, not on the text that is being typed
  return useMemo(() => {
    const { book } = books.current;
    const chosen = book.editions.find((each) => each.id === edition) ?? book.editions[0];
    if (!chosen) return {};
    const settings = designOf(book, chosen);
    return { '--copy-face': `"${settings.text.family}"`, '--copy-indent': `${settings.text.indent}em` };
  }, [designs, editions, edition, books]);
}

function namesOf(book: Book, editions: readonly string[]): string {
  return editions.map((id) => book.editions.find((each) => each.id === id)?.name ?? id).join(', ');
}

/** Shows in the text what was asked for elsewhere: a click on a proof, a finding, a row of the running order. */
function followAsked({ place }: ReturnType<typeof useWorkbench>, editor: SectionEditor): () => void {
  let { asked } = place.get();
  return place.subscribe(() => {
    const now = place.get();
    if (now.asked === asked) return;
    asked = now.asked;
    if (now.section === editor.sectionId && now.anchor) editor.show(now.anchor, takesFocus(now));
  });
}

function viewParts(
  workbench: ReturnType<typeof useWorkbench>,
  open: Pick<ViewParts, 'editFigure' | 'openNote'>,
): ViewParts {
  const { books, place } = workbench;
  return {
    field: (name) => {
      const { book } = books.current;
      const edition = book.editions.find((each) => each.id === place.get().printEdition) ?? book.editions[0];
      return edition ? fieldValues(book.metadata, edition)[name] : '';
    },
    picture: (asset) => `asset/${books.current.session}/${asset}`,
    words: {
      note: texts.note,
      sceneBreak: texts.sceneBreak,
      verse: COMMANDS['text.verse'].text,
      epigraph: COMMANDS['text.epigraph'].text,
      forms: {
        letter: COMMANDS['text.letter'].text,
        telegram: COMMANDS['text.telegram'].text,
        message: COMMANDS['text.message'].text,
        sign: COMMANDS['text.sign'].text,
        document: COMMANDS['text.document'].text,
      },
      noAlt: texts.noAlt,
      decorative: texts.decorative,
      field: texts.field,
    },
    ...open,
  };
}

function textDeeds(
  editor: SectionEditor,
  open: (dialog: DialogState) => void,
  openNote: (id: string) => void,
  { place }: ReturnType<typeof useWorkbench>,
): Deeds {
  // What is being written may be a note in the margin: the command is for its text then.
  const deed = (command: Command) => ({
    run: () => {
      const { view } = editor.active;
      command(view.state, (transaction) => view.dispatch(transaction), view);
      view.focus();
    },
    enabled: () => command(editor.active.view.state, undefined, editor.active.view),
  });
  const deeds = Object.fromEntries(Object.entries(TEXT_COMMANDS).map(([id, command]) => [id, deed(command)])) as Deeds;
  const dialog = (name: TextDialogName) => () => open({ name, figure: null });
  return {
    ...deeds,
    'text.note': {
      run: () => {
        const before = new Set(notesOf(editor.view.state.doc).map((each) => each.id));
        if (TEXT_COMMANDS['text.note']) editor.run(TEXT_COMMANDS['text.note']);
        const fresh = notesOf(editor.view.state.doc).find((each) => !before.has(each.id));
        if (fresh) openNote(fresh.id);
      },
      enabled: () => TEXT_COMMANDS['text.note'] !== undefined && editor.can(TEXT_COMMANDS['text.note']),
    },
    'text.figure': dialog('figure'),
    'text.link': { run: dialog('link'), enabled: () => !editor.view.state.selection.empty },
    'text.language': { run: dialog('language'), enabled: () => !editor.view.state.selection.empty },
    'text.field': dialog('field'),
    'text.editions': dialog('editions'),
    'edit.find': () => {
      place.toggle('findInBook', false);
      place.toggle('find', true);
    },
    'edit.findInBook': () => {
      place.toggle('findInBook', true);
      place.toggle('find', true);
    },
  };
}
