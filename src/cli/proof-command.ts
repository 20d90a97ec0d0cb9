import { requestError } from '../issue.ts';
import type { Finding } from '../proof/finding.ts';
import { version } from '../version.ts';
import { tellLine, type Command, type Given } from './command.ts';
import { readInput } from './read-file.ts';
import type { DrawnVerdict, PrintVerdict } from './prove-print.ts';
import type { ScanVerdict } from './scan-page.ts';
import { say, translateSheet } from '../words/say.ts';

/** As many files as one command line may name. */
const mostFiles = 1000;

const writeRow = ({ ok, check, where, measured, allowed }: Finding): string =>
  say`  ${ok ? say`PASS` : say`FAIL`}  ${translateSheet(where)}: ${check}: ${measured} (allowed: ${allowed})`;

/** What the second verdict says in a line, and what still holds where there is none. */
const tellDrawn = ({ state, findings }: DrawnVerdict): string => {
  const [finding] = findings;
  switch (state) {
    case 'same':
      return say`as this version draws it: PASS, byte for byte`;
    case 're-saved':
      return say`as this version draws it: PASS, ${finding?.measured ?? ''}`;
    case 'differs':
      return say`as this version draws it: FAIL, ${finding?.measured ?? ''}`;
    case 'other version':
      return say`as this version draws it: NOT COMPARED, ${finding?.measured ?? ''}; this is ${version} and draws it differently. What was measured still holds: lines, girths, fits, figures, rules, layers, lettering. Words and numbers that no line shows rest on the file's own record.`;
    case 'not made':
      return say`as this version draws it: ${finding === undefined ? say`NOT COMPARED, what was measured failed` : say`FAIL, ${finding.measured}`}`;
  }
};

const tellFile = (file: string, { ok, measured, drawn }: PrintVerdict, quiet: boolean): void => {
  const only = ok && drawn.state === 'other version' ? say` (measured only)` : '';
  tellLine(`${file}: ${ok ? say`PASS` : say`FAIL: do not use it`}${only}`);
  if (!quiet || !measured.ok) tellLine(say`  measured: ${measured.ok ? say`PASS` : say`FAIL`}`);
  if (!quiet || !ok || only !== '') tellLine(`  ${tellDrawn(drawn)}`);
  measured.findings
    .filter((finding) => !finding.ok || !quiet)
    .forEach((finding) => tellLine(writeRow(finding)));
};

const single = ({ texts }: Given, name: string): string | undefined => [texts[name] ?? []].flat()[0];

const tellScan = (image: string, { ok, reading, findings, command }: ScanVerdict): void => {
  const { tilt, divisions, uneven, code } = reading;
  tellLine(`${image}: ${ok ? say`PASS` : say`FAIL: do not use it`}`);
  findings.forEach((finding) => tellLine(writeRow(finding)));
  tellLine(say`  code: ${code ?? say`none seen`}`);
  tellLine(
    say`  ${divisions} divisions measured, at most ${uneven.toFixed(2)} mm uneven; the page lay turned ${((tilt * 180) / Math.PI).toFixed(2)}°`,
  );
  if (command !== undefined) tellLine(say`To correct the printer: ${command}`);
  tellLine(
    say`A scanner has an error of its own: scan a steel rule both ways once, and trust the rule where the two differ.`,
  );
};

/** Measures a scanned page, and the file it was printed from where that is named. */
const runScan = async (given: Given): Promise<number> => {
  const [{ proveScan, readDpi }, { proveFile }, { limits }] = await Promise.all([
    import('./scan-page.ts'),
    import('../proof/prove.ts'),
    import('../proof/limits.ts'),
  ]);
  const [file, more] = given.words;
  if (more !== undefined)
    throw requestError(
      '',
      'many-files',
      say`a scan is of one file`,
      say`name the one PDF that was printed, or none`,
    );
  const image = single(given, 'scan') ?? '';
  const dpi = readDpi(single(given, 'dpi'));
  const proof = file === undefined ? undefined : proveFile(readInput(file, limits.file));
  const asked = { paper: single(given, 'paper'), printer: single(given, 'printer') };
  const verdict = proveScan(readInput(image, limits.file), image, dpi, asked, proof);
  const ok = verdict.ok && proof?.ok !== false;
  if (given.flags.has('json')) {
    const { reading, across, along, findings, command } = verdict;
    const print = proof && { file, ok: proof.ok, findings: proof.findings };
    tellLine(
      JSON.stringify({ image, dpi, ok, across, along, ...reading, findings, command, print }, null, 2),
    );
  } else {
    tellScan(image, verdict);
    if (file !== undefined && proof !== undefined)
      tellLine(say`${file}: measured: ${proof.ok ? say`PASS` : say`FAIL: do not use it`}`);
  }
  return ok ? 0 : 1;
};

/** Measures finished files; exit code 1 where one of them fails. */
export const proofCommand: Command = {
  name: 'proof',
  summary: 'measure a finished PDF from its bytes, fit its cut ends up, and draw it again to compare',
  usage: 'proof FILE.pdf… [--json] | proof [FILE.pdf] --scan IMAGE --dpi N',
  examples: [
    'proof tee.pdf',
    'proof out/*.pdf',
    'proof tee.pdf --json',
    'proof tee.pdf --scan page1.png --dpi 300 --printer "shop laser"',
  ],
  options: [
    { name: 'json', group: 'Output:', kind: 'flag', help: 'say what was found as JSON' },
    {
      name: 'scan',
      group: 'Scan:',
      kind: 'text',
      help: 'IMAGE: measure a scanned page, PNG or JPEG, by its scale checks',
    },
    { name: 'dpi', group: 'Scan:', kind: 'text', help: 'N: resolution of the scan, dots an inch' },
    { name: 'paper', group: 'Scan:', kind: 'text', help: 'P: paper of the page (default: by its size)' },
    { name: 'printer', group: 'Scan:', kind: 'text', help: 'NAME: printer it came from' },
    { name: 'quiet', group: 'Output:', kind: 'flag', help: 'say only what failed' },
  ],
  words: mostFiles,
  run: async (given) => {
    const { words, flags } = given;
    if (given.texts.scan !== undefined) return runScan(given);
    if (words.length === 0)
      throw requestError(
        '',
        'no-file',
        say`no file is named`,
        say`name the PDF to be measured, as in: soapstone proof tee.pdf`,
      );
    const { provePrint } = await import('./prove-print.ts');
    const { limits } = await import('../proof/limits.ts');
    const told: object[] = [];
    let allPass = true;
    for (const file of words) {
      const verdict = await provePrint(readInput(file, limits.file));
      allPass &&= verdict.ok;
      if (!flags.has('json')) tellFile(file, verdict, flags.has('quiet'));
      const { ok, measured, drawn } = verdict;
      told.push({
        file,
        ok,
        verdict: ok ? say`PASS` : say`FAIL`,
        measured: { ok: measured.ok, findings: measured.findings },
        drawn: {
          ok: drawn.findings.length > 0 && drawn.findings.every((finding) => finding.ok),
          state: drawn.state,
          findings: drawn.findings,
        },
        madeBy: measured.file?.record?.version,
        savedAs: measured.file?.saved,
      });
    }
    if (flags.has('json')) tellLine(JSON.stringify(told, null, 2));
    return allPass ? 0 : 1;
  },
};
