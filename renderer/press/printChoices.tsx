/** What a print edition may choose: trim, paper, page count, large print. In: the choice that holds; out: another. */
import { useState } from 'react';
import type { Points, Size } from '#base';
import type { Fit, PrintEdition } from '#book';
import { LARGE_PRINT, paperOf, papers, trimOf, trims } from '#design';
import { Chooser, TextInput, Tick, texts } from '../ui/index.ts';
import { pageLength } from './lengths.ts';
import { inchesText, millimetresText } from './sizes.ts';

const words = texts.press.edition;

/** Whether what is typed is not right yet. */
type OnWrong = (isWrong: boolean) => void;

const OWN = 'own';

export interface TrimChoiceProps {
  readonly trim: Size;
  readonly onChange: (trim: Size) => void;
  readonly onWrong: OnWrong;
}

export function TrimChoice({ trim, onChange, onWrong }: TrimChoiceProps) {
  const named = trimOf(trim)?.id;
  const [isOwn, setOwn] = useState(named === undefined);
  const [width, setWidth] = useState(inchesText(trim.width, 3));
  const [height, setHeight] = useState(inchesText(trim.height, 3));
  const choose = (id: string): void => {
    setOwn(id === OWN);
    onWrong(false);
    const size = trims.find((each) => each.id === id);
    if (size) onChange({ width: size.width, height: size.height });
  };
  const type = (typedWidth: string, typedHeight: string): void => {
    setWidth(typedWidth);
    setHeight(typedHeight);
    const size = { width: pageLength(typedWidth), height: pageLength(typedHeight) };
    onWrong(size.width === null || size.height === null);
    if (size.width !== null && size.height !== null) onChange({ width: size.width, height: size.height });
  };
  const options = [
    ...trims.map((each) => ({ value: each.id, text: sizeText(each.name, each) })),
    { value: OWN, text: words.ownTrim },
  ];
  return (
    <>
      <Chooser label={words.trim} value={isOwn ? OWN : (named ?? OWN)} options={options} onChange={choose} />
      {isOwn && (
        <div className="edition-pair">
          <TextInput
            label={words.width}
            value={width}
            onChange={(typed) => type(typed, height)}
            help={words.trimHelp}
            problem={pageLength(width) === null ? words.trimProblem : null}
          />
          <TextInput
            label={words.height}
            value={height}
            onChange={(typed) => type(width, typed)}
            help={words.trimHelp}
            problem={pageLength(height) === null ? words.trimProblem : null}
          />
        </div>
      )}
    </>
  );
}

function sizeText(name: string, { width, height }: Size): string {
  return `${name}, ${inchesText(width)} × ${inchesText(height)} in (${millimetresText(width)} × ${millimetresText(height)} mm)`;
}

export interface PaperChoiceProps {
  readonly edition: PrintEdition;
  readonly onChange: (paper: string) => void;
}

export function PaperChoice({ edition, onChange }: PaperChoiceProps) {
  return (
    <Chooser
      label={words.paper}
      value={paperOf(edition).id}
      options={papers.map(({ id, name }) => ({ value: id, text: name }))}
      onChange={onChange}
    />
  );
}

type FitName = keyof typeof words.fits;

export interface FitChoiceProps {
  readonly fit: Fit | null;
  readonly onChange: (fit: Fit | null) => void;
  readonly onWrong: OnWrong;
}

/** Pages that a new wish begins with. */
const FIRST_WISH = 240;

export function FitChoice({ fit, onChange, onWrong }: FitChoiceProps) {
  const [name, setName] = useState<FitName>(nameOfFit(fit));
  const [pages, setPages] = useState(String(fit?.kind === 'pages' ? fit.pages : FIRST_WISH));
  const choose = (next: FitName, typed: string): void => {
    setName(next);
    setPages(typed);
    const wish = fitOf(next, typed);
    onWrong(wish === undefined);
    if (wish !== undefined) onChange(wish);
  };
  const options = (Object.keys(words.fits) as FitName[]).map((value) => ({ value, text: words.fits[value] }));
  return (
    <>
      <Chooser label={words.fit} value={name} options={options} onChange={(next) => choose(next, pages)} />
      {name === 'pages' && (
        <TextInput
          label={words.fitPages}
          value={pages}
          onChange={(typed) => choose('pages', typed)}
          problem={fitOf('pages', pages) === undefined ? words.fitProblem : null}
        />
      )}
    </>
  );
}

function nameOfFit(fit: Fit | null): FitName {
  if (fit === null) return 'free';
  if (fit.kind === 'multiple') return fit.of === 8 ? 'multiple8' : 'multiple16';
  return fit.kind;
}

/** The wish of a name; undefined for a number of pages that can't be. */
export function fitOf(name: FitName, typed: string): Fit | null | undefined {
  switch (name) {
    case 'free':
      return null;
    case 'fewest':
      return { kind: 'fewest' };
    case 'multiple8':
      return { kind: 'multiple', of: 8 };
    case 'multiple16':
      return { kind: 'multiple', of: 16 };
    case 'pages': {
      const pages = Number(typed);
      const possible = /^\d+$/.test(typed.trim()) && pages >= 2 && pages <= 10_000 && pages % 2 === 0;
      return possible ? { kind: 'pages', pages } : undefined;
    }
  }
}

export interface LargePrintChoiceProps {
  readonly size: Points | null;
  readonly onChange: (size: Points | null) => void;
  readonly onWrong: OnWrong;
}

export function LargePrintChoice({ size, onChange, onWrong }: LargePrintChoiceProps) {
  const [typed, setTyped] = useState(String(size ?? LARGE_PRINT.least));
  const [isLarge, setLarge] = useState(size !== null);
  const choose = (large: boolean, text: string): void => {
    setLarge(large);
    setTyped(text);
    const points = Number(text.replace(',', '.'));
    const possible = points >= LARGE_PRINT.least && points <= LARGE_PRINT.most;
    onWrong(large && !possible);
    if (!large) onChange(null);
    else if (possible) onChange(points);
  };
  const points = Number(typed.replace(',', '.'));
  const isWrong = !(points >= LARGE_PRINT.least && points <= LARGE_PRINT.most);
  return (
    <>
      <Tick text={words.largePrint} selected={isLarge} onChange={(large) => choose(large, typed)} />
      {isLarge && (
        <TextInput
          label={words.largeSize}
          value={typed}
          onChange={(text) => choose(true, text)}
          problem={isWrong ? words.largeProblem : null}
        />
      )}
    </>
  );
}
