import { planeMate } from '../../../geometry/mates/plane.ts';
import {
  developGore,
  goreEnds,
  halfGap,
  placeGores,
  type Gore,
  type GorePlace,
} from '../../../geometry/turn.ts';
import { add2, scale2, sub2, unit2, vec3, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import type { Note, Part, Scene, View } from '../../../scene/scene.ts';
import { angleNote, labelNote, lengthNote } from '../../../scene/scene.ts';
import type { Pose } from '../../../scene/shape.ts';
import { stockShape, type StockCut } from '../../../scene/stock-shape.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import { say, translateName } from '../../../words/say.ts';
import { heightAt, type TurnRequest } from './turn-request.ts';

const inPlane = ({ x, y }: Vec2): Vec3 => vec3(x, 0, y);
const middleOf = (a: Vec2, b: Vec2): Vec2 => scale2(add2(a, b), 0.5);
/** Gores of a turn beyond this come around to where they began. */
const WHOLE = Math.PI * 1.01;

/** Where a piece lies: mid-length at the origin of its own frame, station 0 toward the center of the bend. */
const poseOf = ({ from, to }: GorePlace): Pose => {
  const ahead = unit2(sub2(to, from));
  return {
    origin: inPlane(middleOf(from, to)),
    x: vec3(ahead.y, 0, -ahead.x),
    y: vec3(0, 1, 0),
    z: inPlane(ahead),
  };
};

const cutsOf = (
  { stock, contact, gap }: TurnRequest,
  gore: Gore,
): readonly [lower: StockCut, upper: StockCut] => {
  const { lower, upper } = developGore(stock.outline, gore, contact, gap, 0);
  const planes = goreEnds(gore);
  // Over any point of the section; the lower plane faces the other way and is met by the line run back.
  const over =
    ({ through, normal }: (typeof planes)['lower'], back: number) =>
    ({ x, y }: Vec2): number => {
      const way = normal.z < 0 ? 1 : -1;
      const hit = planeMate(through, normal).enter({ origin: vec3(x, y, 0), direction: vec3(0, 0, way) });
      return way * (hit?.t ?? 0) + back;
    };
  return [
    { around: lower.ordinate, over: over(planes.lower, halfGap(gap, gore.lower)) },
    { around: upper.ordinate, over: over(planes.upper, -halfGap(gap, gore.upper)) },
  ];
};

/** All pieces of a turn in place, seen from station 90: a view of the whole, then one about each piece. */
export const turnScene = (turn: TurnRequest, setting: Setting): Scene => {
  const { stock, shape, angle, gores } = turn;
  const places = placeGores(shape);
  const parts = places.map((place): Part => {
    const [lower, upper] = cutsOf(turn, place.gore);
    const { number } = place.gore;
    return {
      id: `gore ${number}`,
      name: translateName(`gore ${number}`),
      role: 'work',
      shape: stockShape(stock, poseOf(place), lower, upper),
    };
  });
  const start: Vec2 = { x: 0, y: shape.tangents[0] };
  const center = add2(start, { x: shape.radius, y: 0 });
  const end = add2(center, scale2({ x: -Math.cos(angle), y: Math.sin(angle) }, shape.radius));
  const near = angle <= WHOLE;
  const radial: readonly Note[] = near
    ? [
        { kind: 'line', points: [center, start].map(inPlane) },
        { kind: 'line', points: [center, end].map(inPlane) },
        labelNote(inPlane(middleOf(center, start)), `R ${writeShort(shape.radius, setting)}`, {
          along: inPlane(start),
          toward: vec3(0, 0, -1),
        }),
        angleNote(
          inPlane(center),
          inPlane(sub2(start, center)),
          inPlane(sub2(end, center)),
          formatAngle(angle),
        ),
      ]
    : [];
  const viewOf = (gore?: Gore): View => ({
    title: say`The turn, seen from station 90`,
    sight: { right: vec3(-1, 0, 0), up: vec3(0, 0, 1) },
    width: 52,
    height: 50,
    around: near ? [inPlane(center)] : [],
    ...(gore ? { about: `gore ${gore.number}` } : {}),
    notes: [
      ...radial,
      ...places.map((place): Note => {
        const heel = middleOf(...place.heel);
        const out = sub2(heel, middleOf(place.from, place.to));
        return labelNote(inPlane(heel), String(place.gore.number), {
          toward: inPlane(out),
          bold: place.gore.number === gore?.number,
        });
      }),
    ],
  });
  return { parts, views: [viewOf(), ...gores.map(viewOf)] };
};

/** One piece upright with its lengths. */
export const goreScene = (turn: TurnRequest, gore: Gore, setting: Setting): Scene => {
  const { stock, shape, contact, gap, gores } = turn;
  const [lower, upper] = cutsOf(turn, gore);
  const lines = developGore(stock.outline, gore, contact, gap, 0);
  const at = (side: number, which: 1 | -1): Vec3 => {
    const cut = which > 0 ? gore.upper : gore.lower;
    // Toward the throat (station 0) a piece is shorter.
    const back = halfGap(gap, cut);
    const plane = which * (gore.centre / 2 - side * Math.tan(cut) - back);
    if (contact === 'od' || side === 0) return vec3(side, 0, plane);
    // Lines through the wall do not lie in the plane of the cut.
    const line = which > 0 ? lines.upper : lines.lower;
    return vec3(side, 0, heightAt(stock, line, side > 0 ? 'throat' : 'heel') ?? plane);
  };
  const length = (side: number, toward: 1 | -1): Note => {
    const [from, to] = [at(side, -1), at(side, 1)];
    return lengthNote(from, to, writeShort(to.z - from.z, setting), vec3(toward, 0, 0));
  };
  const joined = (number: number): string =>
    number < 1 || number > gores.length ? say`square end` : translateName(`gore ${number}`);
  const { throat, heel } = shape;
  return {
    parts: [
      {
        id: `gore ${gore.number}`,
        name: translateName(`gore ${gore.number}`),
        role: 'work',
        shape: stockShape(
          stock,
          { origin: vec3(0, 0, 0), x: vec3(1, 0, 0), y: vec3(0, 1, 0), z: vec3(0, 0, 1) },
          lower,
          upper,
        ),
      },
    ],
    views: [
      {
        title: say`Gore ${gore.number}, seen from station 90`,
        sight: { right: vec3(-1, 0, 0), up: vec3(0, 0, 1) },
        width: 26,
        height: 40,
        notes: [
          { kind: 'center', points: [at(0, -1), at(0, 1)] },
          { kind: 'line', points: [vec3(throat, 0, 0), vec3(-heel, 0, 0)] },
          length(throat, 1),
          length(-heel, -1),
          labelNote(at(0, 1), `▲ ${joined(gore.number + 1)}`, { toward: vec3(0, 0, 1) }),
          labelNote(at(0, -1), `▼ ${joined(gore.number - 1)}`, { toward: vec3(0, 0, -1) }),
          labelNote(at(throat, -1), say`0° throat`, { toward: vec3(1, 0, -1), bold: true }),
          labelNote(at(-heel, -1), say`180° heel`, { toward: vec3(-1, 0, -1) }),
        ],
      },
    ],
  };
};
