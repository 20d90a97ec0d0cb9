import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

const [lineEnd, space] = [10, 32];

/**
 * A short digest of a page's content stream before compression, kept in `soapstone.json`: a file in which any number on
 * any page was changed no longer matches its own record. Line ends count as spaces, so that the operators alone shape it.
 * 64 bits of SHA-256 in hexadecimal.
 */
export const digestContent = (pieces: readonly Uint8Array[]): string => {
  const hash = sha256.create();
  for (const piece of pieces) hash.update(piece.map((byte) => (byte === lineEnd ? space : byte)));
  return bytesToHex(hash.digest()).slice(0, 16);
};
