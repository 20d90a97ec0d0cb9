import { readFileSync } from 'node:fs';
import { tellRefusal } from '../render/file-fault.ts';

/** A file's bytes. Throws a `file` UserError where it cannot be read. */
export const readInput = (file: string): Uint8Array => {
  try {
    return readFileSync(file);
  } catch (error) {
    throw tellRefusal(error, 'read', file);
  }
};
