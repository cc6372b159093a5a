/** What catalogues, title page and copyright page say of the book. In: metadata; out: a change for each field as it is typed. */
import { useEffect } from 'react';
import { useBook, useWorkbench } from '../../state/index.ts';
import { Drawer, TextInput, texts } from '../../ui/index.ts';
import { Contributors } from './contributors.tsx';
import { copyrightLine, type FieldName, linesOf, readField } from './fields.ts';
import { useSetMetadata } from './useSetMetadata.ts';
import { useTyped } from './useTyped.ts';

const words = texts.press.book;

export function DetailsDrawer({ onClose }: { readonly onClose: () => void }) {
  const { metadata } = useBook();
  const { books } = useWorkbench();
  useEffect(() => () => books.seal(), [books]);
  return (
    <Drawer title={words.title} onClose={onClose}>
      <div className="details">
        <Field name="title" label={words.bookTitle} isText />
        <Field name="subtitle" label={words.subtitle} isText />
        <Contributors />
        <Field name="language" label={words.language} help={words.languageHelp} />
        <SeriesFields />
        <Field name="publisher" label={words.publisher} help={words.publisherHelp} isText />
        <div className="edition-pair">
          <Field name="place" label={words.place} isText />
          <Field name="year" label={words.year} />
        </div>
        <Field name="rightsHolder" label={words.rights} help={words.rightsHelp} isText />
        <p className="details-line" lang={metadata.language}>
          {words.line(copyrightLine(metadata))}
        </p>
        <Field name="description" label={words.description} help={words.descriptionHelp} rows isText />
        <Field name="subjects" label={words.subjects} help={words.subjectsHelp} rows isText />
        <p className="quiet">{words.isbns}</p>
        <div className="field">
          <span className="field-label">{words.identifier}</span>
          <code className="details-identifier">{metadata.identifier}</code>
          <span className="field-help">{words.identifierHelp}</span>
        </div>
      </div>
    </Drawer>
  );
}

interface FieldProps {
  readonly name: FieldName;
  readonly label: string;
  readonly help?: string;
  readonly rows?: boolean;
  /** Whether it is text of the book, in the book's language. */
  readonly isText?: boolean;
}

function Field({ name, label, help, rows = false, isText = false }: FieldProps) {
  const { metadata } = useBook();
  const set = useSetMetadata();
  const shown = linesOf(metadata, name);
  const [typed, type] = useTyped(shown);
  const reading = readField(name, typed);
  return (
    <TextInput
      label={label}
      value={typed}
      help={help}
      problem={reading.ok ? null : reading.problem}
      rows={rows}
      {...(isText ? { lang: metadata.language } : {})}
      onChange={(text) => {
        type(text);
        const next = readField(name, text);
        if (next.ok) set(next.value, name);
      }}
    />
  );
}

function SeriesFields() {
  const { metadata } = useBook();
  const set = useSetMetadata();
  const [name, typeName] = useTyped(metadata.series?.name ?? '');
  const [number, typeNumber] = useTyped(metadata.series?.number ?? '');
  const isNumber = (text: string): boolean => /^(\d+(\.\d+)*)?$/.test(text.trim());
  const change = (nextName: string, nextNumber: string): void => {
    if (!isNumber(nextNumber)) return;
    const series = nextName.trim() === '' ? null : { name: nextName.trim(), number: nextNumber.trim() || null };
    set({ series }, 'series');
  };
  return (
    <div className="edition-pair">
      <TextInput
        label={words.series}
        value={name}
        lang={metadata.language}
        onChange={(text) => {
          typeName(text);
          change(text, number);
        }}
      />
      <TextInput
        label={words.seriesNumber}
        value={number}
        problem={isNumber(number) ? null : words.seriesProblem}
        onChange={(text) => {
          typeNumber(text);
          change(name, text);
        }}
      />
    </div>
  );
}
