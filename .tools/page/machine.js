/**
 * Stands in the page for what packages and the reader of PDF files take from Node: bytes, inflating, and names of files, which
 * nothing in the page asks for.
 */
import { Buffer } from 'buffer/';
import { Unzlib } from 'fflate';

export { Buffer };

/** So many packed bytes are unpacked at a time: a small file that unpacks to a huge one is stopped early. */
const piece = 65_536;

export const inflateSync = (bytes, { maxOutputLength = Infinity } = {}) => {
  const parts = [];
  let length = 0;
  const stream = new Unzlib((part) => {
    length += part.length;
    if (length > maxOutputLength)
      throw Object.assign(new RangeError('the stream unpacks to too much'), { code: 'ERR_BUFFER_TOO_LARGE' });
    parts.push(part);
  });
  for (let at = 0; at < bytes.length; at += piece)
    stream.push(Uint8Array.from(bytes.subarray(at, at + piece)), at + piece >= bytes.length);
  return Buffer.concat(parts);
};

const refuse = () => {
  throw new Error('there are no files in a browser');
};
export const readFileSync = refuse;
export const createRequire = refuse;

/** Some packages work out their own place when they are loaded, and never use it. */
const nowhere = () => '';
export const join = nowhere;
export const dirname = nowhere;
export const fileURLToPath = nowhere;
export default { join, dirname };
