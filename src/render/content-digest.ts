import { sha256 } from './native.ts';

const [lineEnd, space] = [10, 32];

/**
 * A short digest of a page's content stream before compression, kept in `soapstone.json`: a file in which any number on
 * any page was changed no longer matches its own record. Line ends count as spaces, so that the operators alone shape it.
 * 64 bits of SHA-256 in hexadecimal.
 */
export const digestContent = (content: Uint8Array): string => {
  const even = content.slice();
  for (let i = even.indexOf(lineEnd); i >= 0; i = even.indexOf(lineEnd, i + 1)) even[i] = space;
  const first = [...sha256(even).subarray(0, 8)];
  return first.map((byte) => byte.toString(16).padStart(2, '0')).join('');
};
