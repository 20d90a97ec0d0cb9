import type { SheetFigures } from '../../../drawing/fit-up.ts';
import type { Fact, Mark, Path, Segment, Sheet, Table } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { boxPath, letter, NARROW, QUARTER, ruleLine } from '../../../drawing/paths.ts';
import { mustBeAtLeast, mustBeMore } from '../../../fields/among.ts';
import type { Values } from '../../../fields/field.ts';
import { angleField, choiceField, lengthField, pipeField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { fitCurve } from '../../../geometry/cubic.ts';
import { CURVE_TOLERANCE } from '../../../geometry/tolerance.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat, sideFigures } from '../../../sheets/fit-record.ts';
import { drawHole, drawOutline, drawPunch, linearDimension } from '../../../sheets/flat-marks.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import {
  apart,
  crossAt,
  type DrawnArc,
  endAt,
  ends,
  ofArc,
  rise,
  shown,
  taken,
  uprightAt,
  widthOf,
} from '../../../sheets/measured.ts';
import { formatAngle } from '../../../units/angle.ts';
import { lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeShort, writeSize } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { type Cradle, cradleOf } from './cradle.ts';
import { type Standing, supportScene } from './support-scene.ts';

const fields = {
  pipe: pipeField('the pipe that is carried', { example: 'NPS 8 sch 40', aliases: ['stock'] }),
  kind: choiceField(
    'saddle: a plate cut to the pipe; shoe: such plates on a base plate; lug: a plate with a pin hole that stands on the pipe',
    ['saddle', 'shoe', 'lug'],
    { default: 'saddle' },
  ),
  width: lengthField('width of the plate', { example: '8in', above: 0, max: 10_000 }),
  height: lengthField(
    'from the pipe’s center to the plate’s far edge: what it stands on, or a lug’s outer end',
    { example: '8in', above: 0, max: 10_000 },
  ),
  cradle: angleField('how far the plate reaches around the pipe', {
    default: '120',
    example: '120',
    min: 10 * DEGREE,
    max: 180 * DEGREE,
  }),
  angle: angleField('angle between the pipe’s axis and the plate on the plan; 90 stands square across', {
    default: '90',
    example: '60',
    min: 20 * DEGREE,
    max: 90 * DEGREE,
  }),
  thickness: lengthField('thickness of the plate', { default: '10mm', example: '10mm', above: 0, max: 200 }),
  gap: lengthField('gap between pipe and plate', { default: '0mm', example: '2mm', max: 100 }),
  hole: lengthField('with a lug, the pin hole’s diameter', {
    example: '22mm',
    above: 0,
    max: 500,
    optional: true,
  }),
  holeEdge: lengthField('from the hole’s center to the lug’s outer end; left out, half the width', {
    example: '40mm',
    above: 0,
    optional: true,
  }),
  baseLength: lengthField(
    'with a shoe, length of the base plate along the pipe; left out, the plate’s width',
    { example: '12in', above: 0, max: 10_000, optional: true },
  ),
} as const;

type SupportValues = Values<typeof fields>;

const curveSegments = (curve: (t: number) => Vec2, from: number, to: number): readonly Segment[] =>
  fitCurve(curve, from, to, CURVE_TOLERANCE).map(({ c1, c2, end }) => ({ kind: 'curve', c1, c2, to: end }));

/** The plate's outline, counter-clockwise from its lower left corner. */
const outlineOf = ({ across, down, shift, end }: Cradle, { width, height, cradle }: SupportValues): Path => {
  const half = width / 2;
  const line = (x: number, y: number): Segment => ({ kind: 'line', to: { x, y } });
  const arc =
    (side: 1 | -1) =>
    (t: number): Vec2 => ({ x: side * shift + across * Math.sin(t), y: -down * Math.cos(t) });
  return {
    start: { x: -half, y: -height },
    closed: true,
    segments: [
      line(half, -height),
      line(half, end.y),
      ...(half - end.x > 1e-9 ? [line(end.x, end.y)] : []),
      ...curveSegments(arc(1), cradle / 2, 0),
      ...(shift > 1e-9 ? [line(-shift, -down)] : []),
      ...curveSegments(arc(-1), 0, -cradle / 2),
      ...(half - end.x > 1e-9 ? [line(-half, end.y)] : []),
      line(-half, -height),
    ],
  };
};

