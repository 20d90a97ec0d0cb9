import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf, type Texts } from '../../src/index.ts';
import { proveFile } from '../../src/proof/prove.ts';
import { runTool, withFile } from '../support/external.ts';
import { withRecord } from '../support/tamper.ts';

const print = (layout: string, texts: Texts): Promise<Uint8Array> =>
  renderPdf(makeBook(readRequest(layout, texts)));

const failed = (bytes: Uint8Array): readonly string[] =>
  proveFile(bytes)
    .findings.filter(({ ok }) => !ok)
    .map(({ check }) => check);

/** The file with its streams laid open and nothing else changed, by qpdf. */
const layOpen = (bytes: Uint8Array): string =>
  withFile(bytes, (file, folder) => {
    const open = join(folder, 'open.pdf');
    runTool('qpdf', [
      '--stream-data=uncompress',
      '--object-streams=disable',
      '--normalize-content=n',
      file,
      open,
    ]);
    return readFileSync(open).toString('latin1');
  });

const toBytes = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, 'latin1'));

describe('proof of a true print', () => {
  it.each([
    ['band', { pipe: 'NPS 6 sch 40', paper: 'letter' }],
    ['miter', { pipe: 'DN 150 sch 40', cut: '22.5', seam: '90' }],
    ['branch', { branch: 'NPS 3 sch 40', header: 'NPS 6 sch 40', angle: '60', offset: '20mm', gap: '3mm' }],
    ['branch', { branch: 'DN 50 sch 40', header: 'DN 100 sch 40', set: 'in', paper: 'a3' }],
    ['bolt-circle', { flange: 'NPS 6 class 150' }],
  ] as const)('%s %j', async (layout, texts) => {
    expect(failed(await print(layout, texts))).toEqual([]);
  });
});

describe('proof of a false print', () => {
  let open = '';
  beforeAll(async () => {
    open = layOpen(await print('miter', { pipe: 'NPS 1 sch 40', cut: '22.5' }));
  });

  it('passes the same print laid open', () => {
    expect(failed(toBytes(open))).toEqual([]);
  });

  it('catches any one number on a page changed by 0.05 mm', () => {
    const paint = open.indexOf('BDC');
    const start = open.lastIndexOf('stream\n', paint) + 'stream\n'.length;
    const content = open.slice(start, open.indexOf('endstream', paint));
    const numbers = [...content.matchAll(/(?<![\w.<-])\d{2,}\.\d{3,}(?![\w>])/g)];
    expect(numbers.length).toBeGreaterThan(300);
    const shift = (0.05 * 72) / 25.4;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: numbers.length - 1 }), fc.boolean(), (which, up) => {
        const match = numbers[which] as RegExpExecArray;
        const [text] = match;
        const digits = text.length - text.indexOf('.') - 1;
        const changed = (Number(text) + (up ? shift : -shift)).toFixed(digits);
        if (changed.length !== text.length) return;
        const at = start + match.index;
        expect(failed(toBytes(open.slice(0, at) + changed + open.slice(at + text.length)))).not.toEqual([]);
      }),
      { numRuns: 25 },
    );
  });

  it.each([
    ['the paper', /(\/MediaBox \[ ?0 0 )(\d+)(\.?\d*)/],
    ['the origin', /(\/O \[ ?)(-?\d+)(\.\d+)/],
  ])('catches a change of %s', (_what, pattern) => {
    const changed = open.replace(pattern, (_all, head: string, whole: string, rest: string) => {
      const next = String(Number(whole) + 1);
      return head + (next.length === whole.length ? next : String(Number(whole) - 1)) + rest;
    });
    expect(changed).not.toBe(open);
    expect(failed(toBytes(changed))).toContain('pages as written');
  });

  it('catches a print that was scaled, by its rules and its fit', async () => {
    const bytes = await print('miter', { pipe: 'NPS 1 sch 40', cut: '22.5' });
    const scaled = layOpen(bytes).replace(/1 0 0 -1 0 (\d+\.?\d*) cm\n/, (all) =>
      all.replace('1 0 0 -1', '.99 0 0 -.99'),
    );
    const checks = withFile(toBytes(scaled), (file, folder) => {
      const mended = join(folder, 'mended.pdf');
      try {
        runTool('qpdf', [file, mended]);
      } catch {
        // qpdf warns of the offsets it mends.
      }
      return failed(new Uint8Array(readFileSync(mended)));
    });
    expect(checks).toContain('100 mm rule along x');
    expect(checks).toContain('pages as written');
  });

  it('catches a file that is no print', () => {
    expect(proveFile(toBytes('%PDF-1.7\nnothing')).ok).toBe(false);
    expect(proveFile(new Uint8Array()).ok).toBe(false);
  });

  it('catches a record that names another header', async () => {
    const open = layOpen(await print('branch', { branch: 'NPS 1 sch 40', header: 'NPS 2 sch 40' }));
    const changed = withRecord(open, ({ sheets }) => {
      const solid = sheets[0]?.fit.lines.find(({ which }) => which === 'upper')?.solids[0];
      if (solid) solid['radius'] = Number(solid['radius']) + 1;
    });
    expect(failed(changed)).toContain('cut line against what it meets');
  });
});
