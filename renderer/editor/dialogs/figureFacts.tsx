/** A picture as it will be printed: what it looks like, how many pixels it has, and whether they are enough. */
import type { AssetRecord } from '#book';
import { type FigureWish, figureSize } from '#design';
import { effectivePpi, LEAST_PPI, WANTED_PPI } from '#preflight';
import { useStore, useWorkbench } from '../../state/index.ts';
import { Icon } from '../../ui/index.ts';
import { editor as texts } from '../../ui/texts/editor.en.ts';
import { PicturePreview, type PictureSource } from './picturePreview.tsx';

const words = texts.figure;

export type PictureFacts = Pick<AssetRecord, 'name' | 'pixels'>;

export interface FigureFactsProps {
  readonly picture: PictureFacts;
  readonly source: PictureSource;
  readonly wish: FigureWish;
}

export function FigureFacts({ picture, source, wish }: FigureFactsProps) {
  const { layout } = useWorkbench();
  const frame = useStore(layout, (state) => state.frame);
  const { name, pixels } = picture;
  const ppi = pixels && frame ? effectivePpi(figureSize(pixels, wish, frame), { pixels }) : null;
  return (
    <div className="figure-facts">
      <PicturePreview source={source} />
      <div>
        <p>{name}</p>
        <p className="quiet figures">{pixels ? words.pixels(pixels.width, pixels.height) : words.drawn}</p>
        <div role="status">{ppi !== null && <Resolution ppi={ppi} />}</div>
      </div>
    </div>
  );
}

/** Sums of points are not exact: a picture is not blamed for the last bit. */
const SLACK = 1e-6;

/** Said at once, and not only by the check before press. */
function Resolution({ ppi }: { readonly ppi: number }) {
  const found = Math.floor(ppi + SLACK);
  if (found >= WANTED_PPI) return <p className="quiet">{words.sharp(found)}</p>;
  const severity = found < LEAST_PPI ? 'error' : 'warning';
  return (
    <p className="figure-low" data-severity={severity}>
      <Icon name={severity} /> {severity === 'error' ? words.tooFew(found, LEAST_PPI) : words.few(found, WANTED_PPI)}
    </p>
  );
}
