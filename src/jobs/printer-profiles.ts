import { readFileSync } from 'node:fs';
import { userInfo } from 'node:os';
import { dirname, isAbsolute, join } from 'node:path';
import envPaths from 'env-paths';
import { parse, stringify, YAMLError } from 'yaml';
import { fileError, requestError, UserError } from '../issue.ts';
import { findNearMiss } from '../near-miss.ts';
import { type Calibration, formatCalibration, parseCalibration } from '../paging/calibration.ts';
import { paperKey } from '../paging/calibration-bars.ts';
import type { FindCalibration } from '../paging/printer.ts';
import { codeOf, tellRefusal } from '../render/file-fault.ts';
import { makeFolder, writeFile } from '../render/write-file.ts';
import { withLock } from './lock.ts';
import { quoteWord } from './shell.ts';
import { say } from '../words/say.ts';

/** What each printer makes of 100 %: by its name, then by the size of the paper (`paperKey`). */
export type Profiles = ReadonlyMap<string, ReadonlyMap<string, Calibration>>;

/** Names the folder of the profiles where it is not the one the system keeps for settings. */
export const folderVariable = 'SOAPSTONE_CONFIG';

/**
 * The folder the system keeps settings in. Where the environment names no home, or a folder for settings that is none from the
 * root down (which the XDG Base Directory Specification says to pass over), the user's entry in the system's list counts.
 */
const settingsFolder = (): string => {
  const named = process.env[folderVariable];
  if (named !== undefined && named !== '') return named;
  const found = envPaths('soapstone', { suffix: '' }).config;
  return isAbsolute(found) ? found : join(userInfo().homedir, '.config', 'soapstone');
};

/** The file of the profiles. */
export const profilesFile = (): string => join(settingsFolder(), 'printers.yaml');

const head = `# What printers make of 100 %, kept by "soapstone calibrate": printer, paper, and what was measured when.\n`;

const damaged = (file: string, why: string): UserError =>
  fileError(
    '',
    'bad-profiles',
    say`${file} cannot be used: ${why}`,
    say`fix it or remove it, then calibrate the printers again`,
  );

const readText = (file: string): string => {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return '';
    throw tellRefusal(error, 'read', file);
  }
};

const toMap = (value: unknown, file: string, what: string): ReadonlyMap<unknown, unknown> => {
  if (value instanceof Map) return value;
  throw damaged(file, say`${what} is not a list of names and values`);
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
          [...toMap(papers, file, say`printer "${String(printer)}"`)].map(([paper, text]) => [
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
  const plain = new Map(
    [...profiles].map(([printer, papers]) => [
      printer,
      new Map([...papers].map(([paper, calibration]) => [paper, formatCalibration(calibration)])),
    ]),
  );
  await writeFile(file, head + stringify(plain));
};

/** Changes the profiles while no other program does. */
const changeProfiles = async <Result>(
  change: (profiles: Profiles) => readonly [profiles: Profiles, result: Result],
): Promise<Result> => {
  await makeFolder(dirname(profilesFile()));
  return withLock(`${profilesFile()}.lock`, async () => {
    const [profiles, result] = change(readProfiles());
    await writeProfiles(profiles);
    return result;
  });
};

/** A printer's own name for what was asked, small or capital letters alike. */
const findName = (profiles: Profiles, name: string): string | undefined =>
  [...profiles.keys()].find((known) => known.toLowerCase() === name.toLowerCase());

const unknownPrinter = (profiles: Profiles, name: string): UserError => {
  const near = findNearMiss(name, [...profiles.keys()]);
  return requestError(
    'printer',
    'not-calibrated',
    say`printer "${name}" is not calibrated on this machine`,
    near === undefined
      ? say`print its calibration sheet: soapstone calibrate --printer ${quoteWord(name)}`
      : say`did you mean "${near}"?`,
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
    say`printer "${printer}" is not calibrated on paper ${paper.name}, only on ${knownPapers(papers)}`,
    say`print its calibration sheet: soapstone calibrate --printer ${quoteWord(printer)} --paper ${quoteWord(paper.name)}`,
  );
};

/** Keeps a calibration in place of the one before. Returns the printer's name as it is kept. */
export const keepCalibration = (printer: string, key: string, calibration: Calibration): Promise<string> =>
  changeProfiles((profiles) => {
    const name = findName(profiles, printer) ?? printer;
    const papers = new Map([...(profiles.get(name) ?? []), [key, calibration] as const]);
    return [new Map([...profiles, [name, papers] as const]), name];
  });

/** Forgets a printer, or one of its papers. Throws a `request` UserError where there is no such profile. */
export const removeCalibration = (printer: string, key: string | undefined): Promise<void> =>
  changeProfiles((before) => {
    const profiles = new Map(before);
    const name = findName(profiles, printer);
    const papers = name === undefined ? undefined : profiles.get(name);
    if (name === undefined || papers === undefined) throw unknownPrinter(profiles, printer);
    if (key !== undefined && !papers.has(key))
      throw requestError(
        'paper',
        'not-calibrated',
        say`printer "${name}" is not calibrated on paper of ${key}`,
        say`it is calibrated on ${knownPapers(papers)}`,
      );
    const rest = new Map([...papers].filter(([known]) => key !== undefined && known !== key));
    if (rest.size > 0) profiles.set(name, rest);
    else profiles.delete(name);
    return [profiles, undefined];
  });
