/** Settings of an edition. In: the edition; out: one change when they are taken, none where anything is not right. */
import { useState } from 'react';
import type { EbookEdition, Edition, PrintEdition } from '#book';
import { useBook, useWorkbench } from '../state/index.ts';
import { Button, Chooser, Dialog, TextInput, texts, useTools } from '../ui/index.ts';
import { CoverChoice } from './coverChoice.tsx';
import { designOptions } from './designs.ts';
import { putEdition, withoutEmpty } from './editions.ts';
import { readIsbn } from './isbnInput.ts';
import { FitChoice, LargePrintChoice, PaperChoice, TrimChoice } from './printChoices.tsx';

const words = texts.press.edition;

export interface EditionDialogProps {
  readonly edition: Edition;
  readonly onClose: () => void;
}

export function EditionDialog({ edition, onClose }: EditionDialogProps) {
  const book = useBook();
  const { books } = useWorkbench();
  const { problem } = useTools();
  const [draft, setDraft] = useState<Edition>(edition);
  const [isbn, setIsbn] = useState(edition.isbn ?? '');
  // Parts that hold something that is not right yet, by name.
  const [wrong, setWrong] = useState<ReadonlySet<string>>(new Set());
  const reading = readIsbn(
    isbn,
    book.editions.filter((each) => each.id !== edition.id),
  );
  const mark = (name: string, isWrong: boolean): void => {
    setWrong((before) => new Set([...before].filter((each) => each !== name).concat(isWrong ? [name] : [])));
  };
  const save = (): void => {
    const whole = { ...draft, isbn: reading.isbn };
    const next = whole.kind === 'print' ? withoutEmpty(whole) : whole;
    if (JSON.stringify(next) !== JSON.stringify(edition)) {
      const outcome = books.apply(putEdition(book, next));
      if (!outcome.ok) problem(outcome.problem);
    }
    onClose();
  };
  const ready = wrong.size === 0 && reading.problem === null && draft.name.trim() !== '';
  return (
    <Dialog
      title={words.title(edition.name)}
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{texts.common.cancel}</Button>
          <Button look="main" isDisabled={!ready} onPress={save}>
            {texts.common.done}
          </Button>
        </>
      }
    >
      <TextInput
        label={words.name}
        value={draft.name}
        onChange={(name) => setDraft({ ...draft, name })}
        help={words.nameHelp}
        autoFocus
      />
      <TextInput
        label={words.isbn}
        value={isbn}
        onChange={setIsbn}
        help={reading.help ?? words.isbnHelp}
        problem={reading.problem}
      />
      <Chooser
        label={words.design}
        value={draft.design as string}
        options={designOptions(book)}
        onChange={(design) => setDraft({ ...draft, design })}
      />
      {draft.kind === 'print' ? (
        <PrintChoices edition={draft} onChange={setDraft} onWrong={mark} />
      ) : (
        <EbookChoices edition={draft} onChange={setDraft} />
      )}
    </Dialog>
  );
}

interface PrintChoicesProps {
  readonly edition: PrintEdition;
  readonly onChange: (edition: PrintEdition) => void;
  readonly onWrong: (name: string, isWrong: boolean) => void;
}

function PrintChoices({ edition, onChange, onWrong }: PrintChoicesProps) {
  return (
    <>
      <TrimChoice
        trim={edition.trim}
        onChange={(trim) => onChange({ ...edition, trim })}
        onWrong={(isWrong) => onWrong('trim', isWrong)}
      />
      <PaperChoice edition={edition} onChange={(paper) => onChange({ ...edition, paper })} />
      <Chooser
        label={words.notes}
        value={edition.notes}
        options={(['foot', 'chapter', 'book'] as const).map((value) => ({ value, text: texts.press.notes[value] }))}
        onChange={(notes) => onChange({ ...edition, notes })}
      />
      <FitChoice
        fit={edition.fit ?? null}
        onChange={(fit) => onChange({ ...edition, fit })}
        onWrong={(isWrong) => onWrong('fit', isWrong)}
      />
      <LargePrintChoice
        size={edition.largePrint ?? null}
        onChange={(largePrint) => onChange({ ...edition, largePrint })}
        onWrong={(isWrong) => onWrong('large', isWrong)}
      />
    </>
  );
}

interface EbookChoicesProps {
  readonly edition: EbookEdition;
  readonly onChange: (edition: EbookEdition) => void;
}

function EbookChoices({ edition, onChange }: EbookChoicesProps) {
  return (
    <>
      <Chooser
        label={words.notes}
        value={edition.notes}
        options={(['chapter', 'book'] as const).map((value) => ({ value, text: texts.press.notes[value] }))}
        onChange={(notes) => onChange({ ...edition, notes })}
      />
      <CoverChoice cover={edition.cover} onChange={(cover) => onChange({ ...edition, cover })} />
    </>
  );
}
