import type { Values } from '../../../fields/field.ts';
import { choiceField, countField, lengthField } from '../../../fields/fields.ts';
import { tapeStartField } from '../../../sheets/holes.ts';

const sizeField = (help: string, example: string) =>
  lengthField(help, { example, above: 0, max: 20_000, optional: true });

/** What is asked for. */
export const gridFields = {
  columns: countField('holes in a row', { example: '4', min: 1, max: 200 }),
  columnPitch: sizeField('center to center along a row', '75mm'),
  rows: countField('rows; 1 for a strip', { default: '1', example: '2', min: 1, max: 200 }),
  rowPitch: sizeField('center to center from row to row', '100mm'),
  hole: lengthField('diameter of the holes', { example: '18mm', above: 0, max: 2000 }),
  stagger: lengthField('how far every second row is moved along', {
    default: '0mm',
    example: '37.5mm',
    min: -20_000,
    max: 20_000,
  }),
  slot: sizeField('length over the ends, where holes are slots as wide as the hole', '35mm'),
  slotAlong: choiceField('which way slots run: along the rows, or square to them', ['row', 'column'], {
    default: 'row',
  }),
  width: sizeField('width of the plate, along the rows', '400mm'),
  height: sizeField('height of the plate', '200mm'),
  left: sizeField(
    'from the plate’s left edge to the first column; left out, the holes stand in the middle',
    '50mm',
  ),
  bottom: sizeField(
    'from the plate’s lower edge to the first row; left out, the holes stand in the middle',
    '50mm',
  ),
  tapeStart: tapeStartField,
} as const;

/** What the inputs read to. */
export type GridAsked = Values<typeof gridFields>;
