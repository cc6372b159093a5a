/**
 * The mark between scenes: one of the drawn ornaments, a character of a font, or a picture of the author's own. In: a design;
 * out: one choice among them, and the size of what is the author's own.
 */
import { type ReactNode, useState } from 'react';
import { Label, Radio, RadioGroup } from 'react-aria-components';
import type { Change } from '#book';
import {
  type DesignSettings,
  ORNAMENT_IDS,
  type Ornament,
  type OrnamentId,
  OWN_MARK_SIZES,
  type OwnMark,
  ornament,
} from '#design';
import { proofRoom } from '../proof/index.ts';
import { useBookState, useWorkbench } from '../state/index.ts';
import { Button, useTools } from '../ui/index.ts';
import { faces as words } from '../ui/texts/faces.en.ts';
import { CharacterDialog } from './characterDialog.tsx';
import type { FieldParts } from './controls.tsx';
import { readDrawing } from './drawing.ts';
import { MarkDrawing } from './markDrawing.tsx';
import { MeasureControl } from './measureControl.tsx';
import { ownPicture } from './ownPicture.ts';
import type { MeasureField } from './settings/fields.ts';
import { useMarks } from './useMarks.ts';
import './faces.css';

export function BreakOrnament({ settings, designing }: FieldParts) {
  const { sceneBreak, text, display } = settings;
  const { own } = sceneBreak;
  const [choosing, setChoosing] = useState(false);
  const put = (mark: OwnMark, key: string, before: readonly Change[] = []): void =>
    designing.adjust((each) => withMark(each, mark), key, before);
  const set = (mark: OwnMark, before: readonly Change[] = []): void => {
    put(mark, 'mark', before);
    designing.seal();
  };
  const choosePicture = useChoosePicture((picture, before) => set(picture, before), own);
  const chooseDrawn = (id: OrnamentId): void => {
    designing.adjust((each) => ({ ...each, sceneBreak: { ...each.sceneBreak, ornament: id, own: null } }), 'mark');
    designing.seal();
  };
  return (
    <div className="mark-field">
      <RadioGroup
        className="field"
        orientation="horizontal"
        value={own ? OWN : sceneBreak.ornament}
        onChange={(value) => {
          if (value !== OWN) chooseDrawn(value as OrnamentId);
        }}
      >
        <Label>{words.mark}</Label>
        <span className="mark-tiles">
          {ORNAMENT_IDS.map((id) => (
            <Tile key={id} value={id} name={ornament(id).name}>
              <MarkDrawing ornament={ornament(id)} />
            </Tile>
          ))}
          {own && <OwnTile own={own} />}
        </span>
      </RadioGroup>
      <p className="field-help">{words.markHelp}</p>
      <div className="mark-actions">
        <Button onPress={() => setChoosing(true)}>{words.character}</Button>
        <Button onPress={() => void choosePicture()}>{words.picture}</Button>
      </div>
      {own && (
        <OwnSize
          own={own}
          leading={text.leading}
          onChange={(mark) => put(mark, 'mark size')}
          onEnd={() => designing.seal()}
        />
      )}
      {choosing && (
        <CharacterDialog
          families={familiesOf(text.family, display.family)}
          onClose={() => setChoosing(false)}
          onChoose={({ family, character }) => {
            setChoosing(false);
            set({ kind: 'glyph', family, character, size: own?.kind === 'glyph' ? own.size : FIRST_SIZE });
          }}
        />
      )}
    </div>
  );
}

const OWN = 'own';
/** What a mark begins at: a character somewhat larger than the text, a picture of two lines. */
const FIRST_SIZE = 1.25;
const FIRST_HEIGHT = 2;

/** Whoever chooses a mark wants to see it, also in a design whose breaks are white. */
function withMark(settings: DesignSettings, own: OwnMark): DesignSettings {
  return { ...settings, sceneBreak: { ...settings.sceneBreak, mark: 'ornament', own } };
}

function familiesOf(...families: readonly string[]): readonly string[] {
  return [...new Set(families)];
}

interface TileProps {
  readonly value: string;
  readonly name: string;
  readonly children: ReactNode;
}

function Tile({ value, name, children }: TileProps) {
  return (
    <Radio value={value} className="mark-tile" aria-label={name}>
      {children}
    </Radio>
  );
}

function OwnTile({ own }: { readonly own: OwnMark }) {
  switch (own.kind) {
    case 'glyph':
      return <CharacterTile own={own} />;
    case 'picture':
      return <PictureTile own={own} />;
    case 'drawing':
      return (
        <Tile value={OWN} name={words.ownDrawing(own.name)}>
          <MarkDrawing ornament={own} />
        </Tile>
      );
  }
}

