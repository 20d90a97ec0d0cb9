import { itemAt, lastOf } from '../../lists.ts';
import { bendFigures, bendStation } from '../../geometry/mates/bend.ts';
import { add3, cross3, dot3, scale3, sub3, unit3, type Vec3 } from '../../geometry/vector.ts';
import { makeForm, type Form, type FormMaker, type Row } from '../form.ts';
import { turnParts } from '../sampling.ts';
import type { BendShape } from '../shape.ts';
import { closeEnd, unitRing } from './cone.ts';

/** A place of the center line: the ring of the pipe there lies in a plane that may lean, as at a miter. */
interface Station {
  readonly at: Vec3;
  /** Along the pipe. */
  readonly along: Vec3;
  /** Normal of the ring's plane; the pipe's own direction but at a miter. */
  readonly plane: Vec3;
  readonly kind?: 'weld' | 'miter';
}

/** An elbow with its legs, or two mitered pipes. */
export const bendForm = (shape: BendShape, deviation: number): Form => {
  const { corner, legs, bendRadius, radius, bore, lengths } = shape;
  const { turn, axis } = bendFigures(shape);
  const maker = makeForm();
  const ring = unitRing(turnParts(radius, deviation));
  const [start, end] = [scale3(legs[0], -1), legs[1]];
  const parts = turnParts(bendRadius + radius, deviation);
  const steps = Math.max(2, Math.ceil((parts * turn) / (2 * Math.PI)));
  const stations: readonly Station[] = [
    { at: add3(corner, scale3(legs[0], lengths[0])), along: start, plane: start },
    ...(bendRadius > 0
      ? Array.from({ length: steps + 1 }, (_, i): Station => {
          const { at, tangent } = bendStation(shape, (turn * i) / steps);
          return {
            at,
            along: tangent,
            plane: tangent,
            ...(i % steps === 0 ? { kind: 'weld' as const } : {}),
          };
        })
      : [
          { at: corner, along: start, plane: unit3(sub3(legs[1], legs[0])), kind: 'miter' as const },
          { at: corner, along: end, plane: unit3(sub3(legs[1], legs[0])) },
        ]),
    { at: add3(corner, scale3(legs[1], lengths[1])), along: end, plane: end },
  ];
  /** Directions from the center line to the points of a ring. */
  const spokes = (along: Vec3): readonly Vec3[] => {
    const a = cross3(axis, along);
    return ring.map((e) => add3(scale3(a, e.x), scale3(axis, e.y)));
  };
  const skin = (size: number, sign: 1 | -1): readonly Row[] => {
    let shared: readonly number[] = [];
    return stations.map(({ at, along, plane }, i) => {
      const out = spokes(along);
      // Both sides of a miter's seam have the same points.
      const second = stations[i - 1]?.kind === 'miter';
      const points = second
        ? shared
        : out.map((e) => {
            const slide = -(size * dot3(e, plane)) / dot3(along, plane);
            return maker.point(add3(at, add3(scale3(e, size), scale3(along, slide))));
          });
      shared = points;
      return maker.row(
        points,
        out.map((e) => scale3(e, sign)),
      );
    });
  };
  const outside = skin(radius, 1);
  const inside = bore === undefined ? undefined : skin(bore, -1);
  layPipe(maker, stations, outside, false);
  if (inside) layPipe(maker, stations, inside, true);
  const [first, last] = [itemAt(stations, 0), lastOf(stations)];
  closeEnd(maker, lastOf(outside), inside?.at(-1), last.along, last.at, 1);
  closeEnd(maker, itemAt(outside, 0), inside?.[0], first.along, first.at, -1);
  return maker.done();
};

const layPipe = (
  maker: FormMaker,
  stations: readonly Station[],
  rows: readonly Row[],
  isBore: boolean,
): void =>
  rows.forEach((row, i) => {
    const next = rows[i + 1];
    if (!next) return;
    const kind = stations[i]?.kind;
    if (kind !== 'miter') {
      if (isBore) maker.strip(next, row, true);
      else maker.strip(row, next, true);
    }
    if (isBore || kind === undefined) return;
    maker.edgeBetween(row, kind === 'miter' ? next : row, kind === 'miter' ? 'edge' : 'weld', true);
  });
