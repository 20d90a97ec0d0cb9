import { pageLimit } from '../paging/page-limit.ts';
import { requestError } from '../issue.ts';
import { formats } from '../render/formats.ts';
import type { Command, Option } from './command.ts';
import { say } from '../words/say.ts';

const output = 'Output:';
const choosing = 'Pieces:';

const options: readonly Option[] = [
  {
    name: 'only',
    group: choosing,
    kind: 'text',
    help: 'MARK: make this piece alone (may be repeated); a book of it is called NAME-only.pdf',
  },
  {
    name: 'strict',
    group: choosing,
    kind: 'flag',
    help: 'make nothing where one piece has a fault; otherwise the good ones are made',
  },
  {
    name: 'fresh',
    group: choosing,
    kind: 'flag',
    help: 'make everything again, even what is done and unchanged',
  },
  {
    name: 'jobs',
    group: choosing,
    kind: 'text',
    help: 'N: how many pieces to make at a time (left out, one for every core); the files are the same',
  },
  {
    name: 'shard',
    group: choosing,
    kind: 'text',
    help: 'I/N: make the I-th of N equal shares, for N machines; a run without it then binds the book',
  },
  { name: 'yes', group: choosing, kind: 'flag', help: `let one piece take more than ${pageLimit} pages` },
  {
    name: 'output',
    letter: 'o',
    group: output,
    kind: 'text',
    help: 'DIR: folder to write in, made where there is none (left out, this one)',
  },
  {
    name: 'formats',
    group: output,
    kind: 'text',
    help: `F,…: what to write for every piece instead of what the file says: ${formats.join(', ')}`,
  },
  {
    name: 'book',
    group: output,
    kind: 'text',
    help: 'NAME.pdf: one PDF of all pieces in the output folder, with a cover that lists them',
  },
  { name: 'json', group: output, kind: 'flag', help: 'say what was made as JSON' },
];

/** Makes all pieces of job files and cut lists. */
export const jobCommand: Command = {
  name: 'job',
  summary: 'make all pieces of a job file (.yaml) or a cut list (.csv)',
  usage: 'job FILE… [-o DIR] [--only MARK]…',
  examples: [
    'job templates/laterals-45.yaml -o laterals',
    'job cuts.csv -o cuts --book cuts.pdf',
    'job pump-house.yaml -o out --only S12-3 --formats pdf,dxf',
  ],
  options,
  words: 10_000,
  run: async (given) => {
    if (given.words.length === 0)
      throw requestError(
        '',
        'no-file',
        say`no file is named`,
        say`name a job file or a cut list, as in: soapstone job pump-house.yaml`,
      );
    return (await import('./run-job.ts')).runJob(given);
  },
};