/** What the plate must show where: its straight sides, and its cradle by the ellipse. */
const cradleFigures = (
  { across, down, shift, end }: Cradle,
  values: SupportValues,
): Required<Pick<SheetFigures, 'lines' | 'curves'>> => {
  const arc = (side: 1 | -1): readonly Vec2[] =>
    Array.from({ length: 25 }, (_, i) => ((i + 0.5) / 25) * (values.cradle / 2)).map((t) => ({
      x: side * (shift + across * Math.sin(t)),
      y: -down * Math.cos(t),
    }));
  const [half, foot] = [values.width / 2, -values.height];
  const sides = [
    [
      { x: -half, y: end.y },
      { x: -half, y: foot },
    ],
    [
      { x: -half, y: foot },
      { x: half, y: foot },
    ],
    [
      { x: half, y: foot },
      { x: half, y: end.y },
    ],
  ] as const;
  return {
    lines: sides.map(([from, to]) => ({ from, to })),
    curves: [{ points: arc(1) }, { points: arc(-1) }],
  };
};

const check = (values: SupportValues, cradle: Cradle, setting: Setting): void => {
  const { width, height } = values;
  mustBeAtLeast(
    'width',
    width,
    2 * cradle.end.x - 1e-9,
    say`does not reach so far around the pipe: widen the plate, or make the cradle smaller`,
    setting,
  );
  mustBeMore('height', height, cradle.down, say`from the pipe’s center leaves no plate under it`, setting);
};

/** The support as it stands; its sizes are checked. */
const standingOf = (values: SupportValues, pin: Vec2 | undefined): Standing => ({
  ...values,
  baseLength: values.baseLength ?? values.width,
  pin: pin && values.hole !== undefined ? { at: pin, radius: values.hole / 2 } : undefined,
});

const cradleTable = (shape: Cradle): Table => ({
  title: say`Cradle by tape: out from the middle both ways, and down from its tips`,
  header: [say`out`, say`down`],
  rows: Array.from({ length: 9 }, (_, i) => {
    const x = (shape.end.x * i) / 8;
    const lean = Math.max(0, x - shape.shift) / shape.across;
    const y = -shape.down * Math.sqrt(Math.max(0, 1 - lean * lean));
    const tip = endAt('cut', shape.end.x, shape.end.y);
    return [
      lengthOf(x),
      shown(lengthOf(shape.end.y - y), apart(i === 8 ? tip : uprightAt('cut', x, y), tip, 'y')),
    ];
  }),
});

/** The center of a lug's pin hole; undefined where there is none. Throws where it does not lie within the plate. */
const pinOf = (
  { kind, width, height, hole, holeEdge }: SupportValues,
  { down }: Cradle,
  setting: Setting,
): Vec2 | undefined => {
  if (kind !== 'lug' || hole === undefined) return undefined;
  const both = (length: number): string => writeBoth(length, setting);
  const fromEnd = holeEdge ?? width / 2;
  if (fromEnd + hole / 2 >= height - down)
    throw jointError(
      'hole-edge',
      'hole-in-pipe',
      say`the hole runs into the pipe`,
      say`give a smaller hole-edge or a greater height`,
    );
  if (fromEnd <= hole / 2)
    throw jointError(
      'hole-edge',
      'hole-in-edge',
      say`a hole of ${both(hole)} breaks out of the lug’s outer end`,
      say`give a hole-edge over ${both(hole / 2)}`,
    );
  if (hole >= width)
    throw jointError(
      'hole',
      'hole-in-sides',
      say`a hole of ${both(hole)} is as wide as the lug`,
      say`give a hole under ${both(width)}`,
    );
  return { x: 0, y: fromEnd - height };
};

/** A plate that stands square across the pipe: its cradle is an arc about the pipe's center. */
const cradleArc = ({ down }: Cradle, cradle: number): DrawnArc => ({
  centre: { x: 0, y: 0 },
  radius: down,
  from: -Math.PI / 2 - cradle / 2,
  sweep: cradle,
});

