import { isBuiltin } from 'node:module';
import path from 'node:path';

/** Folders of `src` in their order of use: each may import from itself and from the rows above it. */
const order = [
  ['words'],
  ['units'],
  ['geometry'],
  ['stock'],
  ['joint'],
  ['scene'],
  ['drawing'],
  ['fields'],
  ['sheets'],
  ['layouts'],
  ['paging'],
  ['render'],
  ['jobs', 'proof'],
  ['cli', 'page'],
];

/** Files at the top of `src` that know no folder, so that every folder may use them. */
const common = ['issue.ts', 'version.ts', 'near-miss.ts', 'lists.ts', 'keep-compiled.ts'];

/** Folders that call the functions at the top of `src`, which put layouts, paging and writers together. */
const callers = ['jobs', 'cli', 'page'];

/** All that the proof uses besides itself and words: it shares nothing with what it measures, types included. */
const proofNeeds = /^(?:proof\/|words\/|render\/(?:content-digest|font-files)\.ts$)/;

/** The only places that touch the machine; everything else runs unchanged in a browser. */
const machine =
  /^(?:(?:cli|jobs|proof)\/|render\/(?:write-file|file-fault|drafts|owner|font-files|native)\.ts$|words\/catalog-file\.ts$)/;

const rank = (folder) => order.findIndex((row) => row.includes(folder));

/** Why `file` may not import `target`, both from `src` on with forward slashes; nothing where it may. */
const findFault = (file, target) => {
  const [from, to] = [file, target].map((name) => (name.includes('/') ? name.split('/')[0] : undefined));
  if (target.startsWith('../')) return `${target} lies outside src`;
  if (from === undefined)
    return common.includes(file) && !common.includes(target)
      ? `${file} is used by every folder and may use none of them`
      : [...callers, 'proof'].includes(to)
        ? `the functions at the top of src do not need ${to}, which calls them`
        : undefined;
  if (from === 'proof' && !proofNeeds.test(target) && !common.includes(target))
    return 'the proof shares nothing with what it measures';
  if (rank(from) < 0) return `src/${from} has no place in the order of use`;
  if (to === undefined)
    return callers.includes(from) || common.includes(target)
      ? undefined
      : `${from} may use only ${common.join(', ')} of the files at the top of src`;
  return from === to || (rank(to) >= 0 && rank(to) < rank(from))
    ? undefined
    : `arrows only run down, and ${from} does not stand above ${to}`;
};

/** ESLint rule: imports in `src` follow the order of use, and Node's own modules stay in the files that touch the machine. */
export const arrows = {
  meta: {
    type: 'problem',
    schema: [],
    messages: {
      arrow: 'Not to be imported here: {{fault}}.',
      node: '{{name}} is of Node, and this code also runs in a browser.',
    },
  },
  create: (context) => {
    const source = path.join(context.cwd, 'src');
    const locate = (name) => path.relative(source, name).split(path.sep).join('/');
    const file = locate(context.filename);

    const check = (node) => {
      const name = node?.value;
      if (typeof name !== 'string') return;
      if (isBuiltin(name) && !machine.test(file)) context.report({ node, messageId: 'node', data: { name } });
      if (!name.startsWith('.')) return;
      const fault = findFault(file, locate(path.resolve(path.dirname(context.filename), name)));
      if (fault) context.report({ node, messageId: 'arrow', data: { fault } });
    };
    return {
      ImportDeclaration: ({ source: name }) => check(name),
      ExportNamedDeclaration: ({ source: name }) => check(name),
      ExportAllDeclaration: ({ source: name }) => check(name),
      ImportExpression: ({ source: name }) => check(name),
      TSImportType: ({ source: name }) => check(name),
    };
  },
};
