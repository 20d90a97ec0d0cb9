import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf } from '../../src/index.ts';
import { provePrint } from '../../src/cli/prove-print.ts';
import { runTool, withFile } from '../support/external.ts';
import { layOpen, mend } from '../support/tamper.ts';

/** What measuring the file found wrong, and how it stands against what is drawn. */
const judge = async (text: string) => {
  const { measured, drawn } = await provePrint(new Uint8Array(Buffer.from(text, 'latin1')));
  return {
    wrong: measured.findings.filter(({ ok }) => !ok).map((finding) => finding.measured),
    drawn: drawn.state,
  };
};

let open = '';
beforeAll(async () => {
  open = layOpen(await renderPdf(makeBook(readRequest('miter', { pipe: 'NPS 1 sch 40', cut: '22.5' }))));
});

const replaced = (from: RegExp | string, to: string): string => {
  const changed = open.replace(from, to);
  expect(changed).not.toBe(open);
  return changed;
};
const mended = (text: string): string => Buffer.from(mend(text)).toString('latin1');
const lastTable = (text: string): number => Number(/startxref\n(\d+)\n%%EOF\s*$/.exec(text)?.[1]);
const trailerOf = (text: string): string =>
  /trailer <<([^]*?)>>\nstartxref/.exec(text.slice(lastTable(text)))?.[1] ?? '';
const objectOf = (text: string, id: number): string =>
  new RegExp(`(?<=\\n)${id} 0 obj\\n[^]*?\\nendobj\\n`).exec(text)?.[0] ?? '';

/** The file saved with one object more or anew behind its end (ISO 32000-1 §7.5.6); `at` where it stands already. */
const withUpdate = (text: string, id: number, object: string, more = '', at = text.length): string => {
  const start = text.length + object.length;
  const size = Number(/\/Size (\d+)/.exec(text)?.[1]);
  const rest = trailerOf(text).replace(/\/(Size|Prev) \d+/g, '');
  return `${text}${object}xref\n${id} 1\n${String(at).padStart(10, '0')} 00000 n \ntrailer << ${more === '' ? rest : rest.replace(/\/Root \d+ 0 R/, more)} /Size ${Math.max(size, id + 1)} /Prev ${lastTable(text)} >>\nstartxref\n${start}\n%%EOF\n`;
};

/** Bytes put in front of the table. */
const beforeTable = (what: string): string => {
  const at = lastTable(open);
  return `${open.slice(0, at)}${what}${open.slice(at)}`.replace(
    /startxref\n\d+/,
    `startxref\n${at + what.length}`,
  );
};

const inStream = '/CIDInit /ProcSet findresource begin';
const hiding = (what: string): string => replaced(inStream, what.padEnd(inStream.length));

const linearized = (): string =>
  withFile(new Uint8Array(Buffer.from(open, 'latin1')), (file, folder) => {
    const out = join(folder, 'linearized.pdf');
    runTool('qpdf', ['--linearize', '--object-streams=disable', file, out]);
    return readFileSync(out).toString('latin1');
  });

/** A linearized file with a newer table at its end than at its front, its stated length (/L) put right. */
const twoFronts = (): string => {
  const front = linearized();
  const trailer = /trailer <<([^]*?)>>\nstartxref\n0\n/.exec(front)?.[1] ?? '';
  const object = '900 0 obj\nnull\nendobj\n';
  const start = front.length + object.length;
  const added = `${front}${object}xref\n900 1\n${String(front.length).padStart(10, '0')} 00000 n \ntrailer << ${trailer.replace(/\/(Size|Prev) \d+/g, '')} /Size 901 /Prev ${/startxref\n(\d+)\n%%EOF\s*$/.exec(front)?.[1]} >>\nstartxref\n${start}\n%%EOF\n`;
  return added.replace(/\/L \d+/, (all) => `/L ${String(added.length).padStart(all.length - 3, '0')}`);
};

describe('a file that some programs would read in one way, some in another, fails when measured', () => {
  const shadow = '30 0 obj\n<< /Length 0 >>\nstream\n\nendstream\nendobj\n';
  // Seen of an object twice, of two fronts and of a comment: poppler, mupdf and Ghostscript show them differently.
  it.each<[string, () => string, string]>([
    ['an object twice, the table naming one', () => beforeTable(shadow), 'its table does not name'],
    ['a trailer that no section has', () => beforeTable('trailer << /Root 9 0 R >>\n'), 'does not name'],
    ['an object within a stream', () => hiding('30 0 obj null endobj'), 'object that its table does not'],
    ['a trailer within a stream', () => hiding('trailer << /Root 9 0 R >>'), 'second table'],
    [
      'a row that leads into a stream',
      () => {
        const text = hiding('60 0 obj null endobj');
        return withUpdate(text, 60, '', '', text.indexOf('60 0 obj null'));
      },
      'over each other',
    ],
    [
      'a row that leads out of the file',
      () => withUpdate(open, 900, '', '', 9_999_999_999),
      'object 900 is not at byte',
    ],
    [
      'more blank lines than stand between objects',
      () => beforeTable('\n'.repeat(2_000_000)),
      'does not name',
    ],
    [
      'more empty comments than stand between objects',
      () => beforeTable('%\n'.repeat(10_000_000)),
      'does not name',
    ],
    ['fewer objects stated than there are', () => replaced(/\/Size \d\d\n/, '/Size 20\n'), 'more objects'],
    [
      'two catalogs',
      () => withUpdate(open, 60, objectOf(open, 1).replace(/^1 0/, '60 0'), '/Root 60 0 R'),
      'start from different objects',
    ],
    ['a linearized file with another table at its front', twoFronts, 'not its newest'],
    [
      'a comment that goes on into the next part of a page',
      () =>
        mended(
          replaced(/\/Contents (\d+ 0 R)/, '/Contents [ 90 0 R $1 ]').replace(
            /\nxref\n/,
            '\n90 0 obj\n<< /Length 2 >>\nstream\n% \nendstream\nendobj\nxref\n',
          ),
        ),
      'parted',
    ],
    ['an odd number of hexadecimal digits', () => mended(replaced(/0> Tj/, '> Tj')), 'hexadecimal'],
  ])('%s', async (_what, make, told) => {
    expect((await judge(make())).wrong.join()).toContain(told);
  });
});

describe('a file that all read alike passes, saved again', () => {
  it.each<[string, () => string]>([
    ['with an object anew behind its end', () => withUpdate(open, 1, objectOf(open, 1))],
    ['linearized', linearized],
    ['with other spaces on a page that a bookmark leads to', () => mended(replaced(/ m\n/g, '  m\n'))],
    [
      'with its content in parts',
      () =>
        mended(
          replaced(/\/Contents (\d+ 0 R)/, '/Contents [ 90 0 R $1 ]').replace(
            /\nxref\n/,
            '\n90 0 obj\n<< /Length 1 >>\nstream\n \nendstream\nendobj\nxref\n',
          ),
        ),
    ],
  ])('%s', async (_what, make) => {
    expect(await judge(make())).toEqual({ wrong: [], drawn: 're-saved' });
  });
});
