import { randomBytes } from 'node:crypto';
import { readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { isOrphan, ownerPattern, ownerTag } from './owner.ts';

const pattern = new RegExp(`^\\.soapstone-(${ownerPattern})-[0-9a-f]{12}\\.part$`);

/** A new name for what is being written; it says by whom, so that it is known when nobody writes it any more. */
export const nameDraft = (): string => `.soapstone-${ownerTag}-${randomBytes(6).toString('hex')}.part`;

/** The tag of the run that writes a draft of this name; undefined where the name is no draft's. */
export const ownerOfDraft = (name: string): string | undefined => pattern.exec(name)?.[1];

const swept = new Set<string>();

/** Removes what runs that were killed have left of what they were writing; each folder once a run. */
export const sweepDrafts = async (folder: string): Promise<void> => {
  if (swept.has(folder)) return;
  swept.add(folder);
  // A folder that cannot be listed may still be written in, and a draft that cannot be removed does no harm.
  const names = await readdir(folder).catch(() => []);
  for (const name of names) {
    const tag = ownerOfDraft(name);
    const path = join(folder, name);
    if (tag !== undefined && (await isOrphan(path, tag)))
      await rm(path, { recursive: true, force: true }).catch(() => undefined);
  }
};
