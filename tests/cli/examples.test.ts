import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { layouts } from '../../src/layouts/registry.ts';
import { runInside } from '../support/command-line.ts';

let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** The words of a command line as a shell would part them. */
const partWords = (line: string): readonly string[] =>
  [...line.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/g)].map(
    ([, double, single, plain]) => double ?? single ?? plain ?? '',
  );

const examples = layouts.flatMap((layout) => layout.examples.map((example) => [layout.id, example] as const));

it('every layout has an example', () => {
  for (const { id, examples: own } of layouts) expect([id, own.length > 0]).toEqual([id, true]);
});

it.each(examples)('%s: soapstone %s', async (id, example) => {
  const words = partWords(example);
  const { code, stderr } = await runInside(folder, words);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  expect(words[0]).toBe(id);
  const files = readdirSync(folder);
  expect(files.length).toBeGreaterThan(0);
  for (const file of files.filter((name) => name.endsWith('.pdf')))
    expect(readFileSync(join(folder, file), 'latin1').startsWith('%PDF-')).toBe(true);
});
