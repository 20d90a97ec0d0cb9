import { encode } from 'uqr';
import type { Box, Fill, Mark } from '../drawing/model.ts';
import { onceForLast } from '../drawing/once.ts';
import { boxPath, growBox } from '../drawing/paths.ts';
import { boxAt } from './box.ts';
import type { PagingOptions } from './options.ts';
import { say } from '../words/say.ts';

/**
 * Side of the symbol on a sheet's first page, mm. Its quiet zone of four modules (ISO/IEC 18004) makes 15 mm and more of
 * it; modules of 0.36 mm and more are read from a laser print.
 */
export const codeSide = 13.3;
/** Modules along the side of the largest symbol used (version 5), and of the smallest (version 2). */
const mostModules = 37;
const leastVersion = 2;
/** Modules grow by so much, mm, lest viewers show seams between them. */
const bleed = 0.01;

const codeTexts = ({ title, identity }: PagingOptions): readonly string[] => {
  const { piece = '', revision } = title;
  const rest = [...(revision === undefined ? [] : [say`rev ${revision}`]), identity];
  const whole = [...(piece === '' ? [] : [piece]), ...rest].join(' ');
  const cut = [40, 20, 8].map((length) => `${[...piece].slice(0, length).join('')}… ${rest.join(' ')}`);
  return [whole, ...cut, identity];
};

/** Rows of modules, top row first. */
type Rows = readonly (readonly boolean[])[];

/** A mark too long for the symbol is cut. */
const encodeTexts = (texts: readonly string[]): Rows => {
  for (const text of texts)
    for (const ecc of ['M', 'L'] as const) {
      const { size, data } = encode(text, { ecc, border: 0, minVersion: leastVersion, boostEcc: true });
      if (size <= mostModules) return data;
    }
  throw new Error('an identity alone fits every symbol');
};

/** One print has one code; its pages are planned many times before they are drawn. */
const rowsOf = onceForLast((options: PagingOptions): Rows => encodeTexts(codeTexts(options)));

/** The symbol that holds the piece's mark, its revision and the identity as plain text, at a corner. */
export const drawCode = (
  corner: { readonly x: number; readonly y: number },
  options: PagingOptions,
): Mark[] => {
  const rows = rowsOf(options);
  const module = (codeSide - bleed) / rows.length;
  const [left, top] = [corner.x + bleed / 2, corner.y + codeSide - bleed / 2];
  return rows.flatMap((row, r) => {
    const runs: Fill[] = [];
    for (let from = 0; from < row.length; from += 1) {
      if (row[from] !== true) continue;
      let to = from;
      while (row[to] === true) to += 1;
      const box = boxAt(left + from * module, top - (r + 1) * module, (to - from) * module, module);
      runs.push({ kind: 'fill', role: 'page', ink: 'black', path: boxPath(growBox(box, bleed / 2)) });
      from = to;
    }
    return runs;
  });
};

/** The ground of the symbol by its upper right corner. */
export const codeBox = (right: number, top: number): Box =>
  boxAt(right - codeSide, top - codeSide, codeSide, codeSide);
