/** The window's own address. Everything that the window loads is below it, and nothing else is trusted. */

/** The program's own scheme: the window is never loaded from `file:`. */
export const SCHEME = 'reglet';

/** The one host of the scheme. */
export const HOST = 'window';

export const WINDOW_ADDRESS = `${SCHEME}://${HOST}/index.html`;

/** Whether an address is one of the window's own. */
export function isOurs(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { protocol, host, username } = new URL(address);
  return protocol === `${SCHEME}:` && host === HOST && username === '';
}
