import type { Fact, Table } from '../../../drawing/model.ts';
import { distance } from '../../../drawing/paths.ts';
import { mustBeLess } from '../../../fields/among.ts';
import type { Values } from '../../../fields/field.ts';
import { angleField, choiceField, countField, lengthField, parsedField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { modulo, TURN } from '../../../geometry/angle-units.ts';
import { circlePattern, type Hole, levelPair } from '../../../geometry/hole-pattern.ts';
import { itemAt } from '../../../lists.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { jointError, requestError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import {
  fitHoles,
  slotSteps,
  type HoleDistance,
  tapeStart,
  tapeStartField,
  tapeSteps,
  tapeTable,
} from '../../../sheets/holes.ts';
import { apart, crossAt, crosses, ofArc, ORIGIN, shown, taken } from '../../../sheets/measured.ts';
import { parseFlange } from '../../../stock/flange.ts';
import { formatAngle } from '../../../units/angle.ts';
import { writeOrdinal } from '../../../units/ordinal.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeGiven } from '../../../units/writing.ts';
import { say, translate } from '../../../words/say.ts';
import { type BoltCircle, checkBoltCircle } from './bolt-checks.ts';
import { boltMarks } from './bolt-marks.ts';
import {
  angleOf,
  countOf,
  fineOf,
  givenOf,
  type Length,
  lengthOf,
  writeQuantity,
} from '../../../units/quantity.ts';
import { worded } from '../../../drawing/worded.ts';
import { boltPicture } from './bolt-picture.ts';

const diameterField = (help: string, example: string) =>
  lengthField(help, { example, above: 0, max: 20_000, optional: true });

const fields = {
  flange: parsedField('drilling and rim of an ASME B16.5 flange, instead of holes, circle and hole', {
    kind: 'designation',
    symbol: 'F',
    example: 'NPS 6 class 150',
    parse: (text, { path }) => parseFlange(text, { path }),
    optional: true,
  }),
  holes: countField('number of holes', { example: '8', min: 1, max: 360, optional: true }),
  circle: diameterField('diameter of the bolt circle', '241.3mm'),
  hole: diameterField('diameter of the holes', '22.2mm'),
  start: choiceField(
    'straddle: the center lines run between holes; on: the first hole lies on the center line at 0°',
    ['straddle', 'on'],
    { default: 'straddle' },
  ),
  turn: angleField('turns all holes counter-clockwise from there', { default: '0', example: '7.5' }),
  slot: diameterField('length over the ends, where holes are slots as wide as the hole', '35mm'),
  slotAlong: choiceField('which way slots run: square to the radius, or along it', ['circle', 'radius'], {
    default: 'circle',
  }),
  outside: diameterField('outside diameter of the plate; a flange has its own', '280mm'),
  bore: diameterField('diameter of the bore', '168.3mm'),
  gasket: lengthField('outlines of a gasket: outside,inside', {
    example: '216mm,168mm',
    above: 0,
    list: true,
    optional: true,
  }),
  reading: lengthField(
    'two-holing: how much higher one of the two level holes stands, measured square to the level',
    { example: '1/16in', above: 0, max: 1000, optional: true },
  ),
  tapeStart: tapeStartField,
} as const;

type Asked = Values<typeof fields>;

/** Holes on a circle: from its figures, or the drilling of a flange. */
export const boltCircle = defineLayout({
  id: 'bolt-circle',
  summary: 'bolt circle: holes on a circle, straddling or on the center lines, from figures or for a flange',
  family: 'holes and spacing',
  words: ['flange', 'pitch circle', 'pcd', 'drill', 'two-holing', 'two-hole', 'studs', 'gasket'],
  fields,
  examples: [
    'bolt-circle --flange "NPS 6 class 150"',
    'bolt-circle --holes 8 --circle 241.3mm --hole 22.2mm --start on',
    'bolt-circle --holes 6 --circle 7-1/2in --hole 3/4in --outside 9in --bore 4-1/2in --turn 15 -o cover.pdf',
  ],
  draw: (values, setting) => {
    const circle = readCircle(values);
    checkBoltCircle(circle, setting);
    return [drawSheet(circle, tapeStart(values.tapeStart, setting), values.reading, setting)];
  },
});

