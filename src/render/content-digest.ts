import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/**
 * A short digest of a page's content stream before compression, kept in `soapstone.json`: a file in which any number on
 * any page was changed no longer matches its own record. 64 bits of SHA-256 in hexadecimal.
 */
export const digestContent = (pieces: readonly Uint8Array[]): string => {
  const hash = sha256.create();
  for (const piece of pieces) hash.update(piece);
  return bytesToHex(hash.digest()).slice(0, 16);
};
