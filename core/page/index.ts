export { needBleed, runsOver } from './bleed.ts';
export { type OpenRun, PACKED, PageBuilder, type RunStart } from './builder.ts';
export { pageMark } from './mark.ts';
export type {
  Folio,
  GlyphRun,
  ImageItem,
  LinkItem,
  Page,
  PageItem,
  PathItem,
  RuleItem,
  Side,
} from './page.ts';
