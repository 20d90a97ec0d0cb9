import { lengthField } from '../fields/fields.ts';
import { requestError } from '../issue.ts';
import { quoteWord } from '../jobs/shell.ts';
import { paperKey } from '../paging/calibration-bars.ts';
import { type Calibration, formatCalibration, readDay } from '../paging/calibration.ts';
import { type Paper, parsePaper } from '../paging/paper.ts';
import { readPrinterName } from '../paging/printer.ts';
import type { Units } from '../units/length.ts';
import { advisePrint } from './advice.ts';
import { type Command, type Given, type Option, program, tellLine } from './command.ts';
import { planOutputs } from './outputs.ts';
import { say } from '../words/say.ts';

const group = 'Printer:';
const reading = lengthField('what bars were read as', { example: '189.4mm,189.5mm', min: 1, list: true });

const options: readonly Option[] = [
  {
    name: 'printer',
    group,
    kind: 'text',
    help: 'TEXT: name of the printer, as prints will ask for it, e.g. "shop laser"',
  },
  { name: 'paper', group, kind: 'text', help: 'TEXT: paper it is calibrated on (default a4, with --units in letter)' }, // prettier-ignore
  {
    name: 'across',
    group: 'Readings:',
    kind: 'text',
    help: 'L: what bars A and B read, across the paper: one length, or both with a comma (as in "189.4mm,189.5mm")',
  },
  {
    name: 'along',
    group: 'Readings:',
    kind: 'text',
    help: 'L: what bars C and D read, along the paper',
  },
  {
    name: 'units',
    group: 'Readings:',
    kind: 'text',
    choices: ['in', 'mm'],
    help: 'TEXT: units of readings without their own: in or mm',
  },
  { name: 'date', group: 'Readings:', kind: 'text', help: 'TEXT: day of the readings (default today)' },
  {
    name: 'list',
    group,
    kind: 'flag',
    help: 'list what is kept, and in which file (SOAPSTONE_CONFIG names another folder for it)',
  },
  { name: 'remove', group, kind: 'flag', help: 'forget the printer, or with --paper only that paper' },
  { name: 'output', letter: 'o', group: 'Output:', kind: 'text', help: 'FILE.pdf: where to write the sheet' },
  { name: 'json', group: 'Output:', kind: 'flag', help: 'say what was done or is kept as JSON' },
];

/** The one text of an option. Throws a `request` UserError where it was given twice. */
const single = ({ texts }: Given, name: string): string | undefined => {
  const [first, ...more] = [texts[name] ?? []].flat();
  if (more.length === 0) return first;
  throw requestError(name, 'given-twice', say`given ${more.length + 1} times`, say`give it once`);
};

const readUnits = (given: Given): Units | undefined => {
  const units = single(given, 'units');
  if (units === undefined || units === 'in' || units === 'mm') return units;
  throw requestError('units', 'bad-choice', say`"${units}" is not a unit`, say`give in or mm`);
};

const readPaper = (given: Given): Paper =>
  parsePaper(single(given, 'paper') ?? (readUnits(given) === 'in' ? 'letter' : 'a4'));

const needPrinter = (given: Given): string => {
  const printer = single(given, 'printer');
  if (printer !== undefined) return readPrinterName(printer);
  throw requestError('printer', 'missing', say`no printer is named`, say`name it as prints will ask for it, as in --printer "shop laser"`); // prettier-ignore
};

const readLengths = (given: Given, name: string): readonly number[] => {
  const texts = [given.texts[name] ?? []].flat();
  return texts.flatMap((text) => reading.parse(text, { units: readUnits(given), path: name }) as number[]);
};

const today = (): string => {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');
};

const tellTaken = (printer: string, paper: Paper, calibration: Calibration): void => {
  tellLine(say`${printer}, paper ${paper.name}: prints ${formatCalibration(calibration)}`);
  tellLine(
    say`Prints made with --printer ${quoteWord(printer)} on this paper are now corrected. Print one and measure its checks.`,
  );
};

const takeReadings = async (given: Given): Promise<void> => {
  const [{ readCalibration }, { keepCalibration, profilesFile }] = await Promise.all([
    import('../paging/calibration-reading.ts'),
    import('../jobs/printer-profiles.ts'),
  ]);
  const [printer, paper] = [needPrinter(given), readPaper(given)];
  const date = readDay(single(given, 'date') ?? today(), 'date');
  const across = readLengths(given, 'across');
  const calibration = readCalibration(paper, across, readLengths(given, 'along'), date);
  const name = await keepCalibration(printer, paperKey(paper), calibration);
  if (given.flags.has('json'))
    tellLine(
      JSON.stringify(
        { file: profilesFile(), printer: name, paper: paperKey(paper), ...calibration },
        null,
        2,
      ),
    );
  else tellTaken(name, paper, calibration);
};

