/* global TextEncoder, TextDecoder */
/**
 * Stands in the page for what packages and the reader of PDF files take from Node: inflating, and names of files, which
 * nothing in the page asks for.
 */
import { unzlibSync } from 'fflate';

/** What the reader of PDF files wants of Node's own bytes: text by Latin-1, one character a byte, and UTF-8. */
export class Buffer extends Uint8Array {
  static from(source, encoding) {
    if (typeof source !== 'string') return new Buffer(source, ...[...arguments].slice(1));
    if (encoding !== 'latin1') return new Buffer(new TextEncoder().encode(source));
    const bytes = new Buffer(source.length);
    for (let i = 0; i < source.length; i += 1) bytes[i] = source.charCodeAt(i);
    return bytes;
  }

  toString(encoding) {
    if (encoding !== 'latin1') return new TextDecoder().decode(this);
    const parts = [];
    for (let i = 0; i < this.length; i += 8192)
      parts.push(String.fromCharCode(...Uint8Array.prototype.slice.call(this, i, i + 8192)));
    return parts.join('');
  }
}

export const inflateSync = (bytes) => Buffer.from(unzlibSync(bytes));

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
