import { requestError } from '../issue.ts';
import type { Finding } from '../proof/finding.ts';
import { version } from '../version.ts';
import { say, type Command } from './command.ts';
import { readInput } from './read-file.ts';
import type { DrawnVerdict, PrintVerdict } from './prove-print.ts';

/** As many files as one command line may name. */
const mostFiles = 1000;

const writeRow = ({ ok, check, where, measured, allowed }: Finding): string =>
  `  ${ok ? 'PASS' : 'FAIL'}  ${where}: ${check}: ${measured} (allowed: ${allowed})`;

/** What the second verdict says in a line, and what still holds where there is none. */
const tellDrawn = ({ state, findings }: DrawnVerdict): string => {
  const [finding] = findings;
  switch (state) {
    case 'same':
      return 'as this version draws it: PASS, byte for byte';
    case 're-saved':
      return `as this version draws it: PASS, ${finding?.measured ?? ''}`;
    case 'differs':
      return `as this version draws it: FAIL, ${finding?.measured ?? ''}`;
    case 'other version':
      return `as this version draws it: NOT COMPARED, ${finding?.measured ?? ''}; this is ${version} and draws it differently. What was measured still holds: lines, girths, fits, figures, rules, layers, lettering. Words and numbers that no line shows rest on the file's own record.`;
    case 'not made':
      return `as this version draws it: ${finding === undefined ? 'NOT COMPARED, what was measured failed' : `FAIL, ${finding.measured}`}`;
  }
};

const tellFile = (file: string, { ok, measured, drawn }: PrintVerdict, quiet: boolean): void => {
  const only = ok && drawn.state === 'other version' ? ' (measured only)' : '';
  say(`${file}: ${ok ? 'PASS' : 'FAIL: do not use it'}${only}`);
  if (!quiet || !measured.ok) say(`  measured: ${measured.ok ? 'PASS' : 'FAIL'}`);
  if (!quiet || !ok || only !== '') say(`  ${tellDrawn(drawn)}`);
  measured.findings.filter((finding) => !finding.ok || !quiet).forEach((finding) => say(writeRow(finding)));
};

/** Measures finished files; exit code 1 where one of them fails. */
export const proofCommand: Command = {
  name: 'proof',
  summary: 'measure a finished PDF from its bytes, fit its cut ends up, and draw it again to compare',
  usage: 'proof FILE.pdf… [--json]',
  examples: ['proof tee.pdf', 'proof out/*.pdf', 'proof tee.pdf --json'],
  options: [
    { name: 'json', group: 'Output:', kind: 'flag', help: 'say what was found as JSON' },
    { name: 'quiet', group: 'Output:', kind: 'flag', help: 'say only what failed' },
  ],
  words: mostFiles,
  run: async ({ words, flags }) => {
    if (words.length === 0)
      throw requestError(
        '',
        'no-file',
        'no file is named',
        'name the PDF to be measured, as in: soapstone proof tee.pdf',
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
        verdict: ok ? 'PASS' : 'FAIL',
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
    if (flags.has('json')) say(JSON.stringify(told, null, 2));
    return allPass ? 0 : 1;
  },
};
