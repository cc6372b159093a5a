/** Which link targets are kept: web and mail addresses and places in the text itself; never a script or a local file. */

const KEPT = /^(https?:\/\/|mailto:|tel:|ftp:\/\/)[^\s]/i;

/** The target as an address to keep, or null if it leads nowhere that a reader of the book could go. */
export function safeHref(target: string): string | null {
  const href = target.trim();
  if (/^#./.test(href)) return href;
  if (/^www\.[^\s]+$/i.test(href)) return `http://${href}`;
  return KEPT.test(href) ? href.replaceAll(' ', '%20') : null;
}
