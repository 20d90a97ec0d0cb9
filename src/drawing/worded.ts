import type { Figure, Said, Words } from './model.ts';

/** Marks that hold a value's place while its text is put together. No printed text uses these characters. */
const [OPEN, CLOSE] = ['\uE000', '\uE001'];
const PLACE = new RegExp(`${OPEN}(\\d+)${CLOSE}`);

/**
 * Words with values in them: `worded((value) => say\`${value(width)} by ${value(height)}\`)`. Another language may put them
 * in another order.
 */
export const worded = (write: (value: (figure: Figure) => string) => string): Words => {
  const figures: Figure[] = [];
  const text = write((figure) => `${OPEN}${figures.push(figure) - 1}${CLOSE}`);
  const parts = text.split(PLACE).map((part, i) => (i % 2 === 0 ? part : (figures[Number(part)] ?? '')));
  return { kind: 'words', parts: parts.filter((part) => part !== '') };
};

/** The values in what is said, in the order they are read. */
export const valuesOf = (said: Said): readonly Figure[] => {
  if (typeof said === 'string') return [];
  return said.kind === 'words' ? said.parts.filter((part) => typeof part !== 'string') : [said];
};

/** A value written once, in the reader's unit: a column of these is not printed in two. */
export const once = (figure: Figure): Words => ({ kind: 'words', parts: [figure] });
