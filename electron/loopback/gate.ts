/**
 * Who may talk to the loopback server. In: the head of a request; out: nothing where it comes from the window, or why it is
 * refused. Any page in any browser of this computer can reach the port, under any name that leads to 127.0.0.1: so the
 * name, the origin and a secret are checked on every request.
 */
import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';

/** A refusal: the status and one sentence. */
export interface Refusal {
  readonly status: number;
  readonly sentence: string;
}

const SECRET_BYTES = 32;

export class Gate {
  /** Lets the window in, once. */
  private token: string | null = secret();
  /** What the window shows from then on. */
  private readonly pass = secret();

  constructor(private readonly port: number) {}

  /** Where the window enters; good for one visit. */
  get entrance(): string {
    if (this.token === null) throw new RangeError('the token was used already');
    return `${this.origin}/enter/${this.token}`;
  }

  get origin(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  /** Checks what holds for every request, with or without a pass. */
  refusesAddress({ method, headers }: { method: string; headers: IncomingHttpHeaders }): Refusal | null {
    // A name that was made to lead here (DNS rebinding) shows in Host.
    if (headers.host !== `127.0.0.1:${this.port}`) return forbidden('This address is not the window’s.');
    const { origin } = headers;
    if (origin !== undefined && origin !== this.origin) return forbidden('The request comes from another page.');
    if (method !== 'GET' && origin === undefined) return forbidden('The request does not say where it comes from.');
    const site = headers['sec-fetch-site'];
    const near = site === undefined || site === 'same-origin' || site === 'none';
    return near ? null : forbidden('The request comes from another page.');
  }

  refusesPass(headers: IncomingHttpHeaders): Refusal | null {
    return isSame(cookieOf(headers, this.cookieName), this.pass)
      ? null
      : forbidden('The address was used already. Start Reglet again.');
  }

  /** Takes the token of the entrance; gives the cookie to set, null where the token is not the one. */
  enter(token: string): string | null {
    if (this.token === null || !isSame(token, this.token)) return null;
    this.token = null;
    return `${this.cookieName}=${this.pass}; HttpOnly; SameSite=Strict; Path=/`;
  }

  /** Cookies know no ports, and two windows may run at once. */
  private get cookieName(): string {
    return `reglet-${this.port}`;
  }
}

function secret(): string {
  return randomBytes(SECRET_BYTES).toString('base64url');
}

function forbidden(sentence: string): Refusal {
  return { status: 403, sentence };
}

function cookieOf({ cookie = '' }: IncomingHttpHeaders, name: string): string {
  for (const pair of cookie.split(';')) {
    const [key, value] = pair.trim().split('=', 2);
    if (key === name) return value ?? '';
  }
  return '';
}

/** Compares in a time that tells nothing. */
function isSame(one: string, other: string): boolean {
  const [first, second] = [Buffer.from(one), Buffer.from(other)];
  return first.length === second.length && timingSafeEqual(first, second);
}
