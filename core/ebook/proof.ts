/**
 * One section as the ebook will hold it, for a proof that follows typing: the very XHTML and CSS of the ebook, without the
 * rest of it. In: a view, its design and a section; out: the document with what it refers to, by paths inside the ebook.
 */
import type { AssetId, SectionId } from '#base';
import type { EditionView } from '#book';
import type { EbookDesign } from '#design';
import { type BookContext, TEXT_FOLDER } from './context.ts';
import { type FontFaceRule, styleSheet } from './css.ts';
import { isRightToLeft } from './links.ts';
import { ornamentSvg, picturePath, sidesOf } from './looks.ts';
import { contextOf, ornamentsIn } from './make.ts';
import { navDocument } from './navigation.ts';
import { navigationOf } from './outline.ts';
import { type Plan, type PlannedFile, planFiles } from './plan.ts';
import { titleOf, writeTextFile } from './text.ts';
import type { PageStart } from './types.ts';

export interface SectionProofRequest {
  readonly view: EditionView;
  readonly design: EbookDesign;
  readonly section: SectionId;
  readonly pageStarts: readonly PageStart[];
  /** Where whoever shows the proof has the faces: `path` as the style sheet shall name it. */
  readonly fonts: readonly FontFaceRule[];
}

export interface SectionProof {
  readonly section: SectionId;
  readonly title: string;
  readonly xhtml: string;
  readonly css: string;
  /** By the `src` that the document has for them. */
  readonly pictures: readonly { readonly src: string; readonly asset: AssetId }[];
  /** SVG files by the address that the style sheet has for them. */
  readonly ornaments: readonly { readonly href: string; readonly svg: string }[];
  /** The picture between scenes, by the address that the style sheet has for it; null where none is shown. */
  readonly mark: { readonly href: string; readonly asset: AssetId } | null;
}

/** The section's document; null where the edition has no such section or its ebook leaves it out. */
export function proofSection(request: SectionProofRequest): SectionProof | null {
  const { view, design, section } = request;
  const plan = planFiles(view);
  const file = plan.files.find((each) => each.kind !== 'notes' && each.section.id === section);
  if (!file) return null;
  const book = contextOf(request, plan);
  const title = titleOf(file, book);
  const xhtml = documentOf(file, title, { plan, book });
  const css = styleSheet(design, request.fonts, sidesOf(isRightToLeft(book.language)));
  return {
    section,
    title,
    xhtml,
    css,
    pictures: book.pictures.used.map(({ path, asset }) => ({ src: `../${path}`, asset: asset.id })),
    ornaments: [...ornamentsIn(css, design)].map(([href, ornament]) => ({ href, svg: ornamentSvg(ornament) })),
    mark: markOf(design),
  };
}

function markOf({ sceneBreak: { shown } }: EbookDesign): SectionProof['mark'] {
  return shown.kind === 'picture' ? { href: picturePath(shown), asset: shown.asset } : null;
}

interface Writing {
  readonly plan: Plan;
  readonly book: BookContext;
}

function documentOf(file: PlannedFile, title: string, { plan, book }: Writing): string {
  if (file.kind !== 'contents') return writeTextFile(file, { plan, book, title }).xhtml;
  const cover = { id: 'cover', path: `${TEXT_FOLDER}/cover.xhtml`, xhtml: '' };
  return navDocument(navigationOf({ plan, book, text: [], cover }));
}
