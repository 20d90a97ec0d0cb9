import type { Fact, Sheet, Table, Words } from '../../../drawing/model.ts';
import { angleField, choiceField, countField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { cornerChord } from '../../../geometry/corner.ts';
import { CHECK_PRINT, describeStock } from '../../../sheets/band-words.ts';
import { barStockField, barWidth, stockMass } from '../../../sheets/bar-stock.ts';
import {
  cornerAngles,
  cornerCheck,
  cornerMarks,
  cornerMeasures,
  cornerParts,
  type Corner,
} from '../../../sheets/corner-marks.ts';
import { endCutPicture } from '../../../sheets/corner-picture.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { shown } from '../../../sheets/measured.ts';
import { sawSettings } from '../../../sheets/saw-settings.ts';
import { diagonalSteps, differenceTable, rackPicture } from '../../../sheets/squaring.ts';
import { isAlikeTurned, stockSpan, type Stock } from '../../../stock/stock.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort, writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { framePicture } from './frame-picture.ts';
import { angleOf, countOf, lengthOf } from '../../../units/quantity.ts';
import { worded } from '../../../drawing/worded.ts';
import { formatAngle } from '../../../units/angle.ts';
import {
  barNeeded,
  cornerOf,
  framePieces,
  middleLengths,
  MOST_SIDES,
  readFrame,
  type FrameShape,
} from './frame-shape.ts';

const size = (help: string, example: string) =>
  lengthField(help, { example, above: 0, max: 100_000, optional: true });

/** A mitered frame, regular or rectangular: cut list, checks and one corner full size, its inside corner at the origin. */
export const frame = defineLayout({
  id: 'frame',
  summary:
    'mitered frame of equal sides, or a rectangle: cuts, lengths, diagonals, one corner full size (origin at its inside)',
  family: 'angles and squares',
  words: ['picture frame', 'rectangle', 'polygon', 'hexagon', 'diagonals', 'gate'],
  fields: {
    sides: countField('number of equal sides', { example: '6', min: 3, max: MOST_SIDES, optional: true }),
    corner: angleField('angle between neighboring sides, instead of their number', {
      example: '120',
      min: (60 * Math.PI) / 180,
      below: Math.PI,
      optional: true,
    }),
    side: size('length of a side', '400mm'),
    acrossFlats: size('from one side square to the one across', '800mm'),
    acrossCorners: size('diameter of the circle through the corners', '900mm'),
    length: size('long side of a rectangle', '1200mm'),
    width: size('short side of a rectangle', '800mm'),
    taken: choiceField('which edge of the frame these sizes are taken on', ['outside', 'inside'], {
      default: 'outside',
    }),
    bar: lengthField('width of the bar, across the face that is mitered', {
      example: '50mm',
      min: 3,
      max: 2000,
      optional: true,
    }),
    stock: barStockField('the bar'),
    gap: lengthField('root gap at each joint', { default: '0mm', example: '2mm', max: 25 }),
    kerf: lengthField('width of the saw’s cut, for the length of bar', {
      default: '0mm',
      example: '3mm',
      max: 20,
    }),
  },
  examples: [
    'frame --length 1200mm --width 800mm --bar 50mm',
    'frame --sides 6 --side 12in --bar 2in --kerf 1/8in',
    'frame --length 1200mm --width 800mm --stock "L 50x50x5" --kerf 3mm',
    'frame --corner 135 --across-flats 900mm --taken inside --bar 40mm -o ring.pdf',
  ],
  draw: (asked, setting) => {
    const { stock } = asked;
    const shape = readFrame({ ...asked, bar: barWidth(stock, asked.bar, 'bar') }, setting);
    const reach = Math.min(150, Math.max(60, 1.2 * shape.bar));
    const corner: Corner = {
      between: cornerOf(shape),
      widths: [shape.bar, shape.bar],
      gap: asked.gap,
      reach,
    };
    return [drawSheet(shape, corner, { stock, kerf: asked.kerf }, setting)];
  },
});

const describeShape = (shape: FrameShape, setting: Setting): string => {
  const both = (length: number): string => writeBoth(length, setting);
  if (shape.kind === 'rectangle')
    return Math.abs(shape.length - shape.width) < 1e-9
      ? say`Square ${both(shape.length)} by ${both(shape.width)} outside, bar ${both(shape.bar)}`
      : say`Rectangle ${both(shape.length)} by ${both(shape.width)} outside, bar ${both(shape.bar)}`;
  const { sides, outside } = shape.frame;
  return say`${sides} equal sides of ${both(outside.side)} outside, bar ${both(shape.bar)}`;
};

interface Cutting {
  readonly stock: Stock | undefined;
  readonly kerf: number;
}

const drawSheet = (shape: FrameShape, corner: Corner, { stock, kerf }: Cutting, setting: Setting): Sheet => {
  const both = (length: number): string => writeBoth(length, setting);
  const [part, other] = cornerParts(corner).parts;
  const check = cornerCheck(corner, setting);
  const measures = cornerMeasures(corner, check.leg);
  const [measured] = measures.parts;
  const cut = formatAngle(part.miter, 3);
  const rectangle = shape.kind === 'rectangle';
  const saw = stock && sawSettings(stock, { x: Math.tan(part.miter), y: 0 });
  const turns = !stock || isAlikeTurned(stock);
  return plateSheet({
    name: 'frame',
    heading: say`Frame`,
    subject: [
      describeShape(shape, setting),
      ...(stock ? [describeStock(stock, setting)] : []),
      say`Every end cut ${cut} from square; corners ${formatAngle(corner.between, 3)}; ${corner.gap > 0 ? say`root gap ${both(corner.gap)}, taken off the pieces` : say`no root gap`}`,
    ],
    marks: cornerMarks(corner, [say`ONE END`, say`OTHER END`], setting),
    fit: fitFlat(cornerAngles(corner)),
    steps: [
      CHECK_PRINT(),
      say`Prove the corner: the marks on the inside edges, ${both(check.leg)} from the corner, are ${both(check.across)} apart.`,
      say`Set the saw to ${cut} from square. Cut two scraps, fit them to the paper corner, and correct the saw by half of what gapes.`,
      say`Cut all pieces to the table against one stop. Equal pieces stood together must be level at both ends.`,
      ...(rectangle
        ? diagonalSteps(both(Math.hypot(shape.length, shape.width)))
        : regularSteps(shape.frame.sides)),
      say`Tack every corner before you weld any; weld across from the last; check again.`,
    ],
    facts: [
      [
        say`Every end, cut`,
        worded(
          (value) =>
            say`${value(shown(angleOf(part.miter, 3), measured?.cut))} from square; ${value(shown(angleOf(part.edgeAngle, 3), measured?.edge))} to the edge`,
        ),
      ],
      [say`Long to short point, each end`, shown(lengthOf(part.cutback), measured?.back)],
      ...sizeFacts(shape),
      ...standingFacts(shape, stock),
      ...(saw?.facts ?? []),
      ...stockMass(stock, middleLengths(shape)),
      [
        turns ? say`Bar for all, turned end for end` : say`Bar for all, every piece at its long length`,
        worded(
          (value) =>
            `${value(lengthOf(barNeeded(shape, 2 * part.setback, kerf, turns)))}${kerf > 0 ? say` with cuts of ${value(lengthOf(kerf))}` : say` and the saw’s cuts`}`,
        ),
      ],
      [
        say`Check, ${both(check.leg)} out`,
        worded((value) => say`${value(shown(lengthOf(check.across), measures.across))} across`),
      ],
    ],
    tables: [
      cutTable(shape, 2 * part.setback),
      ...(saw?.tables ?? []),
      ...(rectangle ? [differenceTable(shape.length, shape.width, setting)] : cornerTables(shape)),
    ],
    pictures: [
      framePicture(shape, (length) => writeShort(length, setting)),
      endCutPicture(say`One end, printed side up`, part, true, both(part.cutback)),
      endCutPicture(say`The other, printed side up`, other, false, both(other.cutback)),
      ...(rectangle
        ? [rackPicture(shape.length, shape.width, both(Math.max(shape.length, shape.width)))]
        : []),
    ],
    cautions: [
      say`An error of the saw adds up at every corner: it gapes in the last joint by as many times.`,
      ...(stock
        ? []
        : [say`Bar that cannot be turned over, such as angle, needs its full long length for every piece.`]),
    ],
  });
};

const regularSteps = (sides: number): readonly string[] => [
  ...(sides === 3
    ? [say`Lay the pieces out. Three equal sides have equal corners: tape all three outside.`]
    : [
        say`Strike a circle through the outside corners, step the sides off on it, and lay the pieces to the marks.`,
        say`Tape from corner to corner by the table: all that are as many sides apart must be equal.`,
      ]),
];

const sizeFacts = (shape: FrameShape): readonly Fact[] => {
  if (shape.kind === 'rectangle') {
    const { length, width, bar } = shape;
    return [
      [say`Opening`, byInWords(length - 2 * bar, width - 2 * bar)],
      [say`Diagonals, outside`, lengthOf(Math.hypot(length, width))],
      [say`Diagonals, inside`, lengthOf(Math.hypot(length - 2 * bar, width - 2 * bar))],
    ];
  }
  const { sides, outside, inside } = shape.frame;
  const even = sides % 2 === 0;
  return [
    [say`Circle through the corners`, worded((value) => `⌀ ${value(lengthOf(2 * outside.cornerRadius))}`)],
    even
      ? [say`Across flats`, lengthOf(2 * outside.flatRadius)]
      : [say`Side to corner across`, lengthOf(outside.flatRadius + outside.cornerRadius)],
    even
      ? [say`Across flats, inside`, lengthOf(2 * inside.flatRadius)]
      : [say`The same inside`, lengthOf(inside.flatRadius + inside.cornerRadius)],
  ];
};

const byInWords = (length: number, width: number): Words =>
  worded((value) => say`${value(lengthOf(length))} by ${value(lengthOf(width))}`);

/** What fits between the standing legs of angle whose heel lies outside. */
const standingFacts = (shape: FrameShape, stock: Stock | undefined): readonly Fact[] => {
  if (stock?.kind !== 'angle' || stockSpan(stock, { x: 1, y: 0 })[0] < -1e-9) return [];
  const walls = 2 * stock.wall;
  return [
    [
      say`Between the standing legs`,
      shape.kind === 'rectangle'
        ? byInWords(shape.length - walls, shape.width - walls)
        : lengthOf(2 * shape.frame.outside.flatRadius - walls),
    ],
  ];
};

/** What is cut; the gap is taken off each piece along its length. */
const cutTable = (shape: FrameShape, off: number): Table => ({
  title: say`Cut list, both ends mitered, long points on the same edge`,
  header: [say`Piece`, say`number`, say`long point`, say`short point`],
  rows: framePieces(shape).map(({ name, count, long, short }) => [
    name,
    countOf(count),
    lengthOf(long - off),
    lengthOf(short - off),
  ]),
});

const cornerTables = (shape: FrameShape): readonly Table[] => {
  if (shape.kind !== 'regular' || shape.frame.sides < 4) return [];
  const { sides, outside, inside } = shape.frame;
  const steps = Array.from({ length: Math.floor(sides / 2) - 1 }, (_, i) => i + 2);
  return [
    {
      title: say`Corner to corner`,
      header: [say`Sides apart`, say`outside`, say`inside`],
      rows: steps.map((k) => [
        `${k}${2 * k === sides ? say`, across` : ''}`,
        lengthOf(cornerChord(sides, outside.cornerRadius, k)),
        lengthOf(cornerChord(sides, inside.cornerRadius, k)),
      ]),
    },
  ];
};
