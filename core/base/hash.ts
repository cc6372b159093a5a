/** Content hashes. In: bytes; out: lower-case hexadecimal. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { AssetId } from './ids.ts';

/** The id of an asset: SHA-256 of its bytes. */
export function assetIdOf(bytes: Uint8Array): AssetId {
  return sha256Hex(bytes);
}

/** SHA-256 (FIPS 180-4) as 64 hexadecimal digits. */
export function sha256Hex(bytes: Uint8Array): string {
  return bytesToHex(sha256(bytes));
}
