import { readFileSync } from 'node:fs';
import { rmdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import type { Part } from './bind.ts';
import type { DoneList } from './done-list.ts';
import { digestRequest } from './make.ts';
import type { Work } from './plan.ts';

const folderName = '.soapstone-parts';

/** The part's file, by name in the output folder. */
export const partFile = (work: Work): string => `${folderName}/${digestRequest(work, 'part')}.json.gz`;

/** A piece's pages again; numbers come back exactly as they were. */
export const loadPart = (folder: string, work: Work): Part =>
  JSON.parse(gunzipSync(readFileSync(join(folder, partFile(work)))).toString('utf8')) as Part;

/** Removes the parts of a book that is written. */
export const removeParts = async (folder: string, list: DoneList, works: readonly Work[]): Promise<void> => {
  for (const work of works) {
    const file = partFile(work);
    await rm(join(folder, file), { force: true });
    list.drop(file);
  }
  // The parts of another book may still be there.
  await rmdir(join(folder, folderName)).catch((error: unknown) => {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code !== 'ENOTEMPTY' && code !== 'ENOENT' && code !== 'EEXIST') throw error;
  });
};
