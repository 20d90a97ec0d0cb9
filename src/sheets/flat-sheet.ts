import { markBounds } from '../drawing/extent.ts';
import type { Sheet } from '../drawing/model.ts';
import { growBox, unionBox } from '../drawing/paths.ts';

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
