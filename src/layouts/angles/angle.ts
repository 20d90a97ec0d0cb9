import type { Fact, Sheet, Table } from '../../drawing/model.ts';
import type { Values } from '../../fields/field.ts';
import { angleField, choiceField, lengthField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { DEGREE } from '../../geometry/angle-units.ts';
import { splitCorner } from '../../geometry/corner.ts';
import { itemAt } from '../../lists.ts';
import { jointError } from '../../issue.ts';
import { CHECK_PRINT, describeStock } from '../../sheets/band-words.ts';
import { barStockField, barWidth } from '../../sheets/bar-stock.ts';
import {
  type Corner,
  cornerAngles,
  cornerCheck,
  cornerMarks,
  cornerMeasures,
  type CornerMeasures,
  type CornerPart,
  cornerParts,
} from '../../sheets/corner-marks.ts';
import { endCutPicture } from '../../sheets/corner-picture.ts';
import { fitFlat } from '../../sheets/fit-record.ts';
import { plateSheet } from '../../sheets/flat-sheet.ts';
import { shown } from '../../sheets/measured.ts';
import { sawSettings } from '../../sheets/saw-settings.ts';
import type { Stock } from '../../stock/stock.ts';
import { angleOf, lengthOf } from '../../units/quantity.ts';
import type { Setting } from '../../units/setting.ts';
import { writeShort, writeBoth } from '../../units/writing.ts';
import { formatAngle, writeAngle } from '../../units/angle.ts';
import { worded } from '../../drawing/worded.ts';
import { say } from '../../words/say.ts';

/** A point thinner than this breaks off on the saw. */
const THINNEST = 3 * DEGREE;

const fields = {
  angle: angleField('angle between the two parts, inside the corner; 90 for a square corner', {
    example: '120',
    min: 10 * DEGREE,
    max: 175 * DEGREE,
  }),
  width: lengthField('width of part 1, across the face that is marked', {
    example: '50mm',
    min: 3,
    max: 3000,
    optional: true,
  }),
  stock: barStockField('part 1'),
  otherWidth: lengthField('width of part 2; left out, as part 1', {
    example: '80mm',
    min: 3,
    max: 3000,
    optional: true,
  }),
  otherStock: barStockField('part 2'),
  length: lengthField('length of part 1, from the corner to its square far end', {
    example: '800mm',
    above: 0,
    max: 100_000,
    optional: true,
  }),
  otherLength: lengthField('length of part 2, from the corner to its square far end', {
    example: '600mm',
    above: 0,
    max: 100_000,
    optional: true,
  }),
  taken: choiceField('which edge of the corner these lengths are taken on', ['outside', 'inside'], {
    default: 'outside',
  }),
  gap: lengthField('root gap at the joint', { default: '0mm', example: '3mm', max: 25 }),
  reach: lengthField('length of the inside edges on the paper; left out, a little over the width', {
    example: '100mm',
    min: 30,
    max: 2000,
    optional: true,
  }),
} as const;

type Asked = Values<typeof fields>;

/** The mitered corner of two parts at any angle, full size; the inside corner is the sheet's origin. */
export const angle = defineLayout({
  id: 'angle',
  summary:
    'miter of two parts of equal or unequal width at any angle, full size (origin at the inside corner)',
  family: 'angles and squares',
  words: ['miter', 'mitre', 'corner', 'bisector', 'flat bar', 'trim'],
  fields,
  examples: [
    'angle --angle 90 --width 50mm',
    'angle --angle 120 --width 5in --gap 1/8in',
    'angle --angle 90 --stock "tube 60x40x3mm" --length 800mm --other-length 600mm',
    'angle --angle 67.5 --width 100mm --other-width 60mm -o corner.pdf',
  ],
  draw: (asked, setting) => {
    const parts = readParts(asked);
    const widths = [parts[0].width, parts[1].width] as const;
    const reach = asked.reach ?? Math.min(150, Math.max(60, 1.2 * Math.max(...widths)));
    const corner: Corner = { between: asked.angle, widths, gap: asked.gap, reach };
    checkPoints(corner, setting);
    return [drawSheet(corner, parts, asked.taken, setting)];
  },
});

/** A part as it is asked for, mm. */
interface Part {
  readonly name: string;
  readonly width: number;
  readonly stock: Stock | undefined;
  readonly length: number | undefined;
}

/** Both parts; part 2 is as part 1 where nothing is said of it. */
const readParts = (asked: Asked): readonly [Part, Part] => {
  const width = barWidth(asked.stock, asked.width, 'width');
  const first: Part = { name: say`part 1`, width, stock: asked.stock, length: asked.length };
  const own = asked.otherStock !== undefined || asked.otherWidth !== undefined;
  return [
    first,
    {
      name: say`part 2`,
      width: own ? barWidth(asked.otherStock, asked.otherWidth, 'other-width', 'other-stock') : width,
      stock: own ? asked.otherStock : asked.stock,
      length: asked.otherLength,
    },
  ];
};

/** Throws where a part would end in a point too thin to cut. */
const checkPoints = (corner: Corner, setting: Setting): void => {
  const { parts } = cornerParts(corner);
  parts.forEach((part, i) => {
    if (part.edgeAngle >= THINNEST && part.edgeAngle <= Math.PI - THINNEST) return;
    const other = itemAt(corner.widths, 1 - i);
    // At the thinnest point w = w' sin a / sin(θ − a).
    const least = (other * Math.sin(THINNEST)) / Math.sin(corner.between - THINNEST);
    throw jointError(
      i === 0 ? 'width' : 'other-width',
      'thin-point',
      say`part ${i + 1} would end in a point of ${writeAngle(Math.min(part.edgeAngle, Math.PI - part.edgeAngle))}`,
      say`${writeAngle(THINNEST)} is the least: beside ${writeBoth(other, setting)} it must be at least ${writeBoth(least, setting)} wide`,
    );
  });
};

const leanWords = ({ miter }: CornerPart, write: (angle: number) => string = writeAngle): string =>
  Math.abs(miter) < 1e-9
    ? say`square`
    : say`${write(Math.abs(miter))} from square${miter < 0 ? say`, long point inside` : ''}`;

/** The lengths to cut a part to, once the gap is off. */
const lengthFacts = (
  { name, length }: Part,
  { cutback, setback }: CornerPart,
  taken: 'outside' | 'inside',
): readonly Fact[] => {
  if (length === undefined) return [];
  const outside = (taken === 'outside' ? length : length + cutback) - setback;
  const edges = [outside, outside - cutback];
  return [
    [say`Cut ${name}, long point to end`, lengthOf(Math.max(...edges))],
    [say`Cut ${name}, short point to end`, lengthOf(Math.min(...edges))],
  ];
};

const isSameStock = ([first, second]: readonly [Part, Part]): boolean =>
  first.stock?.designation === second.stock?.designation;

/** How a saw is set for each part's stock; once where both parts are alike. */
const sawsOf = (asked: readonly [Part, Part], parts: readonly [CornerPart, CornerPart], equal: boolean) => {
  const alike = equal && isSameStock(asked);
  return asked.slice(0, alike ? 1 : 2).flatMap(({ stock, name }, i) => {
    const { miter } = itemAt(parts, i);
    return stock ? [sawSettings(stock, { x: Math.tan(miter), y: 0 }, alike ? '' : name)] : [];
  });
};

/** What is joined: the angle and widths, how each part is cut, and what it is cut from. */
const describeParts = (
  { between, widths, gap }: Corner,
  [first, second]: readonly [CornerPart, CornerPart],
  asked: readonly [Part, Part],
  setting: Setting,
): readonly string[] => {
  const both = (length: number): string => writeBoth(length, setting);
  const equal = Math.abs(widths[0] - widths[1]) < 1e-9;
  const sameStock = isSameStock(asked);
  return [
    say`Two parts at ${formatAngle(between, 4)}, ${equal ? say`both ${both(widths[0])} wide` : say`${both(widths[0])} and ${both(widths[1])} wide`}`,
    `${equal ? say`Both cut ${leanWords(first)}` : say`Part 1 ${leanWords(first)}, part 2 ${leanWords(second)}`}; ${gap > 0 ? say`root gap ${both(gap)}` : say`no root gap`}`,
    ...(sameStock ? asked.slice(0, 1) : asked).flatMap(({ stock, name }) =>
      stock
        ? [
            `${sameStock ? say`Both` : `${name[0]?.toUpperCase() ?? ''}${name.slice(1)}`}: ${describeStock(stock, setting)}`,
          ]
        : [],
    ),
  ];
};

/** How a part is cut. */
const cutFacts = (
  name: string,
  part: CornerPart,
  { cut, edge, back }: CornerMeasures['parts'][number],
): readonly Fact[] => [
  [
    say`${name}, cut`,
    worded(
      (value) =>
        say`${leanWords(part, (angle) => value(shown(angleOf(angle), cut)))}; ${value(shown(angleOf(part.edgeAngle), edge))} to the edge`,
    ),
  ],
  [say`${name}, point to point`, shown(lengthOf(Math.abs(part.cutback)), back)],
];

const drawSheet = (
  corner: Corner,
  asked: readonly [Part, Part],
  taken: 'outside' | 'inside',
  setting: Setting,
): Sheet => {
  const { between, widths, gap } = corner;
  const both = (length: number): string => writeBoth(length, setting);
  const { parts, split } = cornerParts(corner);
  const [first, second] = parts;
  const equal = Math.abs(widths[0] - widths[1]) < 1e-9;
  const check = cornerCheck(corner, setting);
  const saws = sawsOf(asked, parts, equal);
  const measures = cornerMeasures(corner, check.leg);
  return plateSheet({
    name: 'angle',
    heading: say`Miter`,
    subject: describeParts(corner, parts, asked, setting),
    marks: cornerMarks(corner, [say`PART 1`, say`PART 2`], setting),
    fit: fitFlat(cornerAngles(corner)),
    steps: [
      CHECK_PRINT(),
      say`Prove the angle: the marks on the inside edges, ${both(check.leg)} from the corner, are ${both(check.across)} apart.`,
      say`Cut around both outlines, and apart at the joint line: one template for each part.`,
      say`Lay a template on its part, both long edges flush with the part’s edges. The inside point goes on the mark of the inside length.`,
      say`Mark along the end. Carry the line down both edges with a square, then cut. The scrap is beyond the point.`,
      say`The part’s other end, or the other hand: turn the template over.`,
      say`Fit both up, inside and outside corners meeting; check with a second print before you weld.`,
    ],
    facts: [
      ...(equal
        ? cutFacts(say`Both parts`, first, itemAt(measures.parts, 0))
        : [
            ...cutFacts(say`Part 1`, first, itemAt(measures.parts, 0)),
            ...cutFacts(say`Part 2`, second, itemAt(measures.parts, 1)),
          ]),
      ...asked.flatMap((part, i) => lengthFacts(part, itemAt(parts, i), taken)),
      ...saws.flatMap(({ facts }) => facts),
      [say`Joint line`, shown(lengthOf(split.joint), measures.joint)],
      ...(gap > 0
        ? ([
            [
              say`Set back for the gap`,
              worded(
                (value) =>
                  say`${value(shown(lengthOf(first.setback), measures.parts[0]?.setback))} along part 1, ${value(shown(lengthOf(second.setback), measures.parts[1]?.setback))} along part 2`,
              ),
            ],
          ] as const)
        : []),
      [
        say`Check, ${both(check.leg)} out`,
        worded((value) => say`${value(shown(lengthOf(check.across), measures.across))} across`),
      ],
      [
        say`Instead, butted`,
        worded(
          (value) =>
            say`part 1 runs through; part 2 alone is cut, ${value(angleOf(Math.abs(Math.PI / 2 - between)))} from square`,
        ),
      ],
    ],
    tables: [...saws.flatMap(({ tables }) => tables), otherAngles(corner, setting)],
    pictures: parts.map((part, i) =>
      endCutPicture(
        say`Part ${i + 1}, printed side of its template up`,
        part,
        i === 0,
        both(Math.abs(part.cutback)),
      ),
    ),
    cautions: [
      say`A saw’s scale may count from square or from the edge: the two angles add up to 90°. Cut a scrap first.`,
    ],
  });
};

/** The same parts at the usual corners. */
const otherAngles = ({ widths }: Corner, setting: Setting): Table => {
  const equal = Math.abs(widths[0] - widths[1]) < 1e-9;
  const { units } = setting;
  const angles = [30, 45, 60, 72, 90, 108, 120, 135, 144, 150];
  const cells = (between: number): readonly string[] => {
    const split = splitCorner(between, widths[0], widths[1]);
    const sides: readonly (readonly [number, number])[] = [
      [split.first, widths[0]],
      [split.second, widths[1]],
    ];
    return sides
      .slice(0, equal ? 1 : 2)
      .flatMap(([edge, width]) => [
        writeAngle(Math.PI / 2 - edge),
        writeShort(width / Math.tan(edge), setting),
      ]);
  };
  return {
    title: say`These parts at other corners: cut from square, long to short point${equal ? '' : say` (−: long inside)`}`,
    header: [
      say`Corner`,
      ...(equal
        ? [say`cut`, say`back ${units}`]
        : [say`part 1 cut`, say`part 1 back ${units}`, say`part 2 cut`, say`part 2 back ${units}`]),
    ],
    rows: angles.map((degrees) => [`${degrees}°`, ...cells(degrees * DEGREE)]),
    ifRoom: true,
  };
};
