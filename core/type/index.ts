export type { Embedding, FontFace, FontFamily, FontFile, FontLibrary, Shaped, ShapeSetting } from './face.ts';
