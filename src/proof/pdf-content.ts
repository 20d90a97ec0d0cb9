import { readObjects } from './pdf-objects.ts';
import {
  beginRun,
  failAt,
  operators,
  type PdfFill,
  type PdfLettering,
  type PdfStroke,
} from './pdf-operators.ts';
import { isArray, isName, isOperator, isText, type PdfDict, type PdfValue } from './pdf-values.ts';
import { say } from '../words/say.ts';

export type { PdfFill, PdfLettering, PdfStroke } from './pdf-operators.ts';

export interface PageContent {
  readonly strokes: readonly PdfStroke[];
  readonly fills: readonly PdfFill[];
  readonly letterings: readonly PdfLettering[];
  /** Every operator that was used. */
  readonly operators: ReadonlySet<string>;
}

/** An operand as the program writes it. */
const writeOperand = (value: PdfValue): string => {
  if (isName(value)) return `/${value.name}`;
  if (isText(value)) return `<${Buffer.from(value.raw, 'latin1').toString('hex')}>`;
  if (isArray(value)) return `[${value.map(writeOperand).join(' ')}]`;
  return typeof value === 'number' ? String(value) : say`other`;
};

/**
 * A page's content as the program writes it, one operator with its operands each: what was saved again by another
 * program, with other spaces and line ends, reads the same.
 */
export const listOperators = (content: string): readonly string[] => {
  const lexer = readObjects(content, 0, false);
  const listed: string[] = [];
  let operands: string[] = [];
  for (let token = lexer.next(); token !== undefined; token = lexer.next()) {
    if (!isOperator(token)) {
      operands.push(writeOperand(token));
      continue;
    }
    listed.push([...operands, token.name].join(' '));
    operands = [];
  }
  return [...listed, ...operands];
};

/**
 * Runs a page's content stream (ISO 32000-1 §8, §9) and collects what it paints. `layerOf` gives the name of the optional
 * content group behind a property name. Throws on an operator it does not know, a wrong operand, unbalanced q/Q or
 * BDC/EMC, and anything painted outside a layer.
 */
export function readContent(
  content: string,
  layerOf: (property: string) => string,
  states: PdfDict,
): PageContent {
  const lexer = readObjects(content, 0, false);
  const run = beginRun({ layerOf, states, position: () => lexer.position });
  const used = new Set<string>();
  for (let token = lexer.next(); token !== undefined; token = lexer.next()) {
    if (!isOperator(token)) {
      if (run.operands.push(token) > 32) failAt(run, say`an operator with more operands than any has`);
      continue;
    }
    const operate =
      operators.get(token.name) ?? failAt(run, say`unknown operator ${token.name.slice(0, 20)}`);
    operate(run);
    used.add(token.name);
    run.operands = [];
  }
  if (run.saved.length > 0 || run.marks.length > 0) failAt(run, say`q or BDC left open`);
  return { strokes: run.strokes, fills: run.fills, letterings: run.letterings, operators: used };
}
