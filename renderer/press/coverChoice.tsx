/** The cover of an ebook: made from title and author, or a picture of the author's own. */
import type { AssetId } from '#base';
import { useBook, useWorkbench } from '../state/index.ts';
import { Button, texts, useTools } from '../ui/index.ts';
import { pictureRecord } from './pictures.ts';

const words = texts.press.edition;

export interface CoverChoiceProps {
  readonly cover: AssetId | null;
  readonly onChange: (cover: AssetId | null) => void;
}

export function CoverChoice({ cover, onChange }: CoverChoiceProps) {
  const { assets } = useBook();
  const { books, host } = useWorkbench();
  const { picker, problem } = useTools();
  const choose = async (): Promise<void> => {
    const path = await picker.choose('openPicture');
    if (path === null) return;
    const file = await host.readFile({ path });
    if (!file.ok) return problem(file.problem);
    const record = await pictureRecord(file.value.name, file.value.bytes);
    if (!record.ok) return problem(record.problem);
    const put = books.apply({ kind: 'putAsset', asset: record.value });
    if (put.ok) onChange(record.value.id);
    else problem(put.problem);
  };
  const name = cover === null ? null : (assets.get(cover)?.name ?? null);
  return (
    <div className="field">
      <span className="field-label">{words.cover}</span>
      <p>{name === null ? words.coverMade : words.coverOwn(name)}</p>
      <div className="cover-actions">
        <Button onPress={() => void choose()}>{words.coverChoose}</Button>
        {cover !== null && <Button onPress={() => onChange(null)}>{words.coverDrop}</Button>}
      </div>
    </div>
  );
}
