import type { Sheet } from '../../../drawing/model.ts';
import { allOrNone, needed, onlyOne } from '../../../fields/among.ts';
import { angleField, choiceField, countField, lengthField, stockField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { jointError, requestError } from '../../../issue.ts';
import { say } from '../../../words/say.ts';
import { braceSheet } from './compound-brace.ts';
import { formatAngle } from '../../../units/angle.ts';
import { sidesSheet } from './compound-sides.ts';

/**
 * Cuts that lean in two planes: sloping sides that meet at a corner, or a bar that runs askew from an upright face. The sheet holds
 * one full-size card for every angle that is set; its origin is the corner of the first card.
 */
export const compound = defineLayout({
  id: 'compound',
  summary:
    'cuts that lean in two planes: both saw settings and cards to set them by (origin at the first card’s corner)',
  family: 'angles and squares',
  words: ['hopper', 'pyramid', 'compound miter', 'splay', 'saw tilt', 'brace'],
  fields: {
    for: choiceField(
      'sides: sloping sides of a hopper, hood, tray or hip; brace: a bar that runs askew from an upright face',
      ['sides', 'brace'],
      { default: 'sides' },
    ),
    slope: angleField('slope of the sides from level; 90 stands upright', {
      example: '60',
      above: 0,
      max: 90 * DEGREE,
      optional: true,
    }),
    otherSlope: angleField('slope of the second side; left out, as the first', {
      example: '45',
      above: 0,
      max: 90 * DEGREE,
      optional: true,
    }),
    corner: angleField(
      'angle between the level edges, seen from above; left out, 90 or what the number of sides gives',
      { example: '90', min: 15 * DEGREE, max: 170 * DEGREE, optional: true },
    ),
    sides: countField('number of equal sides all around, instead of the corner', {
      example: '6',
      min: 3,
      max: 36,
      optional: true,
    }),
    height: lengthField('upright height of the sides, for their length up the slope', {
      example: '400mm',
      above: 0,
      max: 20_000,
      optional: true,
    }),
    swing: angleField(
      'brace: turn to the left from square to the face, seen from above; negative to the right',
      { example: '30', min: -75 * DEGREE, max: 75 * DEGREE, optional: true },
    ),
    rise: angleField('brace: rise from level; negative falls', {
      example: '35',
      min: -75 * DEGREE,
      max: 75 * DEGREE,
      optional: true,
    }),
    width: lengthField('brace: width of the bar, level across', {
      example: '50mm',
      above: 0,
      max: 2000,
      optional: true,
    }),
    depth: lengthField('brace: depth of the bar, top to bottom', {
      example: '50mm',
      above: 0,
      max: 2000,
      optional: true,
    }),
    stock: stockField(
      'the stock: of a brace its position 0 on top, of sides its first size up the slope; gives cut lengths and a setting for every face',
      { example: 'tube 50x50x4mm', optional: true },
    ),
    length: lengthField(
      'brace: along its center line, from face to a parallel face; sides: the longest level edge, outside corner to outside corner, one for all or side 1,side 2',
      { example: '900mm', above: 0, max: 100_000, list: true, optional: true },
    ),
    card: lengthField('radius of the cards', { default: '64mm', example: '100mm', min: 50, max: 500 }),
  },
  examples: [
    'compound --slope 60 --sides 4',
    'compound --slope 45 --other-slope 60 --corner 90 --height 400mm',
    'compound --slope 60 --sides 4 --stock "flat 150x6mm" --length 600mm',
    'compound --for brace --swing 30 --rise 35 --stock "tube 50x50x4mm" --length 900mm -o brace.pdf',
  ],
  draw: (asked, setting): readonly Sheet[] => {
    const names = {
      sides: ['slope', 'otherSlope', 'corner', 'sides', 'height'],
      brace: ['swing', 'rise', 'width', 'depth'],
    } as const;
    const stray = names[asked.for === 'sides' ? 'brace' : 'sides'].find((name) => asked[name] !== undefined);
    if (stray !== undefined)
      throw requestError(
        stray.replace('otherSlope', 'other-slope'),
        'not-for-this',
        say`${stray === 'otherSlope' ? 'other-slope' : stray} has no meaning for ${asked.for}`,
        asked.for === 'sides' ? say`add --for brace, or leave it out` : say`leave out --for brace, or this`,
      );
    if (asked.for === 'brace') {
      const { swing, rise, width, depth, stock, length, card } = asked;
      onlyOne({ width, stock }, say`give one: the stock has its own width and depth`);
      allOrNone({ width, depth }, say`give both, or neither`);
      const lean = say`a brace needs swing and rise: --swing 30 --rise 35; 0 where it does not lean`;
      const brace = { swing: needed('swing', swing, lean), rise: needed('rise', rise, lean) };
      if ((length?.length ?? 0) > 1)
        throw requestError(
          'length',
          'many-lengths',
          say`a brace has one length`,
          say`give one, such as --length 900mm`,
        );
      return [braceSheet({ ...brace, width, depth, stock, length: length?.[0], card }, setting)];
    }
    const { otherSlope, corner, sides, height, stock, length, card } = asked;
    const slope = needed('slope', asked.slope, say`give it from level: --slope 60`);
    onlyOne({ sides, corner }, say`give one: the number of equal sides sets the corner`);
    if ((length?.length ?? 0) > (otherSlope === undefined ? 1 : 2))
      throw requestError(
        'length',
        'many-lengths',
        say`there are more lengths than kinds of sides`,
        say`give one for all sides, or side 1,side 2 with other-slope`,
      );
    if (length) needed('stock', stock, say`cut lengths run over its sizes: add --stock "flat 150x6mm"`);
    if (sides !== undefined && otherSlope !== undefined && sides !== 4)
      throw requestError(
        'other-slope',
        'unequal-round',
        say`two slopes do not go around ${sides} equal corners`,
        say`two slopes need corner, or sides 4`,
      );
    const plan = corner ?? (sides === undefined ? 90 * DEGREE : Math.PI - (2 * Math.PI) / sides);
    const second = otherSlope ?? slope;
    if (Math.max(slope, second) < 1 * DEGREE)
      throw jointError(
        'slope',
        'nearly-flat',
        say`sides at ${formatAngle(slope, 3)} and ${formatAngle(second, 3)} lie flat: they have no joint that leans`,
        say`give a slope of at least 1°, or use angle for a flat miter`,
      );
    return [
      sidesSheet(
        { plan, slope, otherSlope: second, sides, height, stock, lengths: length ?? [], card },
        setting,
      ),
    ];
  },
});
