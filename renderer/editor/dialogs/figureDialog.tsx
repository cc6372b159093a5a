/**
 * A picture in the text: chosen or dropped, described for those who can't see it, placed and sized; another in its stead. In:
 * the editor; out: a figure in the book.
 */
import { useState } from 'react';
import { type Outcome, success } from '#base';
import type { AssetRecord } from '#book';
import type { FigureWish } from '#design';
import { useWorkbench, type Workbench } from '../../state/index.ts';
import { texts as all, Button, ChoiceRow, Chooser, Dialog, TextInput, Tick, useTools } from '../../ui/index.ts';
import { editor as texts } from '../../ui/texts/editor.en.ts';
import { blockAt } from '../text/places.ts';
import { FigureFacts } from './figureFacts.tsx';
import { type FigureAttrs, putFigure, setFigure } from './figures.ts';
import { pictureOf } from './pictures.ts';
import type { TextDialogProps } from './props.ts';

const words = texts.figure;

const WIDTHS = { natural: null, half: 0.5, most: 0.75, full: 1 } as const;
type Width = keyof typeof WIDTHS;

const PLACES = { text: null, page: 'page', bleed: 'bleed' } as const;
type Place = keyof typeof PLACES;

/** What the dialog is opened for. */
export interface FigureOpening {
  /** The figure that is looked at, or null for a new one. */
  readonly figure: string | null;
  /** A picture that was dropped, if one was. */
  readonly picture?: AssetRecord;
  /** Where a new one goes; at the cursor where nothing is said. */
  readonly at?: number;
}

interface Wished {
  readonly alt: string;
  readonly decorative: boolean;
  readonly place: Place;
  readonly width: Width;
  readonly caption: boolean;
}

export function FigureDialog({ editor, opening, onClose }: TextDialogProps & { readonly opening: FigureOpening }) {
  const workbench = useWorkbench();
  const { problem } = useTools();
  const known = opening.figure === null ? null : (blockAt(editor.view.state.doc, opening.figure)?.node ?? null);
  const [picture, setPicture] = useState<AssetRecord | null>(opening.picture ?? null);
  const [wished, setWished] = useState<Wished>(() => wishedOf(known?.attrs ?? {}, (known?.childCount ?? 0) > 0));
  const [tried, setTried] = useState(false);
  const wish = (some: Partial<Wished>): void => setWished({ ...wished, ...some });
  const described = wished.decorative || wished.alt.trim() !== '';
  const asset = picture?.id ?? (known ? String(known.attrs['asset']) : null);

  const take = async (): Promise<void> => {
    if (!described || asset === null) {
      setTried(true);
      return;
    }
    const kept = await keepPicture(workbench, picture);
    if (!kept.ok) {
      problem(kept.problem);
      return;
    }
    const attrs = attrsOf(wished, asset);
    const way = { caption: wished.caption, merge: kept.value };
    if (opening.figure !== null) setFigure(editor, opening.figure, attrs, way);
    else putFigure(editor, attrs, { ...way, at: opening.at ?? null });
    onClose();
    requestAnimationFrame(() => editor.view.focus());
  };
  return (
    <Dialog
      title={words.title}
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>{all.common.cancel}</Button>
          <Button look="main" onPress={() => void take()}>
            {known ? all.common.done : words.add}
          </Button>
        </>
      }
    >
      <Picture picture={picture} asset={asset} wished={wished} onChange={setPicture} />
      {tried && asset === null && <p className="field-problem">{words.needsPicture}</p>}
      <Wishes wished={wished} wish={wish} missing={tried && !described} />
    </Dialog>
  );
}

interface PictureProps {
  readonly picture: AssetRecord | null;
  /** The picture of the figure: the one that was chosen, else the one that it has. */
  readonly asset: string | null;
  readonly wished: Wished;
  readonly onChange: (picture: AssetRecord) => void;
}

/** The picture with what will become of it in print, and another in its stead. */
function Picture({ picture, asset, wished, onChange }: PictureProps) {
  const { books, host } = useWorkbench();
  const { picker, problem } = useTools();
  const choose = async (): Promise<void> => {
    const path = await picker.choose('openPicture', null);
    if (path === null) return;
    const file = await host.readFile({ path });
    const made = file.ok ? await pictureOf(file.value.name, file.value.bytes) : file;
    if (made.ok) onChange(made.value);
    else problem(made.problem);
  };
  const { book, session } = books.current;
  const shown = picture ?? (asset === null ? undefined : book.assets.get(asset));
  return (
    <>
      {shown && (
        <FigureFacts
          picture={shown}
          source={picture ?? { address: `asset/${session}/${asset}` }}
          wish={figureWish(wished)}
        />
      )}
      <div className="figure-choice">
        <Button icon="folder" onPress={() => void choose()}>
          {shown ? words.replace : all.frame.files.openPicture}
        </Button>
      </div>
    </>
  );
}

interface WishesProps {
  readonly wished: Wished;
  readonly wish: (some: Partial<Wished>) => void;
  /** Whether it was to be taken without a description. */
  readonly missing: boolean;
}

function Wishes({ wished, wish, missing }: WishesProps) {
  const { alt, decorative, place, width, caption } = wished;
  return (
    <>
      <TextInput
        label={words.alt}
        value={decorative ? '' : alt}
        onChange={(next) => wish({ alt: next })}
        help={words.altHelp}
        problem={missing ? words.needsAlt : null}
        rows
      />
      <Tick text={words.decorative} selected={decorative} onChange={(next) => wish({ decorative: next })} />
      <ChoiceRow<Place>
        label={words.place}
        value={place}
        options={(Object.keys(PLACES) as Place[]).map((value) => ({ value, text: words.places[value] }))}
        onChange={(next) => wish({ place: next })}
      />
      <p className="field-help">{words.placeHelp[place]}</p>
      {place === 'text' && (
        <Chooser<Width>
          label={words.width}
          value={width}
          options={(Object.keys(WIDTHS) as Width[]).map((value) => ({ value, text: words.widths[value] }))}
          onChange={(next) => wish({ width: next })}
        />
      )}
      <Tick text={words.caption} selected={caption} onChange={(next) => wish({ caption: next })} />
    </>
  );
}

function wishedOf(attrs: Readonly<Record<string, unknown>>, caption: boolean): Wished {
  return {
    alt: String(attrs['alt'] ?? ''),
    decorative: attrs['decorative'] === true,
    place: nameIn(PLACES, attrs['place']) ?? 'text',
    width: nameIn(WIDTHS, attrs['width']) ?? 'natural',
    caption,
  };
}

function nameIn<Name extends string>(table: Readonly<Record<Name, unknown>>, value: unknown): Name | undefined {
  return (Object.keys(table) as Name[]).find((name) => table[name] === value);
}

function figureWish({ place, width }: Wished): FigureWish {
  return { place: PLACES[place], width: WIDTHS[width] };
}

function attrsOf(wished: Wished, asset: string): FigureAttrs {
  const { alt, decorative } = wished;
  return { asset, alt: decorative ? '' : alt.trim(), decorative, ...figureWish(wished) };
}

/**
 * Puts a picture into the book that it does not have yet, and waits until it can be shown from there. Out: the word under
 * which that is undone, null where the book had it.
 */
async function keepPicture({ books }: Workbench, picture: AssetRecord | null): Promise<Outcome<string | null>> {
  if (!picture || books.current.book.assets.has(picture.id)) return success(null);
  const merge = `figure ${picture.id}`;
  const put = books.apply({ kind: 'putAsset', asset: picture }, { origin: 'figure', merge });
  if (!put.ok) return put;
  await books.settled();
  return success(merge);
}
