/** What the window remembers between runs. In: a file that may be broken or missing; out: settings, each checked. */
import * as v from 'valibot';
import { CALLS, type CallRequest, type Settings, USUAL_SETTINGS } from '#host';
import { JsonFile } from './jsonFile.ts';

export class SettingsFile {
  private constructor(
    private readonly file: JsonFile,
    public current: Settings,
  ) {}

  static async load(appData: string): Promise<SettingsFile> {
    const file = new JsonFile(appData, 'settings.json');
    return new SettingsFile(file, settingsOf(await file.read()));
  }

  /** Takes some settings; panels are added to those that are known. A disk that refuses costs only their memory. */
  set(some: CallRequest<'setSettings'>): Settings {
    const panels = { ...this.current.panels, ...some.panels };
    const given = Object.fromEntries(Object.entries(some).filter(([, value]) => value !== undefined));
    this.current = { ...this.current, ...given, panels };
    this.file.write(this.current).catch(() => undefined);
    return this.current;
  }

  settled(): Promise<void> {
    return this.file.settled();
  }
}

/** Each setting as the file has it if it is one, else as it comes with the program. */
function settingsOf(json: unknown): Settings {
  if (typeof json !== 'object' || json === null) return USUAL_SETTINGS;
  const settings: Record<string, unknown> = { ...USUAL_SETTINGS };
  for (const name of Object.keys(USUAL_SETTINGS)) {
    const value = (json as Record<string, unknown>)[name];
    if (value !== undefined && v.is(CALLS.setSettings, { [name]: value })) settings[name] = value;
  }
  return settings as unknown as Settings;
}
