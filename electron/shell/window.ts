/** The window: how it is made, and how its place is remembered. In: where it last stood; out: options for Electron. */
import type * as Electron from 'electron';

/** Where the window stood: device-independent pixels. */
export interface WindowPlace {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly maximized: boolean;
}

const USUAL = { width: 1280, height: 840 };

/** The smallest window in which every desk is usable. */
const LEAST = { minWidth: 760, minHeight: 520 };

/**
 * Security settings of every window. Most are Electron's defaults today; they are written out so that a changed default
 * cannot open a hole (security checklist of Electron's documentation, items 2 to 4, 6 and 8 to 10).
 */
export function securePreferences(preload: string): Electron.WebPreferences {
  return {
    preload,
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    experimentalFeatures: false,
    webviewTag: false,
    navigateOnDragDrop: false,
    spellcheck: true,
  };
}

export function windowOptions(of: {
  readonly preload: string;
  readonly place: WindowPlace | null;
  readonly dark: boolean;
}): Electron.BrowserWindowConstructorOptions {
  const { place } = of;
  return {
    ...USUAL,
    ...(place ? { x: place.x, y: place.y, width: place.width, height: place.height } : {}),
    ...LEAST,
    title: 'Reglet',
    show: false,
    // The ground of the window's own light and dark looks, so that nothing flashes before the first paint.
    backgroundColor: of.dark ? '#171614' : '#FBFAF7',
    webPreferences: securePreferences(of.preload),
  };
}

/** How much of a window must lie on a screen for its title bar to be within reach. */
const REACH = { width: 120, height: 40 };

/** The place again, if enough of it lies on a screen that is still there; null where the window would be lost. */
export function onScreen(
  place: WindowPlace | null,
  screens: readonly { readonly workArea: Electron.Rectangle }[],
): WindowPlace | null {
  if (!place) return null;
  const reachable = screens.some(({ workArea: area }) => {
    const across = Math.min(place.x + place.width, area.x + area.width) - Math.max(place.x, area.x);
    const top = place.y >= area.y - 1 && place.y + REACH.height <= area.y + area.height;
    return across >= REACH.width && top;
  });
  return reachable ? place : null;
}

/** A place from a file that may hold anything. */
export function readPlace(text: string): WindowPlace | null {
  try {
    const { x, y, width, height, maximized } = JSON.parse(text) as Record<string, unknown>;
    const numbers = [x, y, width, height];
    if (!numbers.every((each) => Number.isInteger(each) && Math.abs(each as number) < 100_000)) return null;
    if ((width as number) < LEAST.minWidth || (height as number) < LEAST.minHeight) return null;
    return { x, y, width, height, maximized: maximized === true } as WindowPlace;
  } catch {
    return null;
  }
}
