/** The books' text faces for the interface. In: the faces that travel with the program; out: the same, known to the page. */
import type { BundledFace } from '#host';
import { type FontStore, installedFaces } from '../state/index.ts';

/** Makes faces known by their family names; each is loaded when it is first shown. */
export function addBookFaces(faces: readonly BundledFace[], page: Document): void {
  for (const { family, weight, italic, fallback, file } of faces) {
    if (fallback) continue;
    addFace({ family, weight, italic, address: `fonts/${encodeURIComponent(file)}` }, page);
  }
}

/** Makes the fonts of this computer known as well, as the window comes to know of them. */
export function keepInstalledFaces(fonts: FontStore, page: Document): void {
  const known = new Set<string>();
  fonts.subscribe(() => {
    for (const face of (fonts.get() ?? []).flatMap(installedFaces)) {
      if (known.has(face.address)) continue;
      known.add(face.address);
      addFace(face, page);
    }
  });
}

interface Face {
  readonly family: string;
  readonly weight: number;
  readonly italic: boolean;
  readonly address: string;
}

function addFace({ family, weight, italic, address }: Face, page: Document): void {
  const face = new FontFace(family, `url("${address}")`, {
    weight: String(weight),
    style: italic ? 'italic' : 'normal',
    display: 'swap',
  });
  page.fonts.add(face);
}
