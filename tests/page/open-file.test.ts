import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/issue.ts';
import { openFile } from '../../src/page/core/jobs.ts';
import { findIn } from '../../src/page/core/printers.ts';

const open = (name: string, bytes: Uint8Array) => openFile(name, bytes, findIn({}));

const list = 'layout,piece,stock,cut\r\nmiter,Ñ-1,NPS 6 sch 40,22.5\r\n';
const marked = (bytes: Buffer, ...mark: number[]): Uint8Array =>
  new Uint8Array(Buffer.concat([Buffer.from(mark), bytes]));

// The ways in which office programs save a list: Unicode's byte order marks, and Windows-1252, where Ñ is 0xD1.
describe('a cut list that is opened in the page', () => {
  it.each([
    ['UTF-8', marked(Buffer.from(list, 'utf8'))],
    ['UTF-8 with its mark', marked(Buffer.from(list, 'utf8'), 0xef, 0xbb, 0xbf)],
    ['UTF-16', marked(Buffer.from(list, 'utf16le'), 0xff, 0xfe)],
    ['UTF-16, large end first', marked(Buffer.from(list, 'utf16le').swap16(), 0xfe, 0xff)],
    ['Windows-1252', marked(Buffer.from(list, 'latin1'))],
  ])('is read in %s, as the command line reads it', (_how, bytes) => {
    const { pieces, issues } = open('list.csv', bytes);
    expect(issues).toEqual([]);
    expect(pieces.map(({ texts }) => texts['piece'])).toEqual(['Ñ-1']);
  });

  it.each([
    ['list.csv', marked(Buffer.from(list, 'utf16le'))],
    ['job.yaml', marked(Buffer.from('pieces:\n  - piece: Ñ-1\n', 'latin1'))],
  ])('%s in no such way is refused by name', (name, bytes) => {
    expect(() => open(name, bytes)).toThrow(UserError);
    expect(() => open(name, bytes)).toThrow(`${name} is not written in UTF-8`);
  });
});
