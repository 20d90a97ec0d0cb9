import { unzlibSync } from 'fflate';

/**
 * Stands in the page's build for what packages and the reader of PDF files take from Node: inflating, and names of files,
 * which nothing in the page asks for.
 */
export const inflateSync = (bytes: Uint8Array): Uint8Array => unzlibSync(bytes);

const refuse = (): never => {
  throw new Error('there are no files in a browser');
};
export const readFileSync = refuse;
export const createRequire = refuse;
/** Some packages work out their own place when they are loaded, and never use it. */
const nowhere = (): string => '';
export const join = nowhere;
export const dirname = nowhere;
export const fileURLToPath = nowhere;