/** The straight part in the middle of a cradle that the plate's two faces leave. */
const flatOf = ({ shift, down }: Cradle): readonly [Vec2, Vec2] => [
  { x: -shift, y: -down },
  { x: shift, y: -down },
];

const plateLengths = ({ down, end }: Cradle, { width, height }: SupportValues): readonly Fact[] => {
  const foot = uprightAt('cut', 0, -height);
  const bottom = uprightAt('cut', 0, -down);
  const tip = endAt('cut', end.x, end.y);
  return [
    [
      say`From the pipe’s center to the far edge`,
      shown(lengthOf(height), apart(foot, crossAt('punch', 0, 0), 'y')),
    ],
    [say`Middle, far edge to cradle`, shown(lengthOf(height - down), apart(foot, bottom, 'y'))],
    [
      say`Sides, far edge to top`,
      shown(lengthOf(height + end.y), ends({ x: width / 2, y: -height }, { x: width / 2, y: end.y })),
    ],
    [say`Cradle, tip to tip`, shown(lengthOf(2 * end.x), ends({ x: -end.x, y: end.y }, end))],
    [say`Cradle, deep`, shown(lengthOf(down + end.y), apart(bottom, tip, 'y'))],
  ];
};

/** A lug's pin hole and how far it stands from the outer end; nothing where there is none. */
const pinFacts = ({ hole, height }: SupportValues, pin: Vec2 | undefined): readonly Fact[] =>
  pin === undefined || hole === undefined
    ? []
    : [
        [say`Pin hole`, shown(lengthOf(hole), taken(ofArc('radius', { centre: pin, radius: hole / 2 }), 2))],
        [
          say`Pin hole, center to outer end`,
          shown(
            lengthOf(height + pin.y),
            apart(uprightAt('cut', 0, -height), crossAt('punch', pin.x, pin.y), 'y'),
          ),
        ],
      ];

const supportSheet = (values: SupportValues, setting: Setting): Sheet => {
  const { pipe, kind, width, height, cradle, angle, thickness, gap, hole } = values;
  const shape = cradleOf(values);
  check(values, shape, setting);
  const both = (length: number): string => writeBoth(length, setting);
  const pin = pinOf(values, shape, setting);
  const marks: Mark[] = [
    drawOutline(outlineOf(shape, values)),
    ruleLine('centre', { x: 0, y: -height }, { x: 0, y: 5 }, NARROW, 'long-dash-dot'),
    ruleLine('centre', { x: -8, y: 0 }, { x: 8, y: 0 }, NARROW, 'long-dash-dot'),
    ...drawPunch({ x: 0, y: 0 }),
    letter('text', { x: 10, y: 0 }, say`center of the pipe`, 2.5, { valign: 'middle' }),
    ...(pin && hole !== undefined ? [drawHole(pin, hole), ...drawPunch(pin)] : []),
    ...linearDimension(
      { x: -width / 2, y: -height },
      { x: width / 2, y: -height },
      -9,
      writeShort(width, setting),
      3.5,
    ),
  ];
  return plateSheet({
    name: 'support',
    heading:
      kind === 'lug' ? say`Lug on a pipe` : kind === 'shoe' ? say`Shoe, cradle plate` : say`Saddle plate`,
    subject: [
      say`${pipe.designation}, plate ${writeSize(thickness, setting)} thick, ${formatAngle(cradle)} around the pipe`,
      angle === Math.PI / 2
        ? say`Stands square across the pipe`
        : say`Stands at ${formatAngle(angle)} to the pipe’s axis on the plan: cut clear through its whole thickness, square to the plate`,
      `${kind === 'lug' ? say`From the pipe’s center to the outer end ${both(height)}` : say`From the pipe’s center to the foot ${both(height)}`}${gap > 0 ? say`, gap ${both(gap)} around the pipe` : ''}`,
    ],
    marks,
    fit: fitFlat({
      ...cradleFigures(shape, values),
      circles: pin && hole !== undefined ? [{ centre: pin, radius: hole / 2 }] : [],
      points: [{ x: 0, y: 0 }, ...(pin ? [pin] : [])],
    }),
    steps: [
      CHECK_PRINT(),
      kind === 'lug'
        ? say`Lay the outer end on a straight edge of the plate, tape the sheet down.`
        : say`Lay the foot on a straight edge of the plate, tape the sheet down.`,
      say`Prick the corners and along the cradle. Lift the sheet, punch, strike the outline.`,
      ...(pin ? [say`Drill the pin hole while the plate is whole.`] : []),
      say`Cut, grind the cradle to the pipe, try it on the pipe before you weld.`,
    ],
    facts: [
      ...plateLengths(shape, values),
      ...pinFacts(values, pin),
      ...(angle === Math.PI / 2
        ? ([
            [say`Cradle radius`, shown(lengthOf(shape.down), ofArc('radius', cradleArc(shape, cradle)))],
          ] as const)
        : ([
            [say`Ellipse, half across`, lengthOf(shape.across)],
            [say`Flat in the middle`, shown(lengthOf(2 * shape.shift), ends(...flatOf(shape)))],
          ] as const)),
    ],
    tables: [cradleTable(shape)],
    pictures: scenePictures(supportScene(standingOf(values, pin), shape, setting)),
    cautions: [
      say`What a support or lug carries, its plate, its welds and where it may sit on the pipe are decided by a qualified person.`,
    ],
  });
};

