import { markBounds } from '../drawing/extent.ts';
import type { Sheet } from '../drawing/model.ts';
import { growBox, unionBox } from '../drawing/shape.ts';
import { say } from '../words/say.ts';

/** A sheet from its parts: `bounds` is what the marks take, with half a millimetre round it; lists left out are empty. */
export const plateSheet = (
  parts: Pick<Sheet, 'name' | 'heading' | 'subject' | 'marks' | 'steps'> & Partial<Sheet>,
): Sheet => ({
  facts: [],
  tables: [],
  pictures: [],
  cautions: [],
  bounds: growBox(unionBox(parts.marks.map(markBounds)), 0.5),
  ...parts,
});

/** The first step of every flat sheet. */
export const CHECK_PRINT = (): string =>
  say`Check the print: every 100 mm rule is 100 mm long, every 4 in rule 4 in.`;