type Of<Kind extends OwnMark['kind']> = Extract<OwnMark, { readonly kind: Kind }>;

function CharacterTile({ own: { family, character } }: { readonly own: Of<'glyph'> }) {
  const marks = useMarks([family]);
  const drawn: Ornament | undefined = marks?.find(
    (each) => each.family === family && each.character === character,
  )?.ornament;
  return (
    <Tile value={OWN} name={words.ownCharacter(character, family)}>
      {drawn ? <MarkDrawing ornament={drawn} /> : character}
    </Tile>
  );
}

function PictureTile({ own: { asset } }: { readonly own: Of<'picture'> }) {
  const workbench = useWorkbench();
  const name = useBookState(({ book }) => book.assets.get(asset)?.name ?? null);
  const address = proofRoom(workbench).addressOf(asset);
  return (
    <Tile value={OWN} name={name === null ? words.lostPicture : words.ownPicture(name)}>
      {name !== null && address !== null && <img src={address} alt="" />}
    </Tile>
  );
}

const SIZE: MeasureField = { kind: 'measure', unit: 'times', ...OWN_MARK_SIZES.glyph, step: 0.05 };
const HEIGHT: MeasureField = { kind: 'measure', unit: 'lines', ...OWN_MARK_SIZES.picture, step: 0.25 };

interface OwnSizeProps {
  readonly own: OwnMark;
  readonly leading: number;
  readonly onChange: (own: OwnMark) => void;
  readonly onEnd: () => void;
}

function OwnSize({ own, leading, onChange, onEnd }: OwnSizeProps) {
  if (own.kind === 'glyph') {
    const change = (size: number): void => onChange({ ...own, size });
    return <MeasureControl name={words.characterSize} field={SIZE} value={own.size} onChange={change} onEnd={onEnd} />;
  }
  const change = (height: number): void => onChange({ ...own, height });
  if (own.kind === 'drawing') {
    return (
      <>
        <MeasureControl name={words.drawingHeight} field={HEIGHT} value={own.height} onChange={change} onEnd={onEnd} />
        <p className="field-help">{words.drawingHelp}</p>
      </>
    );
  }
  return (
    <>
      <MeasureControl name={words.pictureHeight} field={HEIGHT} value={own.height} onChange={change} onEnd={onEnd} />
      <PictureNotes own={own} leading={leading} />
    </>
  );
}

const POINTS_TO_THE_INCH = 72;

function PictureNotes({ own, leading }: { readonly own: Of<'picture'>; readonly leading: number }) {
  const asset = useBookState(({ book }) => book.assets.get(own.asset));
  if (!asset) return <p className="field-problem">{words.lostPicture}</p>;
  const { pixels } = asset;
  const inches = (own.height * leading) / POINTS_TO_THE_INCH;
  return (
    <p className="field-help">
      {pixels && `${words.pictureSize(pixels.width, pixels.height, inches)} `}
      {words.pictureHelp}
      {own.colour && ` ${words.colour}`}
    </p>
  );
}

/** Asks for a picture; it joins the book in the same step as the design that shows it. */
function useChoosePicture(
  take: (mark: OwnMark, before: readonly Change[]) => void,
  own: OwnMark | null,
): () => Promise<void> {
  const { host } = useWorkbench();
  const { picker, problem } = useTools();
  return async () => {
    const path = await picker.choose('openPicture');
    if (path === null) return;
    const file = await host.readFile({ path });
    if (!file.ok) return problem(file.problem);
    const height = own && own.kind !== 'glyph' ? own.height : FIRST_HEIGHT;
    const { name, bytes } = file.value;
    if (name.toLowerCase().endsWith('.svg')) {
      const drawing = readDrawing(name, documentOf(bytes).documentElement);
      if (drawing.ok) take({ kind: 'drawing', ...drawing.value, height }, []);
      else problem(drawing.problem);
      return;
    }
    const picture = await ownPicture(name, bytes);
    if (!picture.ok) return problem(picture.problem);
    const { record, colour } = picture.value;
    take({ kind: 'picture', asset: record.id, height, colour }, [{ kind: 'putAsset', asset: record }]);
  };
}

/** A drawing's document, which runs nothing and loads nothing; what is no XML has a root that is no drawing. */
function documentOf(bytes: Uint8Array): Document {
  return new DOMParser().parseFromString(new TextDecoder().decode(bytes), 'image/svg+xml');
}
