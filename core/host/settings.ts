/** What the window remembers between runs, and what holds where nothing was chosen. */

/** How the proofs are looked at. */
export interface ProofLook {
  /** Per cent of the printed size; the whole spread; or as wide as there is room. */
  readonly zoom: number | 'fit' | 'width';
  readonly facing: 'facing' | 'single';
  /** What is drawn over the pages. */
  readonly overlays: readonly ('trim' | 'margins' | 'grid' | 'changed')[];
  /** Whether print and ebook stand at the same words. */
  readonly together: boolean;
  readonly ebook: {
    readonly screen: 'phone' | 'reader' | 'tablet';
    /** Per cent. */
    readonly textSize: number;
    readonly margin: 'narrow' | 'usual' | 'wide';
    readonly tone: 'day' | 'sepia' | 'night';
  };
}

/** What the window remembers between runs. */
export interface Settings {
  readonly appearance: 'system' | 'light' | 'dark';
  readonly contrast: 'system' | 'more' | 'usual';
  /** Per cent, 80 to 200. */
  readonly textZoom: number;
  readonly spellCheck: boolean;
  /** Sizes and folds of panels, by the panel's name. */
  readonly panels: Readonly<Record<string, number | boolean>>;
  /** Where exports went last. */
  readonly exportFolder: string | null;
  readonly proof: ProofLook;
}

/** The settings that come with the program. */
export const USUAL_SETTINGS: Settings = {
  appearance: 'system',
  contrast: 'system',
  textZoom: 100,
  spellCheck: true,
  panels: {},
  exportFolder: null,
  proof: {
    zoom: 'fit',
    facing: 'facing',
    overlays: [],
    together: true,
    ebook: { screen: 'reader', textSize: 100, margin: 'usual', tone: 'day' },
  },
};
