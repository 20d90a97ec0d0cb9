import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';

const root = join(import.meta.dirname, '../..');

/** What is found in the code: texts that are said, and texts that people would see and that are not. */
export interface Found {
  /** The English of each text in a tag, with where it stands. */
  readonly said: ReadonlyMap<string, string>;
  readonly untagged: readonly string[];
  /** Every string in the code, for names that are translated where they are shown. */
  readonly strings: ReadonlySet<string>;
}

const keyOf = (template: ts.TemplateLiteral): string =>
  ts.isNoSubstitutionTemplateLiteral(template)
    ? template.text
    : template.head.text + template.templateSpans.map(({ literal }, i) => `{${i}}${literal.text}`).join('');

/** What a sheet or an issue says stands under these names. */
const shown = new Set([
  'heading',
  'steps',
  'subject',
  'cautions',
  'facts',
  'message',
  'hint',
  'wrap',
  'after',
]);
/** Calls that tell people something, and the arguments they tell it by. */
const telling = new Map<string, readonly number[]>([
  ['requestError', [2, 3]],
  ['jointError', [2, 3]],
  ['fileError', [2, 3]],
  ['makeIssue', [2, 3]],
  ['refuse', [1, 2]],
  ['makePicture', [0]],
]);

const hasWords = (text: string): boolean => /\p{L}{3}/u.test(text.replace(/\{\d+\}/g, ''));

/** Texts that stand bare in an expression: in it, in its branches, in its list. */
const bareTexts = (node: ts.Expression): readonly ts.Node[] => {
  if (ts.isStringLiteral(node)) return hasWords(node.text) ? [node] : [];
  if (ts.isNoSubstitutionTemplateLiteral(node) || ts.isTemplateExpression(node))
    return hasWords(keyOf(node)) ? [node] : [];
  if (ts.isParenthesizedExpression(node)) return bareTexts(node.expression);
  if (ts.isConditionalExpression(node)) return [...bareTexts(node.whenTrue), ...bareTexts(node.whenFalse)];
  if (ts.isArrayLiteralExpression(node)) return node.elements.flatMap(bareTexts);
  if (ts.isSpreadElement(node)) return bareTexts(node.expression);
  return [];
};

const bareIn = (node: ts.Node): readonly ts.Node[] => {
  if (ts.isPropertyAssignment(node) && ts.isIdentifier(node.name) && shown.has(node.name.text))
    return bareTexts(node.initializer);
  if (!ts.isCallExpression(node)) return [];
  const { expression } = node;
  const name = ts.isIdentifier(expression)
    ? expression.text
    : ts.isPropertyAccessExpression(expression)
      ? expression.name.text
      : '';
  return (telling.get(name) ?? []).flatMap((i) => {
    const argument = node.arguments[i];
    return argument === undefined ? [] : bareTexts(argument);
  });
};

const listSources = (): readonly string[] =>
  readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file))
    .map((file) => `src/${file.replaceAll('\\', '/')}`);

/** Reads all of `src`. */
export const findTexts = (): Found => {
  const said = new Map<string, string>();
  const untagged: string[] = [];
  const strings = new Set<string>();
  for (const file of listSources()) {
    if (/^src\/words\/es\.ts$|^src\/stock\/tables\//.test(file)) continue;
    const source = ts.createSourceFile(
      file,
      readFileSync(join(root, file), 'utf8'),
      ts.ScriptTarget.Latest,
      true,
    );
    const placeOf = (node: ts.Node): string =>
      `${file}:${source.getLineAndCharacterOfPosition(node.getStart()).line + 1}`;
    const visit = (node: ts.Node): void => {
      if (ts.isTaggedTemplateExpression(node) && ts.isIdentifier(node.tag) && node.tag.text === 'say')
        said.set(keyOf(node.template), placeOf(node));
      // Names with a number at their end are known without it.
      if (ts.isStringLiteral(node)) strings.add(node.text).add(node.text.replace(/ \d+$/, ''));
      untagged.push(...bareIn(node).map((bare) => `${placeOf(bare)} ${bare.getText().slice(0, 60)}`));
      if (ts.isJsxText(node) && hasWords(node.text)) untagged.push(`${placeOf(node)} ${node.text.trim()}`);
      ts.forEachChild(node, visit);
    };
    visit(source);
  }
  return { said, untagged, strings };
};
