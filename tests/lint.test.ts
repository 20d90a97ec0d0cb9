import { join } from 'node:path';
import { ESLint } from 'eslint';
import tseslint from 'typescript-eslint';
import { expect, test } from 'vitest';

const cwd = join(import.meta.dirname, '..');
// The pieces of code here are in no project, so the rules that need types are left out.
const eslint = new ESLint({
  cwd,
  overrideConfig: [{ files: ['**/*.ts'], ...tseslint.configs.disableTypeChecked }],
});

/** Names of the rules that a file of this text in this place breaks. */
const lint = async (file: string, code: string): Promise<string[]> => {
  const [result] = await eslint.lintText(code, { filePath: join(cwd, file) });
  const rules = result!.messages.map(({ ruleId, message }) => ruleId ?? message);
  return [...new Set(rules)];
};

const importing = (path: string) => `import { x } from '${path}';\n\nexport const y = x;\n`;

test.each(['arc', 'circle', 'ellipse', 'quadraticCurveTo', 'roundedRect', 'path', 'rect'])(
  "pdfkit's %s is banned, a function of ours by that name is not",
  async (name) => {
    const rule = 'no-restricted-syntax';
    expect(await lint('src/render/probe.ts', `declare const doc: any;\nexport const f = (): void => doc.${name}(1, 2);\n`)).toContain(rule); // prettier-ignore
    expect(await lint('src/render/probe.ts', `declare const doc: any;\nexport const f = (): void => doc.save().${name}(1);\n`)).toContain(rule); // prettier-ignore
    expect(await lint('src/render/probe.ts', `declare const doc: any;\nexport const f = (): void => doc['${name}'](1);\n`)).toContain(rule); // prettier-ignore
    expect(await lint('src/render/probe.ts', `declare const ${name}: () => void;\nexport const f = (): void => ${name}();\n`)).toEqual([]); // prettier-ignore
  },
);

test.each([
  ['src/units/a.ts', '../stock/pipe.ts'],
  ['src/geometry/a.ts', '../stock/stock.ts'],
  ['src/stock/a.ts', '../joint/solid.ts'],
  ['src/joint/a.ts', '../scene/scene.ts'],
  ['src/scene/a.ts', '../drawing/model.ts'],
  ['src/geometry/a.ts', '../drawing/model.ts'],
  ['src/geometry/mates/a.ts', '../../drawing/model.ts'],
  ['src/drawing/a.ts', '../fields/field.ts'],
  ['src/fields/a.ts', '../sheets/cut-band.ts'],
  ['src/sheets/a.ts', '../layouts/registry.ts'],
  ['src/drawing/a.ts', '../paging/book.ts'],
  ['src/layouts/a.ts', '../paging/book.ts'],
  ['src/layouts/a.ts', '../render/pdf.ts'],
  ['src/paging/a.ts', '../render/pdf.ts'],
  ['src/render/a.ts', '../jobs/job.ts'],
  ['src/jobs/a.ts', '../proof/proof.ts'],
  ['src/proof/a.ts', '../jobs/job.ts'],
  ['src/proof/a.ts', '../cli/main.ts'],
  ['src/cli/a.ts', '../page/main.ts'],
  ['src/layouts/a.ts', '../request.ts'],
  ['src/geometry/mates/a.ts', '../../print.ts'],
  ['src/paging/a.ts', '../index.ts'],
  ['src/index.ts', './cli/main.ts'],
  ['src/issue.ts', './units/length.ts'],
  ['src/geometry/a.ts', '../elsewhere/a.ts'],
  ['src/elsewhere/a.ts', '../units/length.ts'],
  ['src/cli/a.ts', '../../tests/support/space.ts'],
])('%s may not import %s, in any way', async (file, path) => {
  const ways = [
    importing(path),
    `import type { X } from '${path}';\n\nexport type Y = X;\n`,
    `export { x } from '${path}';\n`,
    `export * from '${path}';\n`,
    `export const y = async (): Promise<unknown> => import('${path}');\n`,
    `export type Y = import('${path}').X;\n`,
  ];
  for (const way of ways) expect(await lint(file, way), way).toContain('soapstone/arrows');
});

