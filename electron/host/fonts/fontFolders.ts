/** Where fonts are installed. In: the platform and its environment; out: folders, the person's own first. */
import { homedir } from 'node:os';
import { join } from 'node:path';

export function fontFolders(platform: NodeJS.Platform, environment: NodeJS.ProcessEnv): readonly string[] {
  const home = homedir();
  if (platform === 'darwin') return [join(home, 'Library/Fonts'), '/Library/Fonts', '/System/Library/Fonts'];
  if (platform === 'win32') {
    const local = environment['LOCALAPPDATA'] ?? join(home, 'AppData/Local');
    return [join(local, 'Microsoft/Windows/Fonts'), join(environment['WINDIR'] ?? 'C:/Windows', 'Fonts')];
  }
  // The fonts folders of the XDG Base Directory Specification and of fontconfig's usual settings.
  const data = environment['XDG_DATA_HOME'] ?? join(home, '.local/share');
  return [join(data, 'fonts'), join(home, '.fonts'), '/usr/local/share/fonts', '/usr/share/fonts'];
}
