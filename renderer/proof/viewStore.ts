/** How the proofs are looked at. In: what the person chooses; out: one state for spread, leaf strip and ebook screen. */
import type { PageIndex } from '#base';
import type { ProofLook } from '#host';
import { Store } from '../state/index.ts';
import { type Facing, LARGEST_ZOOM, SMALLEST_ZOOM, type Zoom } from './spreads.ts';

/** What may be drawn over the pages. */
export const OVERLAYS = ['trim', 'margins', 'grid', 'changed'] as const satisfies ProofLook['overlays'];
export type Overlay = (typeof OVERLAYS)[number];

/** Sizes of screens in CSS pixels; no maker's device. */
export const SCREENS = {
  phone: { width: 375, height: 667 },
  reader: { width: 540, height: 720 },
  tablet: { width: 768, height: 1024 },
} as const;
export type ScreenName = keyof typeof SCREENS;

/** Margins at the sides of a screen, as a share of its width. */
export const SCREEN_MARGINS = { narrow: 0.04, usual: 0.08, wide: 0.14 } as const;
export type ScreenMargin = keyof typeof SCREEN_MARGINS;

export const TONES = ['day', 'sepia', 'night'] as const;
export type Tone = (typeof TONES)[number];

/** Text sizes of a reading system, in per cent. */
export const TEXT_SIZES: readonly number[] = [75, 90, 100, 115, 130, 150, 175, 200];

export interface EbookLookState {
  readonly screen: ScreenName;
  readonly textSize: number;
  readonly margin: ScreenMargin;
  readonly tone: Tone;
}

export interface ViewState {
  /** The page that the spread was opened for. */
  readonly page: PageIndex;
  readonly facing: Facing;
  readonly zoom: Zoom;
  readonly overlays: ReadonlySet<Overlay>;
  /** Whether print and ebook stand at the same words. */
  readonly together: boolean;
  readonly ebook: EbookLookState;
}

export class ViewStore extends Store<ViewState> {
  constructor({ overlays, ...look }: ProofLook) {
    super({ ...look, overlays: new Set(overlays), page: 0 });
  }

  /** How the proofs are looked at, as it is remembered between runs. */
  get looks(): ProofLook {
    const { zoom, facing, overlays, together, ebook } = this.get();
    return { zoom, facing, overlays: OVERLAYS.filter((each) => overlays.has(each)), together, ebook };
  }

  showPage(page: PageIndex): void {
    if (page !== this.get().page) this.set({ page });
  }

  look(some: Partial<Pick<ViewState, 'facing' | 'zoom' | 'together'>>): void {
    this.set(some);
  }

  /** A size in per cent, within what can be shown. */
  zoomTo(percent: number): void {
    this.set({ zoom: Math.min(LARGEST_ZOOM, Math.max(SMALLEST_ZOOM, Math.round(percent * 10) / 10)) });
  }

  toggleOverlay(overlay: Overlay): void {
    const overlays = new Set(this.get().overlays);
    if (!overlays.delete(overlay)) overlays.add(overlay);
    this.set({ overlays });
  }

  lookAtEbook(some: Partial<EbookLookState>): void {
    this.set({ ebook: { ...this.get().ebook, ...some } });
  }

  /** Another book: where the one before stood is of no use to it. */
  begin(): void {
    this.set({ page: 0 });
  }

  private set(some: Partial<ViewState>): void {
    this.become({ ...this.get(), ...some });
  }
}
