/** What differs from the design that a design began as. In: settings; out: their base, and the settings that are others. */
import { builtInDesigns, type DesignSettings } from '#design';
import { SETTING_PATHS } from './fields.ts';
import { type SettingPath, sameSetting, settingAt } from './paths.ts';

/** The built-in design that settings began as. */
export function baseOf({ base }: Pick<DesignSettings, 'base'>): DesignSettings {
  return builtInDesigns.find((each) => each.id === base) ?? builtInDesigns[0];
}

export function differsAt(settings: DesignSettings, path: SettingPath): boolean {
  // A mark of the author's own stands where the drawn ornament stood.
  if (path === 'sceneBreak.ornament' && settings.sceneBreak.own !== null) return true;
  return !sameSetting(settingAt(settings, path), settingAt(baseOf(settings), path));
}

/** The settings that differ, in the order of the table. */
export function differences(settings: DesignSettings): readonly SettingPath[] {
  return SETTING_PATHS.filter((path) => differsAt(settings, path));
}
