/** The books' text faces for the interface. In: the faces that travel with the program; out: the same, known to the page. */
import type { BundledFace } from '#host';

/** Makes faces known by their family names; each is loaded when it is first shown. */
export function addBookFaces(faces: readonly BundledFace[], page: Document): void {
  for (const { family, weight, italic, fallback, file } of faces) {
    if (fallback) continue;
    const face = new FontFace(family, `url("fonts/${encodeURIComponent(file)}")`, {
      weight: String(weight),
      style: italic ? 'italic' : 'normal',
      display: 'swap',
    });
    page.fonts.add(face);
  }
}