test('no file imports what imports it again, types included', async () => {
  // Both mates and the development use vectors.
  const ways = [
    importing('./mates/cylinder.ts'),
    "import type { X } from './development.ts';\n\nexport type Y = X;\n",
    "export type Y = import('./development.ts').X;\n",
  ];
  for (const way of ways)
    expect(await lint('src/geometry/vector.ts', way), way).toContain('soapstone/no-cycle');
  expect(await lint('src/geometry/development.ts', importing('./vector.ts'))).not.toContain(
    'soapstone/no-cycle',
  );
});

test.each([
  ['src/geometry/a.ts', '../units/length.ts'],
  ['src/geometry/mates/a.ts', '../vector.ts'],
  ['src/geometry/a.ts', '../issue.ts'],
  ['src/geometry/mates/a.ts', '../../issue.ts'],
  ['src/render/a.ts', '../paging/book.ts'],
  ['src/cli/a.ts', '../render/pdf.ts'],
  ['src/cli/a.ts', '../index.ts'],
  ['src/index.ts', './paging/book.ts'],
  ['src/geometry/a.ts', 'fraction.js'],
])('%s may import %s', async (file, path) => {
  expect(await lint(file, importing(path))).not.toContain('soapstone/arrows');
});

test.each(['node:fs', 'fs', 'node:fs/promises', 'path', 'node:buffer', 'node:test'])(
  'only the files that touch the machine may import %s',
  async (name) => {
    for (const folder of [
      'units',
      'geometry',
      'stock',
      'joint',
      'scene',
      'drawing',
      'fields',
      'sheets',
      'layouts',
      'paging',
      'render',
      'page',
    ])
      expect(await lint(`src/${folder}/a.ts`, importing(name)), folder).toContain('soapstone/arrows');
    const machine = [
      'src/cli/a.ts',
      'src/jobs/a.ts',
      'src/proof/a.ts',
      'src/render/write-file.ts',
      'src/render/font-files.ts',
      'src/words/catalog-file.ts',
    ];
    for (const file of machine) expect(await lint(file, importing(name)), file).toEqual([]);
  },
);

test.each(['Buffer', 'process', 'require', '__dirname'])(
  'the global %s stays in the same files',
  async (name) => {
    const code = `export const f = (): unknown => ${name};\n`;
    expect(await lint('src/geometry/a.ts', code)).toContain('no-restricted-globals');
    expect(await lint('src/render/pdf.ts', code)).toContain('no-restricted-globals');
    expect(await lint('src/cli/a.ts', code)).not.toContain('no-restricted-globals');
  },
);

test.each([
  ['export default 1;\n', 'no-restricted-syntax'],
  ['const a = 1;\n\nexport { a as default };\n', 'no-restricted-syntax'],
  ['export enum Colour {\n  Red,\n}\n', 'no-restricted-syntax'],
  ['export class Thing {\n  x = 1;\n}\n', 'no-restricted-syntax'],
  ["export const f = (): void => console.log('x');\n", 'no-console'],
  ['export const a = (b: number): boolean => b == 1;\n', 'eqeqeq'],
  [`export const a = 1;\n${'// a line\n'.repeat(500)}`, 'max-lines'],
])('house style: %j', async (code, rule) => {
  expect(await lint('src/geometry/a.ts', code)).toEqual([rule]);
});

test('errors may be classes, and 300 lines are allowed', async () => {
  expect(await lint('src/issue.ts', 'export class E extends Error {\n  readonly x = 1;\n}\n')).toEqual([]);
  expect(await lint('src/geometry/a.ts', `export const a = 1;\n${'// a line\n'.repeat(299)}`)).toEqual([]);
});
