/** Light, dark, contrast and text size. In: settings and what the system asks for; out: attributes of the page's root. */
import type { Settings } from '#host';
import type { SettingsStore } from '../state/index.ts';

/** What the system asks for. */
export interface SystemWishes {
  readonly dark: boolean;
  readonly moreContrast: boolean;
}

export function shadeOf({ appearance }: Pick<Settings, 'appearance'>, { dark }: SystemWishes): 'light' | 'dark' {
  if (appearance === 'system') return dark ? 'dark' : 'light';
  return appearance;
}

export function contrastOf({ contrast }: Pick<Settings, 'contrast'>, { moreContrast }: SystemWishes): 'more' | 'usual' {
  if (contrast === 'system') return moreContrast ? 'more' : 'usual';
  return contrast;
}

/** Keeps the page as settings and system ask, from now on. */
export function keepAppearance(settings: SettingsStore, page: Window): void {
  const dark = page.matchMedia('(prefers-color-scheme: dark)');
  const more = page.matchMedia('(prefers-contrast: more)');
  const root = page.document.documentElement;
  const apply = (): void => {
    const wishes = { dark: dark.matches, moreContrast: more.matches };
    const now = settings.get();
    root.dataset['shade'] = shadeOf(now, wishes);
    root.dataset['contrast'] = contrastOf(now, wishes);
    root.style.setProperty('--text-zoom', String(now.textZoom / 100));
  };
  settings.subscribe(apply);
  dark.addEventListener('change', apply);
  more.addEventListener('change', apply);
  apply();
}
