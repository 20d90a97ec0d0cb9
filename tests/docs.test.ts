import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeSheets, readRequest } from '../src/index.ts';
import { layouts } from '../src/layouts/registry.ts';
import { writeDocs } from '../.tools/docs/docs.ts';
import { writeReference } from '../.tools/docs/reference.ts';
import { readCommand } from './support/commands.ts';

const root = join(import.meta.dirname, '..');
const read = (file: string): string => readFileSync(join(root, file), 'utf8');

describe('what is made from the fields', async () => {
  it.each(Object.entries(await writeDocs()))('%s is up to date: if not, npm run docs', (file, text) => {
    expect(read(file) === text).toBe(true);
  });
});

describe('the reference', () => {
  it('has every option of every layout', () => {
    const reference = read('shared/docs/reference.md');
    for (const { id, fields } of layouts) {
      const part = reference.slice(reference.indexOf(`\n### ${id}\n`) + 1);
      const own = part.slice(0, part.search(/\n##+ /));
      const found = [...own.matchAll(/^\| `--([a-z0-9-]+)`/gm)].map(([, name]) => name);
      const keys = Object.keys(fields).map((key) =>
        key.replace(/[A-Z]/g, (sign) => `-${sign.toLowerCase()}`),
      );
      expect([id, found]).toEqual([id, keys]);
    }
  });

  it('goes stale when a layout changes', () => {
    const [first, ...rest] = layouts;
    const changed = [{ ...first!, summary: 'another summary' }, ...rest];
    const folder = join(root, 'templates');
    expect(writeReference(changed, folder)).not.toBe(writeReference(layouts, folder));
  });
});

describe('the README', () => {
  const rows = read('README.md').matchAll(/^\| [^|]+ \| `([a-z-]+ --[^|]*)` +\|$/gm);
  const commands = [...rows].map(([, command]) => command ?? '');

  it('is short, and names the usual jobs', () => {
    expect(read('README.md').split('\n').length).toBeLessThanOrEqual(151);
    expect(commands.length).toBeGreaterThan(15);
  });

  it.each(commands)('%s does what it says', (command) => {
    const { layout, texts } = readCommand(command);
    expect(makeSheets(readRequest(layout, texts)).length).toBeGreaterThan(0);
  });
});
