/**
 * Settings by name. In: a design and a path such as `opener.sink`; out: what stands there, or the same design with something
 * else there. The look of a line of display type counts as one setting.
 */
import type { DesignSettings, DisplaySetting } from '#design';

type Leaf = string | number | boolean | null | readonly string[];

export type SettingValue = Leaf | DisplaySetting;

type Joined<Name extends string, Rest extends string> = Rest extends '' ? Name : `${Name}.${Rest}`;

type PathsIn<Part> = Part extends SettingValue
  ? ''
  : Part extends readonly [unknown, unknown, unknown]
    ? '0' | '1' | '2'
    : { [Name in keyof Part & string]: Joined<Name, PathsIn<Part[Name]>> }[keyof Part & string];

/** What is no setting, or belongs to one: the mark between scenes is one thing whatever it is made of. */
type NoSetting = 'id' | 'name' | 'base' | `sceneBreak.own${string}` | `sceneBreak.shown${string}`;

/** Every setting of a design, by its path: whoever lists them by this type can't forget one. */
export type SettingPath = Exclude<Extract<PathsIn<DesignSettings>, string>, NoSetting>;

type Branch = { readonly [name: string]: unknown };

/** What a design sets at a path. */
export function settingAt(settings: DesignSettings, path: SettingPath): SettingValue {
  let part: unknown = settings;
  for (const name of path.split('.')) part = (part as Branch)[name];
  if (part === undefined) throw new RangeError(`a design has no setting ${path}`);
  return part as SettingValue;
}

/** The design with another value at a path, all else shared. */
export function withSetting(settings: DesignSettings, path: SettingPath, value: SettingValue): DesignSettings {
  const changed = put(settings, path.split('.'), value) as DesignSettings;
  // A drawn ornament takes the place of a mark of the author's own.
  return path === 'sceneBreak.ornament' ? { ...changed, sceneBreak: { ...changed.sceneBreak, own: null } } : changed;
}

function put(part: unknown, [name, ...rest]: readonly string[], value: SettingValue): unknown {
  if (name === undefined) return value;
  if (Array.isArray(part)) return part.map((each, at) => (String(at) === name ? put(each, rest, value) : each));
  const branch = part as Branch;
  return { ...branch, [name]: put(branch[name], rest, value) };
}

/** Whether two settings say the same. */
export function sameSetting(one: SettingValue, other: SettingValue): boolean {
  return one === other || JSON.stringify(one) === JSON.stringify(other);
}
