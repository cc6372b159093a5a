/** The names under which window and host meet in Electron; preload and main process share them. */

/** Calls of the window, answered by the host. */
export const CALL_CHANNEL = 'reglet:call';

/** Events that the host sends. */
export const EVENT_CHANNEL = 'reglet:event';

/** What preload puts on the page's `window`. */
export const BRIDGE = 'regletHost';
