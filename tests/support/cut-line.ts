import { expect } from 'vitest';
import type { Texts } from '../../src/index.ts';
import { samplePath, sheetStrokes } from './pdf-reader.ts';
import { printAndRead } from './print.ts';
import type { Vec2 } from './space.ts';

/** Wide enough that the cut line is one stroke. */
export const WIDE_PAPER = '4000x3000mm';

/** The cut line's points by station in turns of the pipe, from the bytes of its print. */
export const readCut = async (
  layout: string,
  texts: Texts,
  od: number,
  paper = 0.1,
): Promise<readonly Vec2[]> => {
  const { file } = await printAndRead(layout, { ...texts, paper: WIDE_PAPER });
  const sheet = file.record?.sheets[0]?.name ?? '';
  const strokes = sheetStrokes(file, sheet, 'cut');
  expect(strokes).toHaveLength(1);
  return samplePath(strokes[0]!.path, 0.5).map(({ x, y }) => ({ x: x / (Math.PI * (od + paper)), y }));
};
