import type { Values } from '../../../fields/field.ts';
import {
  angleField,
  choiceField,
  countField,
  lengthField,
  pipeField,
  stockField,
} from '../../../fields/fields.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { tapeStartField } from '../../../sheets/holes.ts';
import { massFields } from '../../../sheets/plate-mass.ts';

export const plateShapes = ['rectangle', 'disc', 'ring', 'gusset', 'base', 'cap'] as const;
export type PlateShape = (typeof plateShapes)[number];

const size = (help: string, example: string, max = 20_000) =>
  lengthField(help, { example, above: 0, max, optional: true });

/** What is asked for. */
export const plateFields = {
  shape: choiceField('the part', plateShapes, { default: 'rectangle' }),
  width: size('width of a rectangle or base plate; a gusset’s foot', '300mm'),
  height: size('height of a rectangle or base plate; a gusset’s upright', '200mm'),
  diameter: size('outside diameter of a disc or ring', '250mm'),
  bore: size('diameter of a hole in the middle; a ring’s inside', '120mm'),
  cornerRadius: size('radius of a rectangle’s corners', '15mm', 5000),
  snip: size('cut off at 45° at a rectangle’s corners; cut off at a gusset’s corner', '20mm', 5000),
  angle: angleField('angle between a gusset’s legs', {
    default: '90',
    example: '60',
    min: 10 * DEGREE,
    max: 170 * DEGREE,
  }),
  nose: lengthField('a gusset’s ends cut square to its legs by this much', {
    default: '0mm',
    example: '12mm',
    max: 1000,
  }),
  cope: pipeField('pipe across a gusset that it is coped for', { optional: true }),
  copeGap: lengthField('gap around the coped pipe', { default: '2mm', example: '2mm', max: 200 }),
  copeAt: lengthField('center of that pipe from the corner, along the foot and up; left out, on the corner', {
    example: '-50mm,80mm',
    min: -20_000,
    max: 20_000,
    list: 2,
    optional: true,
  }),
  pipe: pipeField('pipe that stands on a base plate or that a cap closes', { optional: true }),
  tube: stockField('square or rectangular tube, instead of a pipe', {
    example: 'tube 100x100x6mm',
    kinds: ['tube'],
    optional: true,
  }),
  fit: choiceField(
    'a cap is flush with the outside, drops in, or lies over the end with a ledge for the weld',
    ['flush', 'inside', 'over'],
    { default: 'flush' },
  ),
  clearance: lengthField('clear of the bore all around, for a cap that drops in', {
    default: '1mm',
    example: '1mm',
    max: 50,
  }),
  overhang: lengthField('past the outside all around, for a cap over the end', {
    default: '6mm',
    example: '6mm',
    max: 500,
  }),
  hole: size('diameter of the holes', '18mm', 2000),
  holes: countField('number of holes on a circle', { example: '4', min: 1, max: 360, optional: true }),
  circle: size('diameter of the circle the holes stand on', '200mm'),
  start: choiceField(
    'straddle: the center lines run between holes; on: the first hole lies on the center line at 0°',
    ['straddle', 'on'],
    { default: 'straddle' },
  ),
  turn: angleField('turns the holes on their circle counter-clockwise from there', {
    default: '0',
    example: '7.5',
  }),
  columns: countField('holes in a row; left out, 2', { example: '2', min: 1, max: 200, optional: true }),
  rows: countField('rows of holes; left out, 2', { example: '2', min: 1, max: 200, optional: true }),
  columnPitch: size('center to center along a row', '200mm'),
  rowPitch: size('center to center from row to row', '120mm'),
  edge: lengthField(
    'instead of pitches, from the edges to the outermost centers: one, or sides,top-and-bottom',
    { example: '40mm', above: 0, list: 'both', optional: true },
  ),
  slot: size('length over the ends, where holes are slots as wide as the hole', '35mm', 2000),
  slotAlong: choiceField('which way slots in rows run; on a circle they run along it', ['across', 'up'], {
    default: 'across',
  }),
  holeAt: lengthField(
    'one more hole: right,up from the left and lower edge, on a disc from its center, on a gusset from its corner; a third length is its own diameter',
    { example: '60mm,40mm', min: -20_000, max: 20_000, list: true, many: true },
  ),
  tapeStart: tapeStartField,
  ...massFields,
} as const;

/** What the inputs read to. */
export type PlateAsked = Values<typeof plateFields>;