/** A shoe's base plate, with the line its cradle plate stands on. */
const baseSheet = (values: SupportValues, setting: Setting): Sheet => {
  const { width, thickness, angle } = values;
  const length = values.baseLength ?? width;
  const half = { x: width / 2, y: length / 2 };
  const reach = width / 2;
  const [x, y] = [reach * Math.sin(angle), reach * Math.cos(angle)];
  return plateSheet({
    name: 'support base',
    heading: say`Shoe, base plate`,
    subject: [
      say`${writeBoth(width, setting)} across, ${writeBoth(length, setting)} along the pipe, ${writeSize(thickness, setting)} thick, seen from above`,
      say`Long-dash double-dot: where the cradle plate stands`,
    ],
    marks: [
      drawOutline(boxPath({ minX: -half.x, maxX: half.x, minY: -half.y, maxY: half.y })),
      ruleLine('centre', { x: 0, y: -half.y - 5 }, { x: 0, y: half.y + 5 }, NARROW, 'long-dash-dot'),
      ruleLine('reference', { x: -x, y: -y }, { x, y }, QUARTER, 'long-dash-double-dot'),
    ],
    fit: fitFlat(
      sideFigures([
        { x: -half.x, y: -half.y },
        { x: half.x, y: -half.y },
        { x: half.x, y: half.y },
        { x: -half.x, y: half.y },
      ]),
    ),
    steps: [
      CHECK_PRINT(),
      say`Mark the outline and both lines. The center line lies along the pipe.`,
      say`Stand the cradle plate on its line, tack it, check it square before you weld.`,
    ],
    facts: [
      [say`Across`, shown(lengthOf(width), widthOf('x'))],
      [say`Along the pipe`, shown(lengthOf(length), rise())],
    ],
  });
};

/** Plates that carry a pipe: cradles cut to it, shoes, lugs. */
export const support = defineLayout({
  id: 'support',
  summary: 'saddle, shoe and lug plates cut to a pipe that crosses them at any angle',
  family: 'measured on the job',
  words: ['saddle', 'cradle', 'shoe', 'pipe support', 'lug', 'pad eye', 'gusset', 'hanger'],
  fields,
  sheets: ['support', 'support base'],
  examples: [
    'support --pipe "NPS 8 sch 40" --width 8in --height 8in',
    'support --pipe "DN 200 sch 40" --kind shoe --width 240mm --height 220mm --angle 60 --thickness 10mm --base-length 300mm',
    'support --pipe "NPS 6 sch 40" --kind lug --width 4in --height 7in --cradle 60 --hole 7/8in -o lug.pdf',
  ],
  scene: (values, setting) => {
    const shape = cradleOf(values);
    check(values, shape, setting);
    return supportScene(standingOf(values, pinOf(values, shape, setting)), shape, setting);
  },
  draw: (values, setting) => [
    supportSheet(values, setting),
    ...(values.kind === 'shoe' ? [baseSheet(values, setting)] : []),
  ],
});
