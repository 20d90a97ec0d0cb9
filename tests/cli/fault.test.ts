import { afterEach, expect, it, vi } from 'vitest';
import { tellFault } from '../../src/cli/fault.ts';
import { fileError, jointError, requestError } from '../../src/issue.ts';

afterEach(() => vi.restoreAllMocks());

const tell = (error: unknown): { code: number; text: string } => {
  let text = '';
  vi.spyOn(process.stderr, 'write').mockImplementation((chunk) => {
    text += String(chunk);
    return true;
  });
  return { code: tellFault(error, new Set(['gap'])), text };
};

it.each([
  [
    requestError('gap', 'a', '5 has no unit', 'write 5mm'),
    2,
    'wrong: --gap: 5 has no unit\nright: write 5mm\n',
  ],
  [jointError('', 'a', 'the branch misses', 'move it'), 3, 'wrong: the branch misses\nright: move it\n'],
  [fileError('file', 'a', 'no such\nfolder', 'make it'), 4, 'wrong: no such folder\nright: make it\n'],
])('tells %s in two lines', (error, code, text) => {
  expect(tell(error)).toEqual({ code, text });
});

it('owns up to its own faults, without a stack trace or words of the machine', () => {
  const { code, text } = tell(new TypeError('x is not a function'));
  expect(code).toBe(1);
  expect(text).toMatch(
    /^wrong: soapstone \d+\.\d+\.\d+ failed. The mistake is ours, not yours\nright: report/,
  );
  expect(text).not.toMatch(/^\s+at /m);
  expect(text).not.toContain('is not a function');
});
