import { extname } from 'node:path';
import { requestError, UserError, type Issue } from '../issue.ts';
import type { Listing } from './entry.ts';
import { placeIssue } from './place.ts';
import { findCalibration } from './printer-profiles.ts';
import { readCsvList } from './read-csv.ts';
import { readSpreadsheet, readUnicode, resolveBeside } from './read-text.ts';
import { understandListing, type Understood } from './understand.ts';
import { say } from '../words/say.ts';

/** A job file that has been read. */
export interface Job extends Understood {
  readonly file: string;
  /** Every file that was read for it. */
  readonly sources: readonly string[];
}

const readListing = async (file: string): Promise<Listing> => {
  const extension = extname(file).toLowerCase();
  if (extension === '.csv') return readCsvList(await readSpreadsheet(file), file);
  if (extension === '.yaml' || extension === '.yml')
    return (await import('./read-yaml.ts')).readYaml(await readUnicode(file), file);
  throw requestError(
    '',
    'unknown-job',
    say`${file} is neither a job file nor a cut list`,
    say`job files end in .yaml, cut lists in .csv`,
  );
};

const readList = async (
  file: string,
  { list }: Listing,
  issues: Issue[],
): Promise<{ readonly path: string; readonly listing: Listing } | undefined> => {
  if (list === undefined) return undefined;
  try {
    const path = await resolveBeside(file, list.text);
    if (!/\.csv$/i.test(path))
      throw requestError(
        'list',
        'no-list',
        say`"${list.text}" is not a cut list`,
        say`name a file that ends in .csv`,
      );
    return { path, listing: await readListing(path) };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    issues.push(...error.issues.map((issue) => placeIssue(issue, list.place)));
    return undefined;
  }
};

/**
 * Reads a job file (`.yaml`) or a cut list (`.csv`) and all its pieces. Faults of its text are collected with their places;
 * a file that cannot be read at all throws a `file` UserError.
 */
export const readJob = async (file: string): Promise<Job> => {
  const listing = await readListing(file);
  const told: Issue[] = [];
  const list = await readList(file, listing, told);
  return {
    file,
    sources: [file, ...(list === undefined ? [] : [list.path])],
    ...understandListing(file, listing, list?.listing, findCalibration, told),
  };
};
