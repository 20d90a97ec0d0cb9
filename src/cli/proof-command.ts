import { requestError } from '../issue.ts';
import type { Finding } from '../proof/finding.ts';
import { say, type Command } from './command.ts';
import { readInput } from './read-file.ts';

/** As many files as one command line may name. */
const MOST_FILES = 1000;

const writeRow = ({ ok, check, where, measured, allowed }: Finding): string =>
  `${ok ? '  ok  ' : '  BAD '} ${where}: ${check}: ${measured} (allowed: ${allowed})`;

/** Measures finished files; exit code 1 where one of them fails. */
export const proofCommand: Command = {
  name: 'proof',
  summary: 'measure a finished PDF from its bytes and fit its cut ends up',
  usage: 'proof FILE.pdf… [--json]',
  examples: ['proof tee.pdf', 'proof out/*.pdf', 'proof tee.pdf --json'],
  options: [
    { name: 'json', group: 'Output:', kind: 'flag', help: 'say what was measured as JSON' },
    { name: 'quiet', group: 'Output:', kind: 'flag', help: 'say only what failed' },
  ],
  words: MOST_FILES,
  run: async ({ words, flags }) => {
    if (words.length === 0)
      throw requestError(
        '',
        'no-file',
        'no file is named',
        'name the PDF to be measured, as in: soapstone proof tee.pdf',
      );
    const { proveFile } = await import('../proof/prove.ts');
    const proofs = words.map((file) => ({ file, ...proveFile(readInput(file)) }));
    if (flags.has('json')) say(JSON.stringify(proofs, null, 2));
    else
      for (const { file, ok, findings } of proofs) {
        say(`${file}: ${ok ? 'true' : 'NOT TRUE, do not use it'}`);
        findings
          .filter((finding) => !finding.ok || !flags.has('quiet'))
          .forEach((finding) => say(writeRow(finding)));
      }
    return proofs.every(({ ok }) => ok) ? 0 : 1;
  },
};