/** The circle asked for. Throws a request error where it is given twice or not wholly. */
const readCircle = (asked: Asked): BoltCircle => {
  const { flange, start, turn, slot, slotAlong } = asked;
  const own = (['holes', 'circle', 'hole'] as const).filter((name) => asked[name] !== undefined);
  const [twice] = own;
  if (flange && twice !== undefined)
    throw requestError(
      twice,
      'given-twice',
      say`the flange has its own ${translate(twice)}`,
      say`give a flange or its figures`,
    );
  const missing = (['holes', 'circle', 'hole'] as const).find((name) => asked[name] === undefined);
  if (!flange && missing !== undefined)
    throw requestError(
      missing,
      'missing',
      say`${missing} is not given`,
      say`give holes, circle and hole, or a flange such as "NPS 6 class 150"`,
    );
  const [gasketOutside, gasketInside, ...rest] = asked.gasket ?? [];
  if (rest.length > 0)
    throw requestError(
      'gasket',
      'too-many',
      say`a gasket has two outlines`,
      say`give outside,inside: 216mm,168mm`,
    );
  const count = flange?.holes ?? asked.holes ?? 0;
  return {
    flange,
    count,
    circle: flange?.boltCircle ?? asked.circle ?? 0,
    hole: flange?.holeDiameter ?? asked.hole ?? 0,
    straddles: start === 'straddle',
    first: (start === 'straddle' ? Math.PI / count : 0) + turn,
    slot: slot === undefined ? undefined : { length: slot, alongCircle: slotAlong === 'circle' },
    outside: asked.outside ?? flange?.outsideDiameter,
    bore: asked.bore,
    gasket: [gasketOutside, gasketInside].filter((d) => d !== undefined),
  };
};

/** The holes of a bolt circle, counter-clockwise from the first. */
export const boltHoles = ({ count, circle, hole, first, slot }: BoltCircle): readonly Hole[] =>
  circlePattern(count, circle, first).map((at, i) => {
    const angle = first + (TURN * i) / count;
    return {
      at,
      diameter: hole,
      slot: slot && { length: slot.length, along: slot.alongCircle ? angle + Math.PI / 2 : angle },
    };
  });

/** What is measured on a bolt circle, and what a two-holing reading says. */
const boltFacts = (
  circle: BoltCircle,
  points: readonly Vec2[],
  turned: number | undefined,
  reading: number | undefined,
): readonly Fact[] => {
  const [first, next] = points as [Vec2, Vec2];
  const pair = levelPair(points);
  const span = pair && distance(itemAt(points, pair[0]), itemAt(points, pair[1]));
  return [
    [
      say`Circle diameter`,
      shown(
        givenOf(circle.circle),
        taken(ofArc('radius', { centre: { x: 0, y: 0 }, radius: circle.circle / 2 }, 'centre'), 2),
      ),
    ],
    [
      circle.slot ? say`Slots` : say`Holes`,
      worded((value) => `${value(countOf(circle.count))} × ${holeText(circle, value)}`),
    ],
    [say`First hole at`, angleOf(circle.first, 4)],
    ...(circle.count > 1
      ? ([
          [say`Hole to next hole`, shown(lengthOf(distance(first, next)), crosses(first, next))],
          [say`Half of it`, shown(lengthOf(distance(first, next) / 2), taken(crosses(first, next), 0.5))],
        ] as const)
      : []),
    ...(pair && span !== undefined
      ? ([
          [
            say`Level across holes`,
            worded(
              (value) =>
                say`${pair[0] + 1} and ${pair[1] + 1}, ${value(shown(lengthOf(span), crosses(itemAt(points, pair[0]), itemAt(points, pair[1]))))} apart`,
            ),
          ],
        ] as const)
      : []),
    ...(turned === undefined
      ? []
      : ([
          [say`Two-holing, reading`, lengthOf(reading ?? 0)],
          [say`It is turned by`, angleOf(turned)],
          [say`Every hole is off around the circle by`, lengthOf((turned * circle.circle) / 2)],
        ] as const)),
  ];
};

const drawSheet = (circle: BoltCircle, start: number, reading: number | undefined, setting: Setting) => {
  const holes = boltHoles(circle);
  const points = holes.map((hole) => hole.at);
  const pair = levelPair(points);
  const span = pair && distance(itemAt(points, pair[0]), itemAt(points, pair[1]));
  const distances = holeDistances(points);
  const turned = readTurn(reading, span, setting);
  return plateSheet({
    name: 'bolt circle',
    heading: say`Bolt circle`,
    subject: describe(circle, setting),
    marks: boltMarks(circle, holes, setting),
    fit: fitHoles(
      holes,
      [circle.outside, circle.bore, ...circle.gasket].filter((diameter) => diameter !== undefined),
    ),
    steps: [
      CHECK_PRINT(),
      ...(circle.flange
        ? [say`Check the flange: tape one chord and one hole before you trust the table.`]
        : []),
      say`Strike two center lines square to each other on the plate. Lay the sheet on them, 0° to the right and TOP up, and tape it down.`,
      say`Prick and punch each hole’s center through the cross. Lift the sheet, scribe each hole before you drill.`,
      ...tapeSteps(start, setting),
      ...slotSteps(circle.slot !== undefined),
      pair
        ? say`Set it level: with bolts or pins in holes ${pair[0] + 1} and ${pair[1] + 1}, a level across them reads level.`
        : say`No two of these holes stand level as the sheet is drawn: set it by its center lines.`,
    ],
    facts: boltFacts(circle, points, turned, reading),
    tables: [
      ...(distances.length > 0
        ? [
            tapeTable(
              say`From any hole to the others, counting around`,
              say`To the`,
              distances,
              start,
              setting,
            ),
          ]
        : []),
      positionTable(circle, points),
      ...(span === undefined ? [] : [twoHoleTable(span, circle.circle, setting)]),
      ...(circle.flange ? [TOLERANCES()] : []),
    ],
    pictures: [boltPicture(circle, holes, pair)],
    cautions: [say`A pattern that is turned does not match when it is flipped over: mark which face is up.`],
  });
};

