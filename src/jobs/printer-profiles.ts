import { mkdir } from 'node:fs/promises';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import envPaths from 'env-paths';
import { parse, stringify, YAMLError } from 'yaml';
import { fileError, requestError, UserError } from '../issue.ts';
import { findNearMiss } from '../near-miss.ts';
import { type Calibration, formatCalibration, parseCalibration } from '../paging/calibration.ts';
import { paperKey } from '../paging/calibration-bars.ts';
import type { FindCalibration } from '../paging/printer.ts';
import { writeFile } from '../render/write-file.ts';

/** What each printer makes of 100 %: by its name, then by the size of the paper (`paperKey`). */
export type Profiles = ReadonlyMap<string, ReadonlyMap<string, Calibration>>;

/** Names the folder of the profiles where it is not the one the system keeps for settings. */
export const folderVariable = 'SOAPSTONE_CONFIG';

/** The file of the profiles. */
export const profilesFile = (): string => {
  const folder = process.env[folderVariable];
  return join(
    folder === undefined || folder === '' ? envPaths('soapstone', { suffix: '' }).config : folder,
    'printers.yaml',
  );
};

const head = `# What printers make of 100 %, kept by "soapstone calibrate": printer, paper, and what was measured when.\n`;

const damaged = (file: string, why: string): UserError =>
  fileError(
    '',
    'bad-profiles',
    `${file} cannot be used: ${why}`,
    'mend it or remove it, then calibrate the printers again',
  );

const readText = (file: string): string => {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    const { code = 'unknown' } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') return '';
    throw damaged(file, `the system says ${code}`);
  }
};

const toMap = (value: unknown, file: string, what: string): ReadonlyMap<unknown, unknown> => {
  if (value instanceof Map) return value;
  throw damaged(file, `${what} is not a list of names and values`);
};

/** All profiles of this user. Throws a `file` UserError where the file cannot be read or says what no calibration says. */
export const readProfiles = (): Profiles => {
  const file = profilesFile();
  try {
    const found: unknown = parse(readText(file), { mapAsMap: true, maxAliasCount: 0 });
    if (found === null || found === undefined) return new Map();
    return new Map(
      [...toMap(found, file, 'it')].map(([printer, papers]) => [
        String(printer),
        new Map(
          [...toMap(papers, file, `printer "${String(printer)}"`)].map(([paper, text]) => [
            String(paper),
            parseCalibration(String(text), `${String(printer)}, ${String(paper)}`),
          ]),
        ),
      ]),
    );
  } catch (error) {
    if (error instanceof UserError && error.failure === 'file') throw error;
    if (error instanceof UserError || error instanceof YAMLError || error instanceof ReferenceError)
      throw damaged(file, error.message.split('\n')[0] ?? '');
    throw error;
  }
};

const writeProfiles = async (profiles: Profiles): Promise<void> => {
  const file = profilesFile();
  try {
    await mkdir(join(file, '..'), { recursive: true });
  } catch (error) {
    throw fileError(
      '',
      'no-folder',
      `cannot make the folder of ${file}: ${(error as NodeJS.ErrnoException).code ?? String(error)}`,
      `name a folder that can be written in ${folderVariable}`,
    );
  }
  const plain = new Map(
    [...profiles].map(([printer, papers]) => [
      printer,
      new Map([...papers].map(([paper, calibration]) => [paper, formatCalibration(calibration)])),
    ]),
  );
  await writeFile(file, head + stringify(plain));
};

/** A printer's own name for what was asked, small or capital letters alike. */
const findName = (profiles: Profiles, name: string): string | undefined =>
  [...profiles.keys()].find((known) => known.toLowerCase() === name.toLowerCase());

const unknownPrinter = (profiles: Profiles, name: string): UserError => {
  const near = findNearMiss(name, [...profiles.keys()]);
  return requestError(
    'printer',
    'not-calibrated',
    `printer "${name}" is not calibrated on this machine`,
    near === undefined
      ? `print its calibration sheet: soapstone calibrate --printer "${name}"`
      : `did you mean "${near}"?`,
  );
};

const knownPapers = (papers: ReadonlyMap<string, Calibration>): string => [...papers.keys()].join(', ');

/** Looks a printer up in this user's profiles. Throws a `request` UserError where it was not calibrated on that paper. */
export const findCalibration: FindCalibration = (printer, paper) => {
  const profiles = readProfiles();
  const name = findName(profiles, printer);
  const papers = name === undefined ? undefined : profiles.get(name);
  if (papers === undefined) throw unknownPrinter(profiles, printer);
  const found = papers.get(paperKey(paper));
  if (found !== undefined) return found;
  throw requestError(
    'printer',
    'not-calibrated',
    `printer "${printer}" is not calibrated on paper ${paper.name}, only on ${knownPapers(papers)}`,
    `print its calibration sheet: soapstone calibrate --printer "${printer}" --paper ${paper.name}`,
  );
};

/** Keeps a calibration in place of the one before. Returns the printer's name as it is kept. */
export const keepCalibration = async (
  printer: string,
  key: string,
  calibration: Calibration,
): Promise<string> => {
  const profiles = readProfiles();
  const name = findName(profiles, printer) ?? printer;
  const papers = new Map([...(profiles.get(name) ?? []), [key, calibration] as const]);
  await writeProfiles(new Map([...profiles, [name, papers] as const]));
  return name;
};

/** Forgets a printer, or one of its papers. Throws a `request` UserError where there is no such profile. */
export const removeCalibration = async (printer: string, key: string | undefined): Promise<void> => {
  const profiles = new Map(readProfiles());
  const name = findName(profiles, printer);
  const papers = name === undefined ? undefined : profiles.get(name);
  if (name === undefined || papers === undefined) throw unknownPrinter(profiles, printer);
  if (key !== undefined && !papers.has(key))
    throw requestError(
      'paper',
      'not-calibrated',
      `printer "${name}" is not calibrated on paper of ${key}`,
      `it is calibrated on ${knownPapers(papers)}`,
    );
  const rest = new Map([...papers].filter(([known]) => key !== undefined && known !== key));
  if (rest.size > 0) profiles.set(name, rest);
  else profiles.delete(name);
  await writeProfiles(profiles);
};
