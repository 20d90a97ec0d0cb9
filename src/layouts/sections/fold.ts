import type { Fact, Mark, Picture, Sheet, Table } from '../../drawing/model.ts';
import { polylinePath } from '../../drawing/paths.ts';
import { makePicture, viewPath, viewText } from '../../drawing/view.ts';
import { angleField, choiceField, lengthField, stockField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { type Fold, solveFold } from '../../geometry/fold.ts';
import { scale2, vec2 } from '../../geometry/vector.ts';
import { jointError, requestError } from '../../issue.ts';
import { CHECK_PRINT, describeSource, describeStock } from '../../sheets/band-words.ts';
import { plateSheet } from '../../sheets/flat-sheet.ts';
import { shown } from '../../sheets/measured.ts';
import { chooseHinge, foldable, notchFields, notchOf } from '../../sheets/notch-fields.ts';
import { drawNotch } from '../../sheets/notch-marks.ts';
import type { Stock } from '../../stock/stock.ts';
import { formatAngle } from '../../units/angle.ts';
import { angleOf, lengthOf } from '../../units/quantity.ts';
import type { Setting } from '../../units/setting.ts';
import { writeBoth, writeSize } from '../../units/writing.ts';
import { say, translate, translateName } from '../../words/say.ts';
import { bendFacts, layPaper, notchCautions, notchSteps } from './notch.ts';

/** A leg shorter than this leaves nothing between two notches, mm. */
const SHORTEST = 1;

/** A frame folded from one length. One sheet for each kind of fold, named after the first of them. */
export const fold = defineLayout({
  id: 'fold',
  summary:
    'frame folded from one length: places of all notches, cut length, and a notch sheet for each kind of fold',
  family: 'sections',
  words: ['frame from one length', 'notch and bend', 'angle ring', 'bracket', 'bending', 'cut length'],
  fields: {
    stock: stockField('the tube, angle, channel or flat bar that is folded', {
      example: 'angle 50x50x5mm',
      kinds: foldable,
    }),
    legs: lengthField('lengths of the legs, corner to corner', {
      example: '400mm,300mm,400mm,300mm',
      above: 0,
      list: true,
    }),
    turns: angleField(
      'turn at each corner, all to the same side; one fewer than the legs, or as many where the ends meet',
      { example: '90,90,90,90', above: 0, below: Math.PI, list: true },
    ),
    taken: choiceField(
      'whether the legs are measured over the outside of the hinge wall or along its inside',
      ['outside', 'inside'],
      { default: 'outside' },
    ),
    ...notchFields,
  },
  examples: [
    'fold --stock "angle 50x50x5mm" --legs 400mm,300mm,400mm,300mm --turns 90,90,90,90',
    'fold --stock "tube 2x2x1/8in" --legs 24in,12in,24in --turns 60,60',
    'fold --stock "flat 50x6mm" --legs 200mm,150mm,200mm --turns 90,90 --bend-radius 6mm -o bracket.pdf',
  ],
  draw: (asked, setting): readonly Sheet[] => {
    const { stock, legs, turns, taken, bendRadius, k, relief, gap } = asked;
    if (turns.length !== legs.length && turns.length !== legs.length - 1)
      throw requestError(
        'turns',
        'wrong-count',
        say`${legs.length} legs do not go with ${turns.length} turns`,
        say`give ${legs.length - 1} turns, or ${legs.length} where the ends meet in a corner`,
      );
    const hinge = chooseHinge(stock, asked.hinge);
    const solved = solveFold({ legs, turns, taken, thickness: hinge.thickness, bendRadius, k });
    checkFold(solved, turns.length === legs.length, setting);
    const folds = turns.slice(0, solved.places.length);
    const kinds = [...new Set(folds)];
    return kinds.map((turn): Sheet => {
      const which = folds.flatMap((other, i) => (other === turn ? [i + 1] : []));
      const notch = notchOf(stock, hinge, turn, asked, setting);
      const flat = notch.farHeight < 1e-6;
      const band = { stock, notch, turn, hinge: hinge.face, gap, relief };
      const { marks, lines, figures, farWidth, allowance } = drawNotch(
        band,
        flat
          ? [say`TO THE FINISH`, say`TO THE START`]
          : [say`KEEP · TO THE FINISH`, say`KEEP · TO THE START`],
        setting,
      );
      const both = (length: number): string => writeBoth(length, setting);
      const [check, first, ...rest] = flat
        ? bendSteps(hinge.face, bendRadius > 0, formatAngle(turn))
        : notchSteps(hinge.face, relief > 0 ? both(relief) : undefined, formatAngle(turn));
      return plateSheet({
        name: `fold ${which[0] ?? 1}`,
        heading: `${which.length > 1 ? say`Folds` : say`Fold`} ${which.join(', ')}`,
        subject: [
          say`${folds.length} ${folds.length === 1 ? say`fold` : say`folds`} in one length of ${both(solved.length)}; this sheet turns ${formatAngle(turn)}${which.length > 1 ? say`, use it ${which.length} times` : ''}`,
          describeStock(stock, setting),
          say`Hinge: ${translateName(hinge.face)}, ${writeSize(hinge.thickness, setting)} thick; ${bendRadius > 0 ? say`bend radius ${both(bendRadius)} inside` : say`sharp folds on the inside face`}; legs taken ${translate(taken)}`,
          `${describeSource(stock)}.`,
        ],
        marks,
        steps: [
          check,
          first,
          say`Cut the stock ${both(solved.length)} long. Mark every fold from the same end by the table: running lengths, so that errors do not add up.`,
          ...rest,
          ...(solved.closing === undefined
            ? []
            : [
                say`Cut both ends ${formatAngle(solved.closing / 2)} from square, long points on the outside of the hinge. They meet in the last corner.`,
              ]),
        ],
        facts: [
          [say`Length to cut`, lengthOf(solved.length)],
          ...closingFacts(solved),
          [say`Circumference (tape check)`, lengthOf(stock.girth)],
          [say`Turn`, angleOf(turn)],
          ...(flat
            ? []
            : ([
                [say`Width of the notch at the far edge`, shown(lengthOf(notch.farWidth), farWidth)],
              ] as const)),
          ...bendFacts(notch.allowance, k, allowance),
          ...forgedFact(stock, solved, hinge.thickness),
        ],
        tables: [placesTable(solved, folds), legsTable(solved)],
        pictures: [foldPicture(solved)],
        cautions: notchCautions(stock),
        fit: {
          lay: { kind: 'section', section: stock.section, lift: setting.paperThickness / 2 },
          wall: stock.wall,
          lines,
          figures,
        },
      });
    });
  },
});

type Steps = readonly [check: string, first: string, ...rest: string[]];

/** The steps of a flat bar, which is bent as it is: nothing stands beside its hinge to notch. */
const bendSteps = (hinge: string, isRound: boolean, turn: string): Steps => [
  CHECK_PRINT(),
  say`Check the stock against the sizes above. Nothing is notched: the bar is bent as it is.`,
  layPaper(),
  isRound
    ? say`Mark both bend lines on ${translateName(hinge)}: the bend begins at one and ends at the other.`
    : say`Mark the bend line on ${translateName(hinge)}.`,
  say`Try it on a scrap. Bend to ${turn}, ${translateName(hinge)} outside, and check with a protractor.`,
];

const checkFold = (solved: Fold, closes: boolean, setting: Setting): void => {
  const both = (length: number): string => writeBoth(length, setting);
  const gaps = solved.places.map((place, i) => place - (solved.places[i - 1] ?? 0));
  const short = gaps.findIndex((gap) => gap < SHORTEST);
  if (short >= 0 || solved.length - (solved.places.at(-1) ?? 0) < SHORTEST)
    throw jointError(
      'legs',
      'leg-too-short',
      say`leg ${short >= 0 ? short + 1 : solved.outside.length} is used up by its corners`,
      say`give a longer leg, or a smaller bend radius`,
    );
  if (closes && (solved.miss > 0.5 || Math.abs(solved.left) > 1e-4))
    throw jointError(
      'legs',
      'does-not-close',
      Math.abs(solved.left) > 1e-4
        ? say`the turns add up to ${formatAngle(2 * Math.PI - solved.left)}, not 360°`
        : say`the last end misses the first by ${both(solved.miss)}`,
      say`change the legs or the turns so that the frame closes, or leave the last turn out for an open one`,
    );
};

/** How the frame closes, or where its open end comes to lie. */
const closingFacts = (solved: Fold): readonly Fact[] =>
  solved.closing === undefined
    ? [[say`Open: end to end`, lengthOf(solved.miss)]]
    : [
        [say`Closing corner`, angleOf(solved.closing)],
        [say`Closing check, ends apart`, lengthOf(solved.miss)],
      ];

/**
 * Square bends of solid bar forged hot with full corners: a quarter of the thickness for each bend is added to the outside
 * length (FAO smithing leaflet AH635E, rule of the trade).
 */
const forgedFact = (stock: Stock, { outside, places }: Fold, thickness: number): readonly Fact[] =>
  stock.kind === 'flat'
    ? [
        [
          say`Forged hot with full corners instead`,
          lengthOf(outside.reduce((sum, leg) => sum + leg, 0) + (places.length * thickness) / 4),
        ],
      ]
    : [];

const placesTable = ({ places, length }: Fold, folds: readonly number[]): Table => ({
  title: say`Middle of every fold, running from the start`,
  header: [say`Fold`, say`turn`, say`from start`, say`on from the last`],
  rows: [...places, length].map((place, i) => [
    i < places.length ? `${i + 1}` : say`end`,
    i < places.length ? formatAngle(folds[i] ?? 0) : '',
    lengthOf(place),
    lengthOf(place - (places[i - 1] ?? 0)),
  ]),
});

const legsTable = ({ outside, inside }: Fold): Table => ({
  title: say`Legs when folded`,
  header: [say`Leg`, say`outside`, say`inside`],
  rows: outside.map((leg, i) => [`${i + 1}`, lengthOf(leg), lengthOf(inside[i] ?? 0)]),
});

/** The folded frame by its outside corners. */
const foldPicture = ({ corners }: Fold): Picture => {
  const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
  const size = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys), 1);
  const scale = 42 / size;
  const points = corners.map((p) => scale2(p, scale));
  const marks: Mark[] = [
    viewPath(polylinePath(points)),
    ...points.slice(0, -1).flatMap((p, i) => {
      const q = points[i + 1] ?? p;
      return viewText(vec2((p.x + q.x) / 2, (p.y + q.y) / 2), say`leg ${i + 1}`);
    }),
    ...viewText(vec2(0, -4), say`start`, 'centre', true),
  ];
  return makePicture(say`Folded, outside corners`, marks);
};
