import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { provePrint } from '../../src/cli/prove-print.ts';
import { runTool, withFile } from './external.ts';
import { readTexts } from './pdf-texts.ts';

/** A copy with one bit turned over. */
export const flipBit = (bytes: Uint8Array, bit: number): Uint8Array => {
  const flipped = Uint8Array.from(bytes);
  flipped[bit >> 3] = (flipped[bit >> 3] ?? 0) ^ (1 << (bit & 7));
  return flipped;
};

/** So many different bits of a file, the same for the same seed (a linear congruential generator, Numerical Recipes §7.1). */
export const pickBits = (count: number, bytes: number, seed: number): readonly number[] => {
  const picked = new Set<number>();
  for (let state = seed; picked.size < count;) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    picked.add(Math.floor((state / 2 ** 32) * bytes * 8));
  }
  return [...picked];
};

/** Every page as poppler paints it, and the text another reader finds. */
export const paint = async (
  bytes: Uint8Array,
): Promise<{ readonly pages: readonly string[]; readonly text: string }> => {
  const pages = withFile(bytes, (file, folder) => {
    runTool('pdftoppm', ['-r', '60', '-gray', file, join(folder, 'page')]);
    return readdirSync(folder)
      .filter((name) => name.endsWith('.pgm'))
      .sort()
      .map((name) => readFileSync(join(folder, name)).toString('latin1'));
  });
  const text = await readTexts(bytes).then((texts) => texts.join('\n'));
  return { pages, text };
};

/** Bits whose turning over passes although the print is not painted, or does not read, as before. */
export const findMissed = async (
  bytes: Uint8Array,
  bits: readonly number[],
): Promise<{ readonly missed: readonly number[]; readonly passed: number }> => {
  const wanted = await paint(bytes);
  const missed: number[] = [];
  let passed = 0;
  for (const bit of bits) {
    const flipped = flipBit(bytes, bit);
    const { ok } = await provePrint(flipped);
    if (!ok) continue;
    passed += 1;
    const found = await paint(flipped).catch(() => undefined);
    if (found?.text !== wanted.text || found.pages.join() !== wanted.pages.join()) missed.push(bit);
  }
  return { missed, passed };
};
