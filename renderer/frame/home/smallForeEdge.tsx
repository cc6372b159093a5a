/** A book's fore-edge as a small picture. In: the thickness of each section; out: a block of bands, as tall as the book is thick. */

/** Units of the drawing. */
const WIDTH = 18;
const HEIGHT = 52;
/** Pages of a book whose picture is as tall as it may be; thinner ones are lower. */
const THICK = 500;
const THIN = 28;

export function SmallForeEdge({ pages }: { readonly pages: readonly number[] }) {
  const total = pages.reduce((sum, each) => sum + each, 0);
  const height = Math.max(THIN, Math.min(HEIGHT, (total / THICK) * HEIGHT));
  const top = HEIGHT - height;
  const bands = bandsOf(pages, height);
  return (
    <svg className="small-fore-edge" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      <rect className="sheet" x="0.5" y={top} width={WIDTH - 1} height={height} />
      {bands.map(({ from, thick, tone }) => (
        <rect key={from} className={tone} x="0.5" y={top + from} width={WIDTH - 1} height={thick} />
      ))}
      <rect className="outline" x="0.5" y={top} width={WIDTH - 1} height={height - 0.5} />
    </svg>
  );
}

/** Bands of some height in turn of two papers; sections without pages have none. */
function bandsOf(pages: readonly number[], height: number) {
  const total = pages.reduce((sum, each) => sum + each, 0);
  let from = 0;
  return pages
    .filter((each) => each > 0)
    .map((each, index) => {
      const band = { from, thick: (each / total) * height, tone: index % 2 === 0 ? 'one' : 'two' };
      from += band.thick;
      return band;
    });
}
