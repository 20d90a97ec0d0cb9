import fc from 'fast-check';
import { win32, posix } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fileKey, nameFile } from '../../src/jobs/file-name.ts';
import { UserError } from '../../src/issue.ts';
import { checkBookName } from '../../src/jobs/understand.ts';

describe('nameFile', () => {
  it.each([
    ['S12-3', 'S12-3'],
    ['../../etc/passwd', 'etc-passwd'],
    ['C:\\Windows\\x', 'C-Windows-x'],
    ['/', undefined],
    ['..', undefined],
    ['.hidden', 'hidden'],
    ['con', 'piece-con'],
    ['LPT1.old', 'piece-LPT1.old'],
    ['a\u0000b', 'a-b'],
    ['Stütze 4', 'Stütze-4'],
    ['-rf', 'rf'],
  ])('of %j is %j', (mark, name) => expect(nameFile(mark)).toBe(name));

  // Names that systems keep for devices, after Microsoft's "Naming Files, Paths, and Namespaces" (from memory).
  const devices = /^(con|prn|aux|nul|com\d|lpt\d)$/i;
  it('never leaves its folder, hides, or names a device, and keeps within what file systems take', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 300 }),
      fc.string({
        unit: fc.constantFrom('.', '/', '\\', '-', 'a', ':', ' ', '\n', 'é', '文'),
        maxLength: 300,
      }),
      fc
        .constantFrom('con', 'NUL', 'com1', 'aux', 'prn', 'lpt9')
        .chain((name) => fc.string().map((rest) => `${name}.${rest}`)),
    );
    fc.assert(
      fc.property(text, (mark) => {
        const name = nameFile(mark);
        if (name === undefined) return;
        for (const path of [posix, win32]) {
          const file = path.join(path.resolve('/out'), `${name}.pdf`);
          expect([path.dirname(file), path.basename(file)]).toEqual([path.resolve('/out'), `${name}.pdf`]);
        }
        expect(name).not.toMatch(/^[.-]|[.-]$|[\p{Cc}\p{Cf}\s<>:"|?*]/u);
        expect(devices.test(name.split('.')[0] ?? '')).toBe(false);
        expect(Buffer.byteLength(name)).toBeLessThanOrEqual(130);
        expect(nameFile(name)).toBe(name);
      }),
      { numRuns: 2000 },
    );
  });

  it('takes names for the same that some system takes for the same', () => {
    expect(fileKey('Ä-1.pdf')).toBe(fileKey('a\u0308-1.PDF'));
  });
});

describe('the name of a book', () => {
  it('is the plain name of a PDF', () => expect(checkBookName('laterals.pdf')).toBe('laterals.pdf'));
  it.each([
    '../x.pdf',
    '/tmp/x.pdf',
    'a/b.pdf',
    'C:\\x.pdf',
    'nul.pdf',
    '.x.pdf',
    'x',
    'x.svg',
    '.pdf',
    'a\nb.pdf',
  ])('is not %j', (name) => {
    expect(() => checkBookName(name)).toThrow(UserError);
  });
});
