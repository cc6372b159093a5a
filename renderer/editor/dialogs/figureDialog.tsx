/** A picture in the text: chosen, described for those who can't see it, sized. In: the editor; out: a figure in the book. */
import { useState } from 'react';
import type { AssetRecord } from '#book';
import { schema } from '#book';
import { useWorkbench } from '../../state/index.ts';
import { texts as all, Button, Chooser, Dialog, TextInput, Tick, useTools } from '../../ui/index.ts';
import { editor as texts } from '../../ui/texts/editor.en.ts';
import { insertBlock } from '../text/commands.ts';
import { blockAt } from '../text/places.ts';
import { pictureOf } from './pictures.ts';
import type { TextDialogProps } from './props.ts';

const words = texts.figure;

const WIDTHS = { natural: null, half: 0.5, most: 0.75, full: 1 } as const;
type Width = keyof typeof WIDTHS;

export function FigureDialog({ editor, figure, onClose }: TextDialogProps & { readonly figure: string | null }) {
  const { books, host } = useWorkbench();
  const { picker, problem } = useTools();
  const known = figure === null ? null : (blockAt(editor.view.state.doc, figure)?.node ?? null);
  const [picture, setPicture] = useState<AssetRecord | null>(null);
  const [alt, setAlt] = useState(String(known?.attrs['alt'] ?? ''));
  const [decorative, setDecorative] = useState(known?.attrs['decorative'] === true);
  const [width, setWidth] = useState<Width>(widthOf(known?.attrs['width']));
  const [caption, setCaption] = useState((known?.childCount ?? 0) > 0);
  const [tried, setTried] = useState(false);
  const described = decorative || alt.trim() !== '';
  const ready = described && (known !== null || picture !== null);

  const choose = async (): Promise<void> => {
    const path = await picker.choose('openPicture', null);
    if (path === null) return;
    const file = await host.readFile({ path });
    const made = file.ok ? await pictureOf(file.value.name, file.value.bytes) : file;
    if (made.ok) setPicture(made.value);
    else problem(made.problem);
  };
  const take = (): void => {
    if (!ready) {
      setTried(true);
      return;
    }
    if (picture && !books.current.book.assets.has(picture.id)) {
      const put = books.apply(
        { kind: 'putAsset', asset: picture },
        { origin: 'figure', merge: `figure ${picture.id}` },
      );
      if (!put.ok) {
        problem(put.problem);
        return;
      }
    }
    const asset = picture?.id ?? String(known?.attrs['asset']);
    const attrs = { asset, alt: decorative ? '' : alt.trim(), decorative, width: WIDTHS[width] };
    if (known && figure !== null) setFigure(editor, figure, attrs, caption);
    else editor.run(insertBlock(schema.nodes.figure.create(attrs, caption ? schema.nodes.caption.create() : null)));
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
          <Button look="main" onPress={take}>
            {known ? all.common.done : words.add}
          </Button>
        </>
      }
    >
      <div className="figure-choice">
        <Button icon="folder" onPress={() => void choose()}>
          {all.frame.files.openPicture}
        </Button>
        <span className="quiet">
          {picture?.name ?? (known ? books.current.book.assets.get(String(known.attrs['asset']))?.name : '')}
        </span>
      </div>
      <TextInput
        label={words.alt}
        value={decorative ? '' : alt}
        onChange={setAlt}
        help={words.altHelp}
        problem={tried && !described ? words.needsAlt : null}
        rows
      />
      <Tick text={words.decorative} selected={decorative} onChange={setDecorative} />
      <Chooser<Width>
        label={words.width}
        value={width}
        options={(Object.keys(WIDTHS) as Width[]).map((value) => ({ value, text: words.widths[value] }))}
        onChange={setWidth}
      />
      <Tick text={words.caption} selected={caption} onChange={setCaption} />
    </Dialog>
  );
}

function widthOf(width: unknown): Width {
  return (Object.keys(WIDTHS) as Width[]).find((name) => WIDTHS[name] === width) ?? 'natural';
}

function setFigure(
  editor: TextDialogProps['editor'],
  id: string,
  attrs: Readonly<Record<string, unknown>>,
  caption: boolean,
): void {
  editor.run((state, dispatch) => {
    const found = blockAt(state.doc, id);
    if (!found) return false;
    const { node, at } = found;
    const tr = state.tr;
    for (const [name, value] of Object.entries(attrs)) tr.setNodeAttribute(at, name, value);
    if (caption && node.childCount === 0) tr.insert(at + 1, schema.nodes.caption.create());
    if (!caption && node.childCount > 0) tr.delete(at + 1, at + node.nodeSize - 1);
    dispatch?.(tr);
    return true;
  });
}
