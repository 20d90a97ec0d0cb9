import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { layouts } from '../src/layouts/registry.ts';
import { writeDocs } from '../.tools/docs/docs.ts';
import { fillReadme, fillSection } from '../.tools/docs/readme.ts';

const read = (file: string): string => readFileSync(join(import.meta.dirname, '..', file), 'utf8');

describe('what is made from the fields', async () => {
  it.each(Object.entries(await writeDocs()))('%s is up to date: if not, npm run docs', (file, text) => {
    expect(read(file) === text).toBe(true);
  });
});

describe('the README', () => {
  it('tells every option of every layout', () => {
    const readme = read('README.md');
    for (const { id, fields } of layouts) {
      const part = readme.slice(readme.indexOf(`<summary>${id}</summary>`));
      const own = part.slice(0, part.indexOf('</details>'));
      const told = [...own.matchAll(/^\| `--([a-z0-9-]+)`/gm)].map(([, name]) => name);
      const keys = Object.keys(fields).map((key) =>
        key.replace(/[A-Z]/g, (sign) => `-${sign.toLowerCase()}`),
      );
      expect([id, told]).toEqual([id, keys]);
    }
  });

  it('goes stale when a layout changes', () => {
    const [first, ...rest] = layouts;
    const changed = [{ ...first!, summary: 'another summary' }, ...rest];
    expect(fillReadme(read('README.md'), changed)).not.toBe(fillReadme(read('README.md'), layouts));
  });

  it('is not filled where its marks are missing', () => {
    expect(() => fillSection('no marks', 'jobs', 'text')).toThrow(/begin jobs/);
  });
});
