/** A section's title, kind, number and editions. In: the section; out: one change, made when the dialog is left by its button. */
import { useState } from 'react';
import type { EditionId, SectionId } from '#base';
import { type Change, SECTION_KINDS, type SectionAttributes, type SectionKind } from '#book';
import { useBook } from '../state/index.ts';
import { Button, Chooser, Dialog, TextInput, Tick, texts } from '../ui/index.ts';
import type { OrderDeeds } from './orderDeeds.ts';
import { retitle, typedTitle } from './sections.ts';

const words = texts.order;

export interface SectionDialogProps {
  readonly section: SectionId;
  readonly deeds: OrderDeeds;
  readonly onClose: () => void;
}

export function SectionDialog({ section, deeds, onClose }: SectionDialogProps) {
  const book = useBook();
  const node = book.text.children.find((each) => each.attrs['id'] === section);
  const before = (node?.attrs ?? {}) as Partial<SectionAttributes>;
  const oldTitle = typedTitle(book, section);
  const [title, setTitle] = useState(oldTitle ?? '');
  const [kind, setKind] = useState<SectionKind>(before.kind ?? 'other');
  const [numbered, setNumbered] = useState(before.numbered ?? false);
  const [editions, setEditions] = useState<readonly EditionId[] | null>(before.editions ?? null);
  if (!node) return null;

  const save = (): void => {
    const set = changed(before, { kind, numbered, editions });
    const changes: Change[] = [];
    const titled = oldTitle === null ? null : retitle(book, section, title);
    if (titled) changes.push(titled);
    if (Object.keys(set).length > 0) changes.push({ kind: 'setSection', section, set });
    if (changes.length > 0) deeds.make({ kind: 'group', changes });
    onClose();
  };
  const toggle = (id: EditionId, wanted: boolean): void => {
    const all = book.editions.map((each) => each.id);
    const next = all.filter((each) => (each === id ? wanted : (editions ?? all).includes(each)));
    setEditions(next.length === all.length ? null : next);
  };
  return (
    <Dialog
      title={words.editTitle}
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{texts.common.cancel}</Button>
          <Button look="main" onPress={save} isDisabled={editions?.length === 0}>
            {texts.common.done}
          </Button>
        </>
      }
    >
      {oldTitle === null ? (
        <p className="quiet">{words.renameInText}</p>
      ) : (
        <TextInput
          label={words.renameTitle}
          value={title}
          onChange={setTitle}
          help={words.renameHelp}
          lang={book.metadata.language}
          autoFocus
        />
      )}
      <Tick text={words.renameNumbered} selected={numbered} onChange={setNumbered} />
      <Chooser
        label={words.kind}
        value={kind}
        options={SECTION_KINDS.map((value) => ({ value, text: words.kinds[value] }))}
        onChange={setKind}
        help={words.kindLines[kind]}
      />
      <fieldset className="order-editions-choice">
        <legend className="field-label">{words.editions}</legend>
        {book.editions.map((edition) => (
          <Tick
            key={edition.id}
            text={edition.name}
            selected={editions === null || editions.includes(edition.id)}
            onChange={(wanted) => toggle(edition.id, wanted)}
          />
        ))}
      </fieldset>
    </Dialog>
  );
}

type Edited = Pick<SectionAttributes, 'kind' | 'numbered' | 'editions'>;

/** What became another. */
function changed(before: Partial<SectionAttributes>, after: Edited): Partial<SectionAttributes> {
  const names = Object.keys(after) as (keyof Edited)[];
  return Object.fromEntries(
    names
      .filter((name) => JSON.stringify(before[name]) !== JSON.stringify(after[name]))
      .map((name) => [name, after[name]]),
  );
}