/** What a reading across the two level holes says of the whole circle's turn, radians. */
const readTurn = (
  reading: number | undefined,
  span: number | undefined,
  setting: Setting,
): number | undefined => {
  if (reading === undefined) return undefined;
  if (span === undefined)
    throw jointError(
      'reading',
      'no-level-holes',
      say`no two of these holes stand level`,
      say`leave the reading out`,
    );
  mustBeLess('reading', reading, span, say`is not less than the two holes are apart`, setting);
  return Math.asin(reading / span);
};

/** Readings of a two-holing level and what they mean. */
const twoHoleTable = (span: number, circle: number, { units }: Setting): Table => ({
  title: say`Two-holing, read across the level holes`,
  header: [say`one higher`, say`all turned`, say`each off`],
  rows: (units === 'in' ? [1, 2, 4, 8].map((n) => (n * 25.4) / 64) : [0.5, 1, 2, 3])
    .filter((reading) => reading < span)
    .map((reading) => {
      const turn = Math.asin(reading / span);
      // Readings of a level are finer than what is laid out by tape.
      return [fineOf(reading), angleOf(turn), fineOf((turn * circle) / 2)];
    }),
});

/** Figures fitters work to, as advice. The first four by ASME B16.5 and PCC-1, seen second-hand. */
const TOLERANCES = (): Table => ({
  title: say`Advice only: what is usually allowed; the standard and the code that rule decide`,
  header: [say`of`, say`usually`],
  ifRoom: true,
  rows: [
    [say`Bolt circle`, '± 1.5 mm (1/16 in)'],
    [say`Hole to next hole`, '± 0.8 mm (1/32 in)'],
    [say`Two flanges turned to each other: bolts pass, holes within`, '3 mm (1/8 in)'],
    [say`Two flanges not parallel, at the sealing diameter`, '0.8 mm (1/32 in)'],
    [say`Face out of square to its pipe, the greater of`, say`3/64 in a foot (4 mm/m) or 1/32 in (0.8 mm)`],
  ],
});

const holeText = ({ hole, slot }: BoltCircle, write: (size: Length) => string): string =>
  slot ? say`${write(givenOf(hole))} wide, ${write(givenOf(slot.length))} long` : `⌀ ${write(givenOf(hole))}`;

const countHoles = ({ count, slot }: BoltCircle, size: string, on: string): string => {
  if (count === 1) return slot ? say`1 slot ${size} on ⌀ ${on}` : say`1 hole ${size} on ⌀ ${on}`;
  return slot ? say`${count} slots ${size} on ⌀ ${on}` : say`${count} holes ${size} on ⌀ ${on}`;
};

const describe = (circle: BoltCircle, setting: Setting): readonly string[] => {
  const { flange, count, straddles, first } = circle;
  const base = straddles ? Math.PI / count : 0;
  const turned = Math.abs(first - base) > 1e-12 ? say`, then turned ${formatAngle(first - base)}` : '';
  return [
    ...(flange ? [say`Flange ${flange.designation}, bolts ${flange.bolt}: ${flange.source}`] : []),
    countHoles(
      circle,
      holeText(circle, (size) => writeQuantity(size, setting)),
      writeGiven(circle.circle, setting),
    ),
    say`${straddles ? say`Straddling the center line at 0°` : say`First hole on the center line at 0°`}${turned}; counted counter-clockwise`,
  ];
};

const holeDistances = (points: readonly Vec2[]): readonly HoleDistance[] => {
  const first = points[0];
  if (!first) return [];
  return Array.from({ length: Math.floor(points.length / 2) }, (_, i) => ({
    label:
      i === 0
        ? say`next hole`
        : `${writeOrdinal(i + 1)}${2 * (i + 1) === points.length ? say`, opposite` : ''}`,
    apart: distance(first, itemAt(points, i + 1)),
    measured: crosses(first, itemAt(points, i + 1)),
  }));
};

const positionTable = (circle: BoltCircle, points: readonly Vec2[]): Table => ({
  title: say`Holes from the center: right and up are +`,
  header: [say`Hole`, say`at`, say`right`, say`up`],
  rows: points.map(({ x, y }, i) => [
    `${i + 1}`,
    angleOf(modulo(circle.first + (TURN * i) / circle.count, TURN), 4),
    shown(lengthOf(x), apart(ORIGIN, crossAt('punch', x, y), 'x')),
    shown(lengthOf(y), apart(ORIGIN, crossAt('punch', x, y), 'y')),
  ]),
});
