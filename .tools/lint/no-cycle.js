import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';

const known = new Map();

/** The files that a file imports in any way, types too. Each is read once, by what it imports alone. */
const importsOf = (file) => {
  if (!known.has(file)) {
    const { importedFiles } = ts.preProcessFile(existsSync(file) ? readFileSync(file, 'utf8') : '');
    const names = importedFiles.map(({ fileName }) => fileName).filter((name) => name.startsWith('.'));
    known.set(
      file,
      names.map((name) => path.resolve(path.dirname(file), name)),
    );
  }
  return known.get(file);
};

/** True where a file is another one, or imports it, itself or through others. */
const reaches = (from, to) => {
  const files = new Set([from]);
  for (const file of files) {
    if (file === to) return true;
    for (const next of importsOf(file)) files.add(next);
  }
  return false;
};

/** ESLint rule: no file imports what imports it again, types included. */
export const noCycle = {
  meta: {
    type: 'problem',
    schema: [],
    messages: { cycle: '{{name}} imports this file again, itself or through others.' },
  },
  create: ({ filename, report }) => {
    const check = (node) => {
      const name = node?.value;
      if (typeof name !== 'string' || !name.startsWith('.')) return;
      if (reaches(path.resolve(path.dirname(filename), name), filename))
        report({ node, messageId: 'cycle', data: { name } });
    };
    return {
      ImportDeclaration: ({ source }) => check(source),
      ExportNamedDeclaration: ({ source }) => check(source),
      ExportAllDeclaration: ({ source }) => check(source),
      ImportExpression: ({ source }) => check(source),
      TSImportType: ({ source }) => check(source),
    };
  },
};
