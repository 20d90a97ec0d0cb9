import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The files a program is made of, in the order of their names. */
const listFiles = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(?:js|ts)$/.test(file))
    .sort()
    .map((file) => join(folder, file));

/**
 * The folder of the running program: built, it is all in one folder, at its top or one below; as sources, this file stands
 * one below the top.
 */
export const programFolder = (): string => {
  const folder = dirname(fileURLToPath(import.meta.url));
  return /[\\/](?:pieces|jobs)$/.test(folder) ? dirname(folder) : folder;
};

let known: string | undefined;

/**
 * Digest of the running program. It stands for how everything is drawn: what another build has made is made again, even
 * where the version was not raised.
 */
export const programDigest = (): string => {
  if (known !== undefined) return known;
  const hash = createHash('sha256');
  for (const file of listFiles(programFolder())) hash.update(readFileSync(file));
  known = hash.digest('hex');
  return known;
};
