import { sha256 as digest } from '@noble/hashes/sha2.js';
import { zlibSync } from 'fflate';

/** Stands for `render/native.ts` in the page's build, where there is no Node: the same functions as scripts. */
export const sha256 = (bytes: Uint8Array): Uint8Array => digest(bytes);

export const deflate = (bytes: Uint8Array): Uint8Array => zlibSync(bytes, { level: 3 });
