import { createHash } from 'node:crypto';
import { deflateSync } from 'node:zlib';

/** SHA-256 of bytes. A page in a browser has a function of its own instead. */
export const sha256 = (bytes: Uint8Array): Uint8Array => createHash('sha256').update(bytes).digest();

/** How hard it is tried: half the time of zlib's own choice, for a tenth more bytes. */
const level = 3;

/** Bytes in zlib's format (RFC 1950), as PDF's FlateDecode reads them. */
export const deflate = (bytes: Uint8Array): Uint8Array => deflateSync(bytes, { level });
