/**
 * Who is at the other end of a loopback connection. In: a connection; out: whether another person of this computer holds
 * it. The address with its secret stands in the list of processes, which everybody on a shared computer may read; Linux
 * tells whose each connection is (proc(5), /proc/net/tcp), so there nobody else can use what they read.
 */
import { readFileSync } from 'node:fs';
import type { Socket } from 'node:net';

/** IPv4 connections, and those of programs that speak IPv4 through IPv6. */
const TABLES = ['/proc/net/tcp', '/proc/net/tcp6'];

/** 127.0.0.1 as the tables write it, alone or at the end of an IPv6 address. */
const LOOPBACK = '0100007F';

export function isAnotherPersons({ remotePort = 0, localPort = 0 }: Socket): boolean {
  const own = process.getuid?.();
  if (own === undefined || process.platform !== 'linux') return false;
  const users = TABLES.map((table) => userOf(read(table), remotePort, localPort));
  return users.some((user) => user !== null && user !== own);
}

/** The user who holds the end at `near` of the connection to `far`; null where the table does not have it. */
export function userOf(table: string, near: number, far: number): number | null {
  const [nearEnd, farEnd] = [`${LOOPBACK}:${hexadecimal(near)}`, `${LOOPBACK}:${hexadecimal(far)}`];
  for (const line of table.split('\n')) {
    const [, local = '', remote = '', , , , , user = ''] = line.trim().split(/\s+/);
    if (local.endsWith(nearEnd) && remote.endsWith(farEnd) && /^\d+$/.test(user)) return Number(user);
  }
  return null;
}

function hexadecimal(port: number): string {
  return port.toString(16).toUpperCase().padStart(4, '0');
}

/** A table that can't be read tells nothing. */
function read(path: string): string {
  try {
    return readFileSync(path, 'latin1');
  } catch {
    return '';
  }
}
