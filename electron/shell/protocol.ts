/**
 * The window's own scheme. In: an address that the window asks for; out: one of the files that belong to the window, with
 * the content security policy, or "not found". What may be served is decided by the host's resources, as for loopback.
 */
import type * as Electron from 'electron';
import type { Served } from '../host/resources.ts';
import { isOurs, SCHEME } from './address.ts';

/** What the host gives for a path. */
export type Serve = (path: string) => Promise<Served>;

/** Makes the scheme a secure origin with the rights of a page and no more; before the program is ready. */
export function claimScheme(protocol: Electron.Protocol): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
  ]);
}

export function serveScheme(protocol: Electron.Protocol, serve: Serve): void {
  protocol.handle(SCHEME, async (request) => {
    if (request.method !== 'GET' || !isOurs(request.url)) return new Response(null, { status: 404 });
    // URL has taken out what would lead upwards; the host checks the rest.
    const { status, headers, body } = await serve(new URL(request.url).pathname);
    return new Response(new Uint8Array(body), { status, headers });
  });
}
