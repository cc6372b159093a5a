/** The small dialogs of the text: link, language, field, editions; the picture has a file of its own. */
import { useState } from 'react';
import { FIELD_NAMES, type FieldName, schema } from '#book';
import { useBook } from '../../state/index.ts';
import { texts as all, Button, Chooser, Dialog, TextInput, Tick } from '../../ui/index.ts';
import { editor as texts } from '../../ui/texts/editor.en.ts';
import { insertInline } from '../text/commands.ts';
import { FigureDialog, type FigureOpening } from './figureDialog.tsx';
import { limitBlocks, limitsOf, markRange } from './marking.ts';
import type { TextDialogProps } from './props.ts';

export type TextDialogName = 'figure' | 'link' | 'language' | 'field' | 'editions';

export function TextDialogs({
  name,
  opening,
  ...rest
}: TextDialogProps & { readonly name: TextDialogName; readonly opening: FigureOpening }) {
  switch (name) {
    case 'figure':
      return <FigureDialog {...rest} opening={opening} />;
    case 'link':
      return <LinkDialog {...rest} />;
    case 'language':
      return <LanguageDialog {...rest} />;
    case 'field':
      return <FieldDialog {...rest} />;
    case 'editions':
      return <EditionsDialog {...rest} />;
  }
}

/** Ends a dialog and goes back to the text. */
function leave({ editor, onClose }: TextDialogProps): void {
  onClose();
  requestAnimationFrame(() => editor.view.focus());
}

const ADDRESS = /^(https?:\/\/|mailto:)\S+$/i;

function LinkDialog(props: TextDialogProps) {
  const { editor } = props;
  const [address, setAddress] = useState(() =>
    String(markRange(editor.view.state, 'link')?.attrs['href'] ?? 'https://'),
  );
  const [tried, setTried] = useState(false);
  const good = ADDRESS.test(address);
  const set = (href: string | null): void => {
    editor.run((state, dispatch) => {
      const { from, to } = state.selection;
      const tr = state.tr.removeMark(from, to, schema.marks.link);
      dispatch?.(href === null ? tr : tr.addMark(from, to, schema.marks.link.create({ href })));
      return true;
    });
    leave(props);
  };
  return (
    <Dialog
      title={texts.link.title}
      onClose={() => leave(props)}
      actions={
        <>
          <Button onPress={() => set(null)}>{texts.link.drop}</Button>
          <Button look="main" onPress={() => (good ? set(address) : setTried(true))}>
            {texts.link.take}
          </Button>
        </>
      }
    >
      <TextInput
        label={texts.link.address}
        value={address}
        onChange={setAddress}
        problem={tried && !good ? texts.link.bad : null}
        autoFocus
      />
    </Dialog>
  );
}

/** BCP 47, as far as a book needs it: a language, and what narrows it. */
const LANGUAGE_TAG = /^[a-z]{2,3}(-[a-z0-9]{2,8})*$/i;

function LanguageDialog(props: TextDialogProps) {
  const { editor } = props;
  const [tag, setTag] = useState(() => String(markRange(editor.view.state, 'language')?.attrs['tag'] ?? ''));
  const [tried, setTried] = useState(false);
  const good = LANGUAGE_TAG.test(tag);
  const set = (wanted: string | null): void => {
    editor.run((state, dispatch) => {
      const { from, to } = state.selection;
      const tr = state.tr.removeMark(from, to, schema.marks.language);
      dispatch?.(wanted === null ? tr : tr.addMark(from, to, schema.marks.language.create({ tag: wanted })));
      return true;
    });
    leave(props);
  };
  return (
    <Dialog
      title={texts.language.title}
      onClose={() => leave(props)}
      actions={
        <>
          <Button onPress={() => set(null)}>{texts.language.drop}</Button>
          <Button look="main" onPress={() => (good ? set(tag) : setTried(true))}>
            {texts.language.take}
          </Button>
        </>
      }
    >
      <TextInput
        label={texts.language.tag}
        value={tag}
        onChange={setTag}
        help={texts.language.help}
        problem={tried && !good ? texts.language.bad : null}
        autoFocus
      />
    </Dialog>
  );
}

function FieldDialog(props: TextDialogProps) {
  const [name, setName] = useState<FieldName>('title');
  const take = (): void => {
    props.editor.run(insertInline(schema.nodes.field.create({ name })));
    leave(props);
  };
  return (
    <Dialog
      title={texts.fieldDialog.title}
      onClose={() => leave(props)}
      actions={
        <Button look="main" onPress={take}>
          {texts.fieldDialog.take}
        </Button>
      }
    >
      <Chooser<FieldName>
        label={texts.fieldDialog.which}
        value={name}
        options={FIELD_NAMES.map((value) => ({ value, text: texts.fields[value] ?? value }))}
        onChange={setName}
        help={texts.fieldDialog.help}
      />
    </Dialog>
  );
}

function EditionsDialog(props: TextDialogProps) {
  const book = useBook();
  const every = book.editions.map((each) => each.id);
  const [chosen, setChosen] = useState<readonly string[]>(() => limitsOf(props.editor.view.state) ?? every);
  const take = (): void => {
    const limit = every.every((id) => chosen.includes(id)) ? null : every.filter((id) => chosen.includes(id));
    props.editor.run(limitBlocks(limit));
    leave(props);
  };
  return (
    <Dialog
      title={texts.editions.title}
      onClose={() => leave(props)}
      actions={
        <>
          <Button onPress={() => leave(props)}>{all.common.cancel}</Button>
          <Button look="main" onPress={take} isDisabled={chosen.length === 0}>
            {texts.editions.take}
          </Button>
        </>
      }
    >
      <p>{texts.editions.text}</p>
      {book.editions.map(({ id, name }) => (
        <Tick
          key={id}
          text={name}
          selected={chosen.includes(id)}
          onChange={(on) => setChosen(on ? [...chosen, id] : chosen.filter((each) => each !== id))}
        />
      ))}
      {chosen.length === 0 && <p className="field-problem">{texts.editions.none}</p>}
    </Dialog>
  );
}
