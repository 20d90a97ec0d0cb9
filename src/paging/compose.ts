import { moveMarks } from '../drawing/extent.ts';
import type { Box, Mark } from '../drawing/model.ts';
import type { Block } from './block.ts';
import { boxAt, GAP, isOverlapping } from './box.ts';
import { type Furniture } from './furniture.ts';
import { joinViews } from './picture-block.ts';
import { drawHead, type Head } from './text-blocks.ts';
import { composeFreely, composeZones, fillSpaces, type Ground, type Zoned } from './zones.ts';

/** The head at the top left of the field, or undefined where furniture stands there. */
export const placeHead = (
  { field, taken, headWidth }: Furniture,
  sheet: Head,
): { marks: Mark[]; box: Box } | undefined => {
  const head = drawHead(sheet, headWidth);
  const box = boxAt(field.minX, field.maxY - head.height, head.width, head.height);
  if (taken.some((other) => isOverlapping(other, box))) return undefined;
  return { box, marks: moveMarks(head.marks, box.minX, box.minY) };
};

/** The views side by side as one block. */
const joined = (blocks: readonly Block[]): readonly Block[] => {
  const views = blocks.filter(({ kind }) => kind === 'picture');
  return views.length < 2 ? blocks : [...blocks.filter(({ kind }) => kind !== 'picture'), joinViews(views)];
};

/**
 * A page with the whole drawing and the blocks: in their zones, else on any free ground, as many as go there. Undefined
 * where the drawing does not go on the page. Where a page is `isTight` every order of the blocks is tried; a roll is cut longer
 * instead.
 */
export const composePage = (
  furniture: Furniture,
  sheet: Head,
  blocks: readonly Block[],
  drawing: Ground,
  isTight: boolean,
): Zoned | undefined => {
  const head = placeHead(furniture, sheet);
  if (!head) return undefined;
  const field = { ...furniture.zones, maxY: head.box.minY - GAP };
  const zoned =
    composeZones(field, drawing, joined(blocks)) ??
    composeZones(field, drawing, blocks) ??
    composeFreely(furniture.field, [...furniture.taken, head.box], drawing, blocks, isTight);
  return zoned && { ...zoned, draw: () => [...head.marks, ...zoned.draw()] };
};

/** The ground for blocks on a page without a drawing, under its head. */
export const notesField = (furniture: Furniture, sheet: Head): Box => {
  const head = placeHead(furniture, sheet);
  return head ? { ...furniture.zones, maxY: head.box.minY - GAP } : furniture.zones;
};

/** A page of blocks without a drawing, as many as it holds, and the blocks that are left over. */
export const composeNotes = (
  furniture: Furniture,
  sheet: Head,
  blocks: readonly Block[],
): { draw: () => readonly Mark[]; rest: readonly Block[] } => {
  const head = placeHead(furniture, sheet);
  const field = notesField(furniture, sheet);
  const views = fillSpaces([[field]], joined(blocks));
  const { draw, left } = views.left.length === 0 ? views : fillSpaces([[field]], blocks);
  return { draw: () => [...(head?.marks ?? []), ...(draw[0]?.() ?? [])], rest: left };
};
