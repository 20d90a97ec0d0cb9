import { ESLintUtils } from '@typescript-eslint/utils';

/** The object literal that a name stands for all through its file, or nothing. */
const findTable = (identifier, scope) => {
  for (let at = scope; at; at = at.upper) {
    const variable = at.set.get(identifier.name);
    if (!variable) continue;
    const { node, parent } = variable.defs[0] ?? {};
    if (node?.type !== 'VariableDeclarator' || parent?.kind !== 'const') return undefined;
    let value = node.init;
    while (value?.type === 'TSAsExpression' || value?.type === 'TSSatisfiesExpression')
      value = value.expression;
    return value?.type === 'ObjectExpression' && value.properties.length > 0 ? value : undefined;
  }
  return undefined;
};

const isOpen = (type) =>
  type.isUnion() ? type.types.some(isOpen) : type.intrinsicName === 'string' || type.intrinsicName === 'any';

/**
 * ESLint rule: a table of words is not read by a text that could be any. `constructor` and `toString` are in every object
 * literal, so that a person who types one of them would be given a function for a size.
 */
export const ownKeys = {
  meta: {
    type: 'problem',
    schema: [],
    messages: {
      open: 'This text may be "constructor", which every object has: make the table a Map.',
    },
  },
  create: (context) => {
    const services = ESLintUtils.getParserServices(context, true);
    if (!services.program) return {};
    return {
      MemberExpression: (node) => {
        if (!node.computed || node.object.type !== 'Identifier') return;
        const key = node.property;
        if (key.type === 'Literal') return;
        const isCast = key.type === 'TSAsExpression';
        if (!isCast && !isOpen(services.getTypeAtLocation(key))) return;
        if (findTable(node.object, context.sourceCode.getScope(node)))
          context.report({ node, messageId: 'open' });
      },
    };
  },
};
