/**
 * Stands in the page for what packages and the reader of PDF files take from Node: inflating, and names of files, which
 * nothing in the page asks for.
 */
import { unzlibSync } from 'fflate';

export const inflateSync = (bytes) => unzlibSync(bytes);

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
