import type { SheetFit } from '../../../drawing/fit-up.ts';
import type { Box, Mark, Sheet, Table } from '../../../drawing/model.ts';
import { textWidth } from '../../../drawing/lettering.ts';
import { bigWord } from '../../../drawing/scrap.ts';
import {
  circlePath,
  cubicPath,
  FINE,
  NARROW,
  QUARTER,
  ruleLine,
  stroke,
  WIDE,
} from '../../../drawing/paths.ts';
import { mustBeAtMost } from '../../../fields/among.ts';
import type { Values } from '../../../fields/field.ts';
import { angleField, lengthField, pipeField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { type Cubic, cubicAt, lineExtent, rightmost } from '../../../geometry/cubic.ts';
import { halve } from '../../../geometry/halving.ts';
import { itemAround, itemAt } from '../../../lists.ts';
import { add2, polar2, sub2, type Vec2, vec3 } from '../../../geometry/vector.ts';
import { quarterWords } from '../../../joint/quarter-words.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { gapField } from '../../../sheets/contact.ts';
import { pathFigures } from '../../../sheets/fit-record.ts';
import { drawHole, drawPunch, linearDimension } from '../../../sheets/flat-marks.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { apart, levelAt, ORIGIN, rise, shown, uprightAt, widthOf } from '../../../sheets/measured.ts';
import { STEEL } from '../../../sheets/plate-mass.ts';
import { formatAngle } from '../../../units/angle.ts';
import { areaOf, lengthOf, massOf, shareOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven, writeShort, writeSize } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { type Pad, solvePad } from './pad-solve.ts';

const fields = {
  branch: pipeField('the branch the pad goes around', { example: 'NPS 4 sch 40' }),
  header: pipeField('the pipe it is rolled to', { example: 'NPS 8 sch 40' }),
  width: lengthField(
    'from the branch’s outside to the pad’s edge, the same all around, on the pad’s middle surface',
    { example: '2in', above: 0, max: 5000 },
  ),
  thickness: lengthField('thickness of the plate; left out, the header’s wall', {
    example: '8mm',
    above: 0,
    max: 200,
    optional: true,
  }),
  angle: angleField('angle between the axes; 90 is square', {
    default: '90',
    example: '60',
    above: 0,
    below: 180 * DEGREE,
  }),
  offset: lengthField('offset of the axes, positive toward station 90', {
    default: '0mm',
    example: '30mm',
    min: -10_000,
    max: 10_000,
  }),
  gap: { ...gapField, help: 'gap between the branch’s outside and the hole, all around', example: '2mm' },
  split: angleField(
    'splits the pad in two along a line through the branch’s center, at this angle from the header’s axis; 90 runs around the header',
    { example: '90', min: -180 * DEGREE, max: 180 * DEGREE, optional: true },
  ),
  weep: lengthField('diameter of the weep hole, one in each part', {
    example: '1/4in',
    above: 0,
    max: 100,
    optional: true,
  }),
} as const;

type PadValues = Values<typeof fields>;

const solve = (values: PadValues): Pad =>
  solvePad({ ...values, thickness: values.thickness ?? values.header.wall });

/** Where a ray from a point first crosses a closed line, mm along it; the line lies around the point. */
const crossRay = (line: readonly Cubic[], from: Vec2, angle: number): number => {
  const way = polar2(1, angle);
  const across = (p: Vec2): number => (p.x - from.x) * way.y - (p.y - from.y) * way.x;
  const along = (p: Vec2): number => (p.x - from.x) * way.x + (p.y - from.y) * way.y;
  const STEPS = 16;
  const places = line.flatMap((cubic) => Array.from({ length: STEPS }, (_, i) => ({ cubic, u: i / STEPS })));
  for (const [i, { cubic, u }] of places.entries()) {
    const next = itemAround(places, i + 1);
    const [p, q] = [cubicAt(cubic, u), cubicAt(next.cubic, next.u)];
    if (across(p) < 0 === across(q) < 0) continue;
    const { low } = halve((v) => across(cubicAt(cubic, v)) < 0 === across(p) < 0, u, u + 1 / STEPS);
    const reach = along(cubicAt(cubic, low));
    if (reach > 0) return reach;
  }
  throw new Error('a ray from inside a closed line does not cross it');
};

const middleOf = (line: readonly Cubic[]): Vec2 => {
  const { minX, maxX, minY, maxY } = lineExtent(line);
  return { x: (minX + maxX) / 2, y: (minY + maxY) / 2 };
};

/** Sheet direction of an angle from the header's axis, toward station 90. */
const sheetAngle = (angle: number): number => Math.PI / 2 - angle;

/** The split line's two cuts, each from the hole to the edge. */
const splitCuts = ({ hole, edge }: Pad, split: number): readonly (readonly [Vec2, Vec2])[] => {
  const center = middleOf(hole);
  return [0, Math.PI].map((half) => {
    const way = sheetAngle(split + half);
    const at = (reach: number): Vec2 => add2(center, polar2(reach, way));
    return [at(crossRay(hole, center, way)), at(crossRay(edge, center, way))];
  });
};

/** A place for a weep hole, and how much plate there is across it, mm. */
interface WeepPlace {
  readonly at: Vec2;
  readonly room: number;
}

/** Weep holes halfway between hole and edge: square to the split in each half, or one toward station 90. */
const weepPlaces = ({ hole, edge }: Pad, split: number | undefined): readonly WeepPlace[] => {
  const center = middleOf(hole);
  const angles = split === undefined ? [Math.PI / 2] : [split + Math.PI / 2, split - Math.PI / 2];
  return angles.map((angle) => {
    const way = sheetAngle(angle);
    const [inner, outer] = [crossRay(hole, center, way), crossRay(edge, center, way)];
    return { at: add2(center, polar2((inner + outer) / 2, way)), room: outer - inner };
  });
};

/** A word and the middle of it, its lettering, and half the room it takes, mm. */
interface PlacedWord {
  readonly text: string;
  readonly at: Vec2;
  readonly height: number;
  readonly half: number;
}

/** How far from the pad's edge the words at its ends are tried, mm. */
const FROM_EDGE = [7, 9, 11, 13, 15];

/**
 * The number and the name of an end of the pad, within it: one on each side of a split line that runs through them, or both
 * on the side where the plate is wider.
 */
const endWord = (
  { edge, hole }: Pad,
  end: 1 | -1,
  [number, name]: readonly [string, string],
  split: number | undefined,
): Mark[] => {
  const center = middleOf(hole);
  const reach = crossRay(edge, center, (end * Math.PI) / 2);
  const whole = `${number} ${name}`;
  const waysAt = (off: number, height: number): readonly (readonly PlacedWord[])[] => {
    const halfOf = (text: string): number => textWidth(text, height, true) / 2 + 2;
    const up = end * (reach - off);
    const [x, y] = [center.x + (split === undefined ? 0 : up * Math.tan(split)), center.y + up];
    const wordAt = (text: string, middle: number): PlacedWord => ({
      text,
      at: { x: middle, y },
      height,
      half: halfOf(text),
    });
    if (split === undefined || Math.abs(x - center.x) > halfOf(whole)) return [[wordAt(whole, center.x)]];
    return [
      [wordAt(number, x - halfOf(number)), wordAt(name, x + halfOf(name))],
      [wordAt(whole, x + (x < center.x ? 1 : -1) * halfOf(whole))],
    ];
  };
  const isOnPad = (words: readonly PlacedWord[]): boolean =>
    words.every(({ at, half }) =>
      [-1, 1].every((side) => {
        const away = sub2({ x: at.x + side * half, y: at.y + end * 3 }, center);
        return Math.hypot(away.x, away.y) < crossRay(edge, center, Math.atan2(away.y, away.x));
      }),
    );
  const ways = [3.5, 2.5].flatMap((height) => FROM_EDGE.flatMap((off) => waysAt(off, height)));
  return (ways.find(isOnPad) ?? itemAt(ways, 0)).flatMap(({ at, text, height }) => bigWord(at, text, height));
};

/** Where the number of a side of the pad stands: over a split line that would run through it. */
const sidePlace = (x: number, center: Vec2, split: number | undefined): Vec2 => {
  const usual = center.y + 12;
  const line = split === undefined ? -Infinity : center.y + (x - center.x) / Math.tan(split);
  return { x, y: Math.abs(line - usual) < 6 ? line + 7 : usual };
};

const padMarks = (values: PadValues, pad: Pad, weeps: readonly Vec2[], setting: Setting): Mark[] => {
  const { hole, edge } = pad;
  const { split, weep, angle, width } = values;
  const box: Box = lineExtent(edge);
  const inner: Box = lineExtent(hole);
  const words = quarterWords(angle).map((word) => word.replace(' · TDC', ''));
  const center = middleOf(hole);
  // There the branch's side runs along the header, so that the width lies level.
  const side = rightmost(pad.middle);
  const right = sidePlace((inner.maxX + box.maxX) / 2, center, split);
  // Over the word 90°, clear of a split that runs around the header.
  const above = Math.max(side.y, right.y) + 8 - side.y;
  return [
    ...(weep === undefined ? [] : weeps.flatMap((at) => [drawHole(at, weep), ...drawPunch(at)])),
    stroke('reference', cubicPath(pad.middle, true), FINE, 'dashed'),
    ruleLine('centre', { x: 0, y: box.minY - 6 }, { x: 0, y: box.maxY + 6 }, NARROW, 'long-dash-dot'),
    ruleLine('centre', { x: box.minX - 6, y: 0 }, { x: box.maxX + 6, y: 0 }, NARROW, 'long-dash-dot'),
    ...endWord(pad, 1, ['▲ 0°', words[0] ?? ''], split),
    ...endWord(pad, -1, ['▼ 180°', words[2] ?? ''], split),
    ...bigWord(right, '90°', 3.5),
    ...bigWord(sidePlace((inner.minX + box.minX) / 2, center, split), '270°', 3.5),
    ...linearDimension(side, { x: side.x + width, y: side.y }, above, writeShort(width, setting), 2.5),
    stroke('reference', circlePath(center, 0.6), QUARTER),
    // Drawn last, so that the white paper behind a word never lies over a cut.
    stroke('cut', cubicPath(edge, true), WIDE),
    stroke('cut', cubicPath(hole, true), WIDE),
    ...(split === undefined ? [] : splitCuts(pad, split).map(([a, b]) => ruleLine('cut', a, b, WIDE))),
  ];
};

/** Points of a closed cut every 22.5° around its middle, for those who lay out with tape and soapstone. */
const pointTable = (title: string, line: readonly Cubic[], center: Vec2): Table => {
  const pointAt = (angle: number): Vec2 =>
    add2(center, polar2(crossRay(line, center, sheetAngle(angle)), sheetAngle(angle)));
  return {
    title,
    header: [say`Direction`, say`around`, say`along`],
    rows: Array.from({ length: 16 }, (_, i) => {
      const angle = (i * Math.PI) / 8;
      const at = pointAt(angle);
      // Whichever way crosses the line there: a side is met along the level, top and bottom along the upright.
      const [before, after] = [pointAt(angle - 1e-3), pointAt(angle + 1e-3)];
      const isSide = Math.abs(after.y - before.y) > Math.abs(after.x - before.x);
      const spot = (isSide ? levelAt : uprightAt)('cut', at.x, at.y);
      return [
        formatAngle(angle),
        shown(lengthOf(at.x), isSide ? apart(ORIGIN, spot, 'x') : undefined),
        shown(lengthOf(at.y), isSide ? undefined : apart(ORIGIN, spot, 'y')),
      ];
    }),
  };
};

/** The pad rolled to the header again: its hole stands clear of the branch through the whole plate, by the gap. */
const fitPad = (values: PadValues, pad: Pad, weeps: readonly Vec2[]): SheetFit => {
  const { branch, header, angle, offset, gap, split, weep } = values;
  const thickness = values.thickness ?? header.wall;
  return {
    lay: {
      kind: 'round',
      od: header.od + 2 * thickness,
      sheetGirth: 2 * Math.PI * pad.meanRadius,
      allowance: 0,
    },
    wall: thickness,
    lines: [
      {
        which: 'inner',
        contact: 'wall',
        gap: 0,
        solids: [
          {
            kind: 'cylinder',
            through: vec3(0, -offset, 0),
            along: vec3(-Math.sin(angle), 0, Math.cos(angle)),
            radius: branch.od / 2 + gap,
          },
        ],
      },
    ],
    figures: {
      circles: weep === undefined ? [] : weeps.map((centre) => ({ centre, radius: weep / 2 })),
      points: weep === undefined ? [] : weeps,
      lines: split === undefined ? [] : splitCuts(pad, split).map(([from, to]) => ({ from, to })),
      curves: [pad.hole, pad.edge].flatMap((line) => pathFigures(cubicPath(line, true)).curves),
    },
  };
};

const drawSheet = (values: PadValues, setting: Setting): Sheet => {
  const { branch, header, width, angle, offset, gap, split, weep } = values;
  const thickness = values.thickness ?? header.wall;
  const pad = solve(values);
  const box = lineExtent(pad.edge);
  const center = middleOf(pad.hole);
  const places = weep === undefined ? [] : weepPlaces(pad, split);
  // The branch leans through the plate, which leaves less of it on two sides than its width.
  const room = Math.min(width, ...places.map((place) => place.room));
  mustBeAtMost('weep', weep, 0.7 * room, say`leaves no plate beside it`, setting);
  const weeps = places.map(({ at }) => at);
  const around = box.maxX - box.minX;
  const half = Math.PI * pad.meanRadius;
  const side = rightmost(pad.middle);
  const area = pad.area - (weep === undefined ? 0 : weeps.length * Math.PI * (weep / 2) ** 2);
  return plateSheet({
    name: 'pad',
    heading: say`Reinforcing pad`,
    subject: [
      say`${branch.designation} on ${header.designation}, ${formatAngle(angle)} between the axes${Math.abs(offset) > 1e-9 ? say`, offset ${writeBoth(offset, setting)} toward station 90` : ''}`,
      say`Plate ${writeSize(thickness, setting)} thick, ${writeGiven(width, setting)} wide around the branch, rolled to the header’s outside`,
      say`Laid out on the mean diameter ${writeBoth(2 * pad.meanRadius, setting)}; hole clears the branch${gap > 0 ? say` by ${writeBoth(gap, setting)}` : ''} through the whole thickness`,
      say`This side rolls to the outside; dashed: the branch on the pad’s middle surface`,
    ],
    marks: padMarks(values, pad, weeps, setting),
    fit: fitPad(values, pad, weeps),
    steps: [
      CHECK_PRINT(),
      say`Check the plate: ${writeSize(thickness, setting)} thick. Another thickness needs another print.`,
      say`Lay the sheet on the plate printed side up. Punch along edge, hole and center lines; mark 0° and 90° on the steel.`,
      ...(split === undefined
        ? []
        : [say`Cut it in two along the split line after rolling, or roll the halves one by one.`]),
      say`Roll it around the header’s axis, the 0° to 180° line along it, to an inside radius of ${writeBoth(header.od / 2, setting)}.`,
      ...(weep === undefined
        ? []
        : [
            say`Drill ${weeps.length === 1 ? say`the weep hole` : say`the weep holes`} before the pad is welded; leave ${weeps.length === 1 ? say`it` : say`them`} open.`,
          ]),
      say`Try it around the branch before you bevel its hole.`,
    ],
    facts: [
      [say`Plate, around the header`, shown(lengthOf(around), widthOf('x'))],
      [say`Plate, along the header`, shown(lengthOf(box.maxY - box.minY), rise())],
      [
        say`Width around the branch`,
        shown(
          lengthOf(width),
          apart(levelAt('reference', side.x, side.y), levelAt('cut', side.x + width, side.y), 'x'),
        ),
      ],
      [say`Mean diameter`, lengthOf(2 * pad.meanRadius)],
      // A split is cut as well, and slices through it would take it for the plate's edge.
      [say`Area of plate left`, shown(areaOf(area), split === undefined ? { kind: 'area' } : undefined)],
      [say`Mass, in steel`, massOf(area * thickness * STEEL)],
      [say`Share of the way around`, shareOf(around / (2 * half))],
      ...(weep === undefined ? [] : ([[say`Weep hole`, lengthOf(weep)]] as const)),
    ],
    tables: [
      pointTable(say`Hole by tape: from where the center lines cross`, pad.hole, center),
      pointTable(say`Edge by tape: from where the center lines cross`, pad.edge, center),
    ],
    cautions: [
      say`A pad’s size is the designer’s: width, thickness and material come from the code that rules the line and from qualified people.`,
      ...(around > half && split === undefined
        ? [say`The pad goes more than half way around the header: it must be split to be put on.`]
        : []),
      say`A pad’s weep hole stays open until it has been tested.`,
    ],
  });
};

/** A reinforcing plate around a branch, laid flat. */
export const pad = defineLayout({
  id: 'pad',
  summary: 'reinforcing pad around a branch, rolled to the header: hole, edge, split line and weep hole',
  family: 'measured on the job',
  words: ['repad', 're-pad', 'reinforcing pad', 'reinforcement', 'saddle plate', 'weep hole', 'doubler'],
  fields,
  examples: [
    'pad --branch "NPS 4 sch 40" --header "NPS 8 sch 40" --width 2in --weep 1/4in',
    'pad --branch "DN 100 sch 40" --header "DN 200 sch 40" --width 60mm --angle 60 --thickness 8mm --gap 2mm --split 90 --weep 6mm',
  ],
  draw: (values, setting) => [drawSheet(values, setting)],
  results: (values) => {
    const { area, meanRadius } = solve(values);
    return { pad: { area, meanRadius } };
  },
});
