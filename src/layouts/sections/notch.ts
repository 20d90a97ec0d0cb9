import type { Measured } from '../../drawing/measured.ts';
import type { Fact, Sheet } from '../../drawing/model.ts';
import { angleField, stockField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { jointError } from '../../issue.ts';
import { CHECK_PRINT, describeSource, describeStock } from '../../sheets/band-words.ts';
import { plateSheet } from '../../sheets/flat-sheet.ts';
import { shown } from '../../sheets/measured.ts';
import { chooseHinge, foldable, notchFields, notchOf } from '../../sheets/notch-fields.ts';
import { drawNotch } from '../../sheets/notch-marks.ts';
import { notchPicture } from '../../sheets/notch-picture.ts';
import type { Stock } from '../../stock/stock.ts';
import { formatAngle } from '../../units/angle.ts';
import { angleOf, lengthOf } from '../../units/quantity.ts';
import { writeBoth, writeSize } from '../../units/writing.ts';
import { say, translateName } from '../../words/say.ts';

/** A notch that leaves one wall as a hinge and folds to a turn. Origin: position 0 of the stock, middle of the bend. */
export const notch = defineLayout({
  id: 'notch',
  summary:
    'V-notch that leaves one wall as a hinge and folds to a turn (origin at position 0, middle of the bend)',
  family: 'sections',
  words: ['v-notch', 'miter notch', 'fold', 'bend angle iron', 'frame from one length', 'corner', 'hinge'],
  fields: {
    stock: stockField('the tube, angle or channel that is notched and folded', {
      example: 'angle 50x50x5mm',
      kinds: foldable,
    }),
    turn: angleField('how far the stock turns, away from straight', {
      example: '90',
      above: 0,
      below: Math.PI,
    }),
    ...notchFields,
  },
  examples: [
    'notch --stock "angle 50x50x5mm" --turn 60',
    'notch --stock "tube 4x3x1/4in" --turn 90 --relief 1/4in',
    'notch --stock "UPN 160" --turn 45 --gap 2mm -o notch.pdf',
  ],
  draw: (asked, setting): readonly Sheet[] => {
    const { stock, turn, gap, relief, bendRadius } = asked;
    const both = (length: number): string => writeBoth(length, setting);
    const hinge = chooseHinge(stock, asked.hinge);
    const solved = notchOf(stock, hinge, turn, asked, setting);
    if (solved.farHeight < 1e-6)
      throw jointError(
        'stock',
        'nothing-to-notch',
        say`${stock.designation} has nothing beside its ${translateName(hinge.face)} to notch`,
        say`bend it as it is; fold gives the places of its bends`,
      );
    const band = { stock, notch: solved, turn, hinge: hinge.face, gap, relief };
    const { marks, lines, figures, farWidth, height, allowance } = drawNotch(
      band,
      [say`KEEP · END 1`, say`KEEP · END 2`],
      setting,
    );
    return [
      plateSheet({
        name: 'notch',
        heading: say`Notch to fold`,
        subject: [
          say`Turn ${formatAngle(turn)}: notch of ${formatAngle(turn)}, ${both(solved.farWidth)} wide at the far edge`,
          describeStock(stock, setting),
          say`Hinge: ${translateName(hinge.face)}, ${writeSize(hinge.thickness, setting)} thick; ${gap > 0 ? say`root gap ${both(gap)}` : say`no root gap`}; ${bendRadius > 0 ? say`bend radius ${both(bendRadius)} inside` : say`sharp fold on the inside face`}`,
          `${describeSource(stock)}.`,
        ],
        marks,
        steps: notchSteps(hinge.face, relief > 0 ? both(relief) : undefined, formatAngle(turn)),
        facts: [
          [say`Circumference (tape check)`, lengthOf(stock.girth)],
          [say`Angle of the notch`, angleOf(turn)],
          [say`Width at the far edge`, shown(lengthOf(solved.farWidth), farWidth)],
          [say`Height of the notch over the hinge`, shown(lengthOf(solved.farHeight), height)],
          ...bendFacts(solved.allowance, asked.k, allowance),
        ],
        pictures: [notchPicture(stock, hinge, turn, both(solved.farWidth))],
        cautions: notchCautions(stock),
        fit: {
          lay: { kind: 'section', section: stock.section, lift: setting.paperThickness / 2 },
          wall: stock.wall,
          lines,
          figures,
        },
      }),
    ];
  },
});

/** The bend's length, how that is measured, and what it was reckoned with; nothing for a sharp fold. */
export const bendFacts = (allowance: number, k: number, measured: Measured | undefined): readonly Fact[] =>
  allowance === 0
    ? []
    : [
        [say`Bend allowance`, shown(lengthOf(allowance), measured)],
        [say`K, from the inside`, say`${k} of the thickness`],
      ];

/** How the paper is laid on stock with corners. */
export const layPaper = (): string =>
  say`Lay the paper around the stock printed side out, folds on the corners, middle lines on the middles of the faces.`;

export const notchSteps = (
  hinge: string,
  relief: string | undefined,
  turn: string,
): readonly [check: string, first: string, ...rest: string[]] => [
  CHECK_PRINT(),
  say`Check the stock against the sizes above. The hinge stays whole: ${translateName(hinge)}.`,
  layPaper(),
  say`Punch the corners and ends of the notch and mark along it. Mark the bend line on the hinge too.`,
  relief === undefined
    ? say`Cut on the line, the kerf in the scrap. Stop where the hinge begins: do not nick it.`
    : say`Drill the ${relief} holes first, then cut to them on the line, the kerf in the scrap.`,
  say`Try it on a scrap. Fold to ${turn}, check with a protractor, tack the far edge, check again, then weld.`,
];

export const notchCautions = ({ kind }: Stock): readonly string[] => [
  say`A folded hinge is stretched and may crack: a nick, a hard corner or cold work makes it worse. Strength is for a qualified person.`,
  ...(kind === 'tube' ? [say`Corners of tube differ from mill to mill: measure the girth.`] : []),
];