const listProfiles = async (given: Given): Promise<void> => {
  const { profilesFile, readProfiles } = await import('../jobs/printer-profiles.ts');
  const rows = [...readProfiles()].flatMap(([printer, papers]) =>
    [...papers].map(([paper, calibration]) => ({ printer, paper, ...calibration })),
  );
  if (given.flags.has('json')) {
    tellLine(JSON.stringify({ file: profilesFile(), printers: rows }, null, 2));
    return;
  }
  for (const { printer, paper, ...calibration } of rows)
    tellLine(`${printer}, ${paper}: ${formatCalibration(calibration)}`);
  tellLine(
    rows.length === 0
      ? say`No printer is calibrated. Kept in ${profilesFile()}`
      : say`Kept in ${profilesFile()}`,
  );
};

const removeProfile = async (given: Given): Promise<void> => {
  const { removeCalibration } = await import('../jobs/printer-profiles.ts');
  const printer = needPrinter(given);
  const paper = single(given, 'paper') === undefined ? undefined : readPaper(given);
  await removeCalibration(printer, paper && paperKey(paper));
  tellLine(say`Forgot ${printer}${paper === undefined ? '' : say`, paper ${paper.name}`}`);
};

/** The command, printed on the sheet, that takes its readings back. */
export const readBackCommand = (printer: string, paper: Paper): string =>
  `${program} calibrate --printer ${quoteWord(printer)} --paper ${quoteWord(paper.name)} --across A,B --along C,D`;

const slug = (text: string): string => text.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '');

const printSheet = async (given: Given): Promise<void> => {
  const [printer, paper] = [needPrinter(given), readPaper(given)];
  const file = single(given, 'output') ?? `calibration-${slug(`${printer} ${paper.name}`)}.pdf`;
  if (!/\.pdf$/i.test(file))
    throw requestError('output', 'one-pdf', say`a calibration sheet is one PDF`, say`give one -o FILE.pdf`);
  planOutputs([file]);
  const [{ makeCalibrationSheet }, { renderPdf }, { writeFile }] = await Promise.all([
    import('../paging/calibration-sheet.ts'),
    import('../render/pdf.ts'),
    import('../render/write-file.ts'),
  ]);
  const command = readBackCommand(printer, paper);
  const book = makeCalibrationSheet(printer, paper, command);
  await writeFile(file, await renderPdf(book));
  const [page] = book.pages;
  if (given.flags.has('json')) {
    tellLine(JSON.stringify({ files: [file], printer, paper: paperKey(paper), next: command }, null, 2));
    return;
  }
  tellLine(say`Wrote ${file}`);
  if (page !== undefined) advisePrint(file, page).forEach(tellLine);
  tellLine(say`Then read its bars A to D and type: ${command}`);
};

/** Calibrates printers: prints the sheet, takes the readings, lists and forgets what is kept. */
export const calibrateCommand: Command = {
  name: 'calibrate',
  summary: 'measure what a printer makes of 100 %, so that prints for it come out true',
  usage: 'calibrate --printer NAME [--paper P] [--across A,B --along C,D] [-o FILE.pdf]',
  examples: [
    'calibrate --printer "shop laser" --paper a4 -o sheet.pdf',
    'calibrate --printer "shop laser" --paper a4 --across 189.4mm,189.5mm --along 239.1mm,239.0mm',
    'calibrate --list',
    'calibrate --remove --printer "shop laser"',
  ],
  options,
  words: 0,
  run: async (given) => {
    const [list, remove] = [given.flags.has('list'), given.flags.has('remove')];
    const isRead = given.texts.across !== undefined || given.texts.along !== undefined;
    if ([list, remove, isRead].filter(Boolean).length > 1)
      throw requestError(
        '',
        'two-tasks',
        say`readings, --list and --remove are different tasks`,
        say`ask for one of them`,
      );
    if (list) await listProfiles(given);
    else if (remove) await removeProfile(given);
    else if (isRead) await takeReadings(given);
    else await printSheet(given);
  },
};
