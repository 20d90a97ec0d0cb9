import type { SheetFigures } from '../../../drawing/fit-up.ts';
import type { Fact, Figure, Mark, Picture, Sheet, Table } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { FINE, letter, NARROW, ruleLine } from '../../../drawing/paths.ts';
import { mustBeLess, onlyOne } from '../../../fields/among.ts';
import type { Values } from '../../../fields/field.ts';
import { angleField, choiceField, countField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import {
  type Ball,
  capBlankRadius,
  goreArea,
  goreHalfWidth,
  latitudeOf,
  seamStandoff,
} from '../../../geometry/ball-gore.ts';
import { type Cubic, fitCurve, mapCubic, reverseLine, straight } from '../../../geometry/cubic.ts';
import { lastOf } from '../../../lists.ts';

import { DEGREE } from '../../../geometry/angle-units.ts';
import { CURVE_TOLERANCE } from '../../../geometry/tolerance.ts';
import { vec2, type Vec2 } from '../../../geometry/vector.ts';
import { requestError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { drawHole, drawOutline, drawPunch, drawTarget } from '../../../sheets/flat-marks.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import {
  apart,
  crossAt,
  crosses,
  endAt,
  ends,
  ofArc,
  shown,
  taken,
  widthOf,
} from '../../../sheets/measured.ts';
import { blankFacts, plateFacts, plateFields, toMean } from '../../../sheets/pattern-fields.ts';
import { patternPath } from '../../../sheets/pattern-marks.ts';
import { PLATE_CAUTION } from '../../../sheets/seam-step.ts';
import { formatAngle } from '../../../units/angle.ts';
import { angleOf, countOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven, writeSize } from '../../../units/writing.ts';
import { say, translate } from '../../../words/say.ts';
import { type Gored, goresScene } from './gores-scene.ts';
const QUARTER = 90 * DEGREE;
/** Least height of a gore that anyone could cut, mm. */
const LOWEST = 1;

const fields = {
  sphere: lengthField('diameter of the ball', { example: '1200mm', min: 50, max: 50_000 }),
  count: countField('number of gores around it', { example: '12', min: 3, max: 120 }),
  from: angleField('latitude where the gores begin: -90 at the bottom of a ball, 0 at the rim of a dome', {
    default: '-90',
    example: '0',
    min: -QUARTER,
    below: QUARTER,
  }),
  to: angleField('latitude where they end', {
    default: '90',
    example: '60',
    above: -QUARTER,
    max: QUARTER,
  }),
  crown: lengthField('diameter of a round crown plate at the top, measured across its rim; 0 for none', {
    default: '0mm',
    example: '300mm',
    max: 50_000,
  }),
  rings: countField('number of tiers, equal along the side, each with its own gore', {
    default: '1',
    example: '2',
    min: 1,
    max: 12,
  }),
  form: choiceField(
    'rolled: bent one way only, flat across; dished: pressed to the ball',
    ['rolled', 'dished'],
    { default: 'rolled' },
  ),
  ...plateFields,
} as const;

type Asked = Values<typeof fields>;

/** A ball, dome or head from equal gores, whole or in tiers, with a round crown. */
export const gores = defineLayout({
  id: 'gores',
  summary: 'ball, dome or head from equal gores, whole or in tiers, with a round crown plate',
  family: 'flat patterns',
  words: ['ball', 'sphere', 'dome', 'petals', 'head', 'crown', 'flat pattern'],
  fields,
  examples: [
    'gores --sphere 600mm --count 12',
    'gores --sphere 48in --count 8 --from 0 --crown 12in --thickness 3/16in --sizes outside',
    'gores --sphere 2000mm --count 16 --from 0 --crown 500mm --rings 2 --form dished',
  ],
  sheets: ['gore', 'gore N', 'crown'],
  scene: (asked, setting) => goresScene(readGores(asked, setting)),
  draw: (asked, setting) => {
    const gored = readGores(asked, setting);
    const { ball, tiers } = gored;
    const top = lastOf(tiers)[1];
    return [
      ...tiers.map((tier, i) => {
        const pictures = scenePictures(goresScene(gored, i));
        return goreSheet({ asked, ball, tier, number: i + 1, pictures }, setting);
      }),
      ...(asked.crown > 0 ? [crownSheet(asked, ball, top, setting)] : []),
    ];
  },
});

/** The ball on the middle of its plate, and its tiers. Throws where it cannot be made. */
const readGores = (asked: Asked, setting: Setting): Gored => {
  const radius = asked.sphere / 2 + toMean(asked);
  mustBeLess('thickness', asked.thickness, radius, say`is too much for so small a ball`, setting);
  const top = topOf(asked, radius, setting);
  const span = (top - asked.from) / asked.rings;
  if (radius * span < LOWEST)
    throw requestError(
      asked.crown > 0 ? 'crown' : 'to',
      'too-low',
      say`the gores are less than ${writeGiven(LOWEST, setting)} up their middle, too low to cut`,
      say`give latitudes further apart`,
    );
  const tiers = Array.from({ length: asked.rings }, (_, i): readonly [number, number] => [
    asked.from + i * span,
    i + 1 === asked.rings ? top : asked.from + (i + 1) * span,
  ]);
  const { form, crown, thickness } = asked;
  return { form, crown, thickness, ball: { radius, count: asked.count }, tiers };
};

/** The latitude where the gores end: the crown's rim, or as asked for. */
const topOf = ({ from, to, crown }: Asked, radius: number, setting: Setting): number => {
  if (to <= from)
    throw requestError(
      'to',
      'upside-down',
      say`the gores end at ${formatAngle(to)}, not above where they begin, ${formatAngle(from)}`,
      say`give more than ${formatAngle(from)}`,
    );
  if (crown === 0) return to;
  onlyOne(
    { crown, to: to < QUARTER ? to : undefined },
    say`give one: the crown sets the latitude where the gores end`,
  );
  mustBeLess('crown', crown, 2 * radius, say`is wider than the ball`, setting);
  const latitude = latitudeOf(radius, crown);
  mustBeLess('crown', crown, 2 * radius * Math.cos(from), say`leaves nothing of the gores`, setting);
  return latitude;
};

interface Tier {
  readonly asked: Asked;
  readonly ball: Ball;
  readonly tier: readonly [number, number];
  readonly number: number;
  readonly pictures: readonly Picture[];
}

/** Half the width of a gore where its height along the middle line is R times the latitude. */
const sideOf =
  ({ asked, ball }: Tier) =>
  (latitude: number): Vec2 =>
    vec2(goreHalfWidth(ball, asked.form, latitude), ball.radius * latitude);

/** The gore's outline; its middle line is x = 0, and y = 0 lies at latitude 0. */
const goreOutline = (tier: Tier): readonly Cubic[] => {
  const side = sideOf(tier);
  const [from, to] = tier.tier;
  const pointed = (latitude: number): boolean => QUARTER - Math.abs(latitude) < 1e-9;
  const end = (latitude: number): Vec2 => (pointed(latitude) ? vec2(0, side(latitude).y) : side(latitude));
  const at = (latitude: number): Vec2 =>
    latitude === from ? end(from) : latitude === to ? end(to) : side(latitude);
  const right = fitCurve(at, from, to, CURVE_TOLERANCE);
  const mirror = ({ x, y }: Vec2): Vec2 => vec2(-x, y);
  const left = reverseLine(right.map((cubic) => mapCubic(cubic, mirror)));
  const across = (latitude: number, up: boolean): readonly Cubic[] => {
    if (pointed(latitude)) return [];
    const p = side(latitude);
    return [up ? straight(p, mirror(p)) : straight(mirror(p), p)];
  };
  return [...across(from, false), ...right, ...across(to, true), ...left];
};

/** What a gore must show where: its sides by latitude, its ends, and its punch marks. */
const goreFigures = (tier: Tier, points: readonly Vec2[]): Partial<SheetFigures> => {
  const side = sideOf(tier);
  const [from, to] = tier.tier;
  const sides = Array.from({ length: 40 }, (_, i) => side(from + ((i + 0.5) * (to - from)) / 40));
  const ends = [from, to].filter((latitude) => QUARTER - Math.abs(latitude) >= 1e-9).map(side);
  return {
    points,
    lines: ends.map(({ x, y }) => ({ from: { x: -x, y }, to: { x, y } })),
    curves: [{ points: sides }, { points: sides.map(({ x, y }) => ({ x: -x, y })) }],
  };
};

/** Steps of latitude at which widths are given. */
const widthLatitudes = ([from, to]: readonly [number, number]): readonly number[] => {
  const step = [15, 10, 5, 2.5].find((size) => (to - from) / (size * DEGREE) >= 5) ?? 1;
  const first = Math.floor(from / (step * DEGREE) + 1e-9) + 1;
  const count = Math.ceil(to / (step * DEGREE) - 1e-9) - first;
  return [from, ...Array.from({ length: Math.max(0, count) }, (_, i) => (first + i) * step * DEGREE), to];
};

const widthTable = ({ asked, ball, tier }: Tier, side: (latitude: number) => Vec2): Table => ({
  title: say`Up the middle, and the width there of a rolled and of a dished gore; this one is ${translate(asked.form)}`,
  header: [say`Latitude`, say`up`, say`rolled`, say`dished`],
  rows: widthLatitudes(tier).map((latitude, i, { length }) => {
    const p = side(latitude);
    // Every width between the ends has its line.
    const isDrawn = i > 0 && i < length - 1;
    const role = asked.form === 'rolled' ? 'bend' : 'station';
    const [from, to] = [endAt(role, -p.x, p.y), endAt(role, p.x, p.y)];
    const width = (form: 'rolled' | 'dished'): Figure =>
      shown(
        lengthOf(2 * goreHalfWidth(ball, form, latitude)),
        isDrawn && form === asked.form ? apart(from, to) : undefined,
      );
    return [
      angleOf(latitude),
      shown(
        lengthOf(ball.radius * (latitude - tier[0])),
        isDrawn ? apart(crossAt('punch', 0, side(tier[0]).y), to, 'y') : undefined,
      ),
      width('rolled'),
      width('dished'),
    ];
  }),
});

const goreSheet = (tier: Tier, setting: Setting): Sheet => {
  const { asked, ball, number } = tier;
  const [from, to] = tier.tier;
  const both = (length: number): string => writeBoth(length, setting);
  const side = sideOf(tier);
  const widest = side(from < 0 && to > 0 ? 0 : Math.abs(from) < Math.abs(to) ? from : to);
  const [low, high] = [vec2(0, side(from).y), vec2(0, side(to).y)];
  const widthAt = (latitude: number): Figure => {
    const { x, y } = side(latitude);
    return shown(lengthOf(2 * x), ends(vec2(-x, y), vec2(x, y)));
  };
  const rows = widthLatitudes(tier.tier).slice(1, -1);
  const points = [low, high];
  const marks: Mark[] = [
    ruleLine('centre', low, high, NARROW, 'long-dash-dot'),
    ...rows.flatMap((latitude) => {
      const p = side(latitude);
      return [
        asked.form === 'rolled'
          ? ruleLine('bend', vec2(-p.x, p.y), p, NARROW, 'long-dash-double-dot')
          : ruleLine('station', vec2(-p.x, p.y), p, FINE),
        ...(2 * p.x > 18 ? [letter('text', vec2(1.5, p.y + 1), formatAngle(latitude), 2.5)] : []),
      ];
    }),
    drawOutline(patternPath(goreOutline(tier), true)),
    ...points.flatMap((at) => drawPunch(at)),
  ];
  const area = goreArea(ball, asked.form, from, to);
  const standoff = seamStandoff(ball);
  return plateSheet({
    name: asked.rings === 1 ? 'gore' : `gore ${number}`,
    heading: asked.rings === 1 ? say`Gore` : say`Gore of tier ${number} of ${asked.rings}`,
    subject: [
      say`One of ${asked.count} for a ball ⌀ ${writeGiven(asked.sphere, setting)}${asked.thickness > 0 ? say`, plate ${writeSize(asked.thickness, setting)}, size taken ${asked.sizes === 'mean' ? say`on the middle of the plate` : translate(asked.sizes)}` : ''}`,
      say`From latitude ${formatAngle(from, 2)} to ${formatAngle(to, 2)}`,
      asked.form === 'rolled'
        ? say`Rolled one way only: the middles lie on the ball, the seams stand ${both(standoff)} outside it where it is widest`
        : say`Widths are the ball’s own: the gore must be dished until its edges lie on the ball`,
    ],
    marks,
    fit: fitFlat(goreFigures(tier, points)),
    make: asked.count,
    steps: [
      CHECK_PRINT(),
      say`Check the pattern: ${both(high.y - low.y)} up the middle, ${both(2 * widest.x)} at the widest.`,
      say`Lay it on the plate, mark around it, and cut ${asked.count} alike. Lay one on another: they must match both ways up.`,
      asked.form === 'rolled'
        ? say`Roll each to a radius of ${both(ball.radius)} on the middle of the plate, the lines across along the rolls.`
        : say`Dish each to a radius of ${both(ball.radius)} both ways. Try it with a gauge along and across.`,
      say`Tack opposite gores first. Tape across at the widest in several directions before you weld.`,
    ],
    facts: [
      [say`Gores`, countOf(asked.count)],
      [say`Up the middle`, shown(lengthOf(high.y - low.y), crosses(low, high))],
      [say`Width at the widest`, shown(lengthOf(2 * widest.x), widthOf('x'))],
      [say`Width at the bottom`, widthAt(from)],
      [say`Width at the top`, widthAt(to)],
      [say`Radius to the middle of the plate`, lengthOf(ball.radius)],
      ...(asked.form === 'rolled' ? ([[say`Seams outside the ball`, lengthOf(standoff)]] as const) : []),
      ...blankFacts(2 * widest.x, high.y - low.y),
      ...plateFacts(area, asked),
    ] satisfies readonly Fact[],
    tables: [widthTable(tier, side)],
    pictures: tier.pictures,
    cautions: [
      PLATE_CAUTION(),
      say`A head made from gores carries no pressure rating: a qualified person decides where it may be used.`,
    ],
  });
};

const crownSheet = (asked: Asked, ball: Ball, top: number, setting: Setting): Sheet => {
  const both = (length: number): string => writeBoth(length, setting);
  const radius = asked.form === 'dished' ? capBlankRadius(ball.radius, top) : asked.crown / 2;
  const dished = asked.form === 'dished';
  const centre = vec2(0, 0);
  return plateSheet({
    name: 'crown',
    heading: say`Crown plate`,
    subject: [
      say`Crown ⌀ ${writeGiven(asked.crown, setting)} across its rim, for a ball ⌀ ${writeGiven(asked.sphere, setting)}`,
      dished
        ? say`Blank for dishing: the disc with the cap’s own area, ⌀ ${both(2 * radius)}`
        : say`A flat disc; it stands on the upper ends of the gores`,
    ],
    marks: [drawHole(centre, 2 * radius), ...drawTarget(centre)],
    fit: fitFlat({ circles: [{ centre, radius }], points: [centre] }),
    steps: [
      CHECK_PRINT(),
      say`Strike the disc from the center: radius ${both(radius)}. Cut it out.`,
      dished
        ? say`Dish it to a radius of ${both(ball.radius)} until its rim measures ${both(asked.crown)} across. Trim it to the gores.`
        : say`Set it on the gores, center over center, and mark each seam on its rim.`,
    ],
    facts: [
      [say`Radius of the disc`, shown(lengthOf(radius), ofArc('radius', { centre, radius }))],
      [
        say`Rim across`,
        shown(lengthOf(asked.crown), dished ? undefined : taken(ofArc('radius', { centre, radius }), 2)),
      ],
      [say`Latitude of the rim`, angleOf(top)],
      ...blankFacts(2 * radius, 2 * radius),
      ...plateFacts(Math.PI * radius * radius, asked),
    ],
    tables: [],
    pictures: [],
    cautions: [PLATE_CAUTION()],
  });
};
