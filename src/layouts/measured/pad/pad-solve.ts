import { cubicAt, fitCurve, type Cubic } from '../../../geometry/cubic.ts';
import { cylinderMate } from '../../../geometry/mates/cylinder.ts';
import { developOpening } from '../../../geometry/opening.ts';
import { circleOutline } from '../../../geometry/outline.ts';
import { CURVE_TOLERANCE } from '../../../geometry/tolerance.ts';
import { vec3, type Vec2 } from '../../../geometry/vector.ts';
import { areaInside } from '../../../geometry/weld-line.ts';
import { jointError } from '../../../issue.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { told } from '../../../units/format.ts';
import { say } from '../../../words/say.ts';

/** A reinforcing plate around a branch, rolled to the header's outside. Lengths in mm, angles in radians. */
export interface PadRequest {
  readonly branch: Pipe;
  readonly header: Pipe;
  /** From the branch's outside to the pad's edge, along the pad's middle surface and square to its edge. */
  readonly width: number;
  readonly thickness: number;
  readonly angle: number;
  readonly offset: number;
  /** Between the branch's outside and the hole. */
  readonly gap: number;
}

/**
 * The pad laid flat on its mean diameter. Frame: y along the header toward station 0 of the branch, x around it toward
 * station 90, the outside of the pad up; the origin as on a header's opening.
 */
export interface Pad {
  readonly hole: readonly Cubic[];
  readonly edge: readonly Cubic[];
  /** The branch's outside on the pad's middle surface: the width is measured from it. */
  readonly middle: readonly Cubic[];
  readonly meanRadius: number;
  /** Area of plate that is left, mm². */
  readonly area: number;
}

const slopeAt = ({ start, c1, c2, end }: Cubic, u: number): Vec2 => {
  const mix = (a: number, b: number, c: number, d: number): number =>
    (b - a) * (1 - u) ** 2 + 2 * (c - b) * u * (1 - u) + (d - c) * u * u;
  return { x: mix(start.x, c1.x, c2.x, end.x), y: mix(start.y, c1.y, c2.y, end.y) };
};

/** The point `away` mm outside a closed line run so that its inside lies to the given side. */
const offsetPoint = (cubic: Cubic, u: number, away: number): Vec2 => {
  const own = slopeAt(cubic, u);
  // At an end whose handle has no length the direction is that of the curve just inside.
  const slope = Math.hypot(own.x, own.y) > 1e-9 ? own : slopeAt(cubic, u < 0.5 ? 1e-5 : 1 - 1e-5);
  const size = Math.hypot(slope.x, slope.y);
  const p = cubicAt(cubic, u);
  return { x: p.x + (away * slope.y) / size, y: p.y - (away * slope.x) / size };
};

/** The pad. Throws a `joint` UserError where the branch misses the header, or the pad folds over or wraps too far. */
export const solvePad = (request: PadRequest): Pad => {
  const { branch, header, width, thickness, angle, offset, gap } = request;
  const outer = header.od / 2 + thickness;
  const meanRadius = outer - thickness / 2;
  const bodyOf = (radius: number) =>
    cylinderMate(vec3(0, -offset, 0), vec3(-Math.sin(angle), 0, Math.cos(angle)), radius);
  const reach = Math.abs(offset) + branch.od / 2 + gap;
  if (reach > (header.od / 2) * (1 + 1e-9))
    throw jointError(
      'branch',
      'past-side',
      say`the branch reaches ${told(reach)} from the header’s axis to the side, past the header’s outside of ${told(header.od / 2)}: a pad cannot go around it`,
      say`choose a smaller branch or a smaller offset`,
    );
  const centerAt = (radius: number): number => radius * Math.asin(-offset / radius);
  const trace = (radius: number, wall: number, body: number, through: boolean): readonly Cubic[] => {
    const opening = developOpening(circleOutline(radius, wall), bodyOf(body), through, centerAt(radius));
    if (!opening) throw new Error('a branch that reaches the header misses it');
    // Laid flat on the mean diameter.
    const k = meanRadius / radius;
    return opening.line.map(({ start, c1, c2, end }) => ({
      start: { x: start.x * k, y: start.y },
      c1: { x: c1.x * k, y: c1.y },
      c2: { x: c2.x * k, y: c2.y },
      end: { x: end.x * k, y: end.y },
    }));
  };
  const hole = trace(outer, thickness, branch.od / 2 + gap, true);
  const middle = trace(meanRadius, 0, branch.od / 2, false);
  const sense = Math.sign(areaInside(middle)) || 1;
  checkBends(middle, sense * width, width);
  checkHole(hole, middle, sense, width);
  const edge = middle.flatMap((cubic) =>
    fitCurve((u) => offsetPoint(cubic, u, sense * width), 0, 1, CURVE_TOLERANCE),
  );
  const around =
    Math.max(...edge.map(({ start }) => start.x)) - Math.min(...edge.map(({ start }) => start.x));
  if (around > 2 * Math.PI * meanRadius)
    throw jointError(
      'width',
      'wraps-over',
      say`the pad would wrap around the header past itself`,
      say`give a width under ${told(Math.floor(width - (around - 2 * Math.PI * meanRadius) / 2))}`,
    );
  return { hole, edge, middle, meanRadius, area: Math.abs(areaInside(edge)) - Math.abs(areaInside(hole)) };
};

/** Points on every curve of a line, and the directions from them to its outside. */
const probe = (line: readonly Cubic[], sense: number): readonly { readonly at: Vec2; readonly out: Vec2 }[] =>
  line.flatMap((cubic) =>
    Array.from({ length: 16 }, (_, i) => {
      const at = cubicAt(cubic, i / 16);
      const beyond = offsetPoint(cubic, i / 16, sense);
      return { at, out: { x: beyond.x - at.x, y: beyond.y - at.y } };
    }),
  );

/** Throws where a branch that leans through the plate takes its hole out to the pad's edge. */
const checkHole = (hole: readonly Cubic[], middle: readonly Cubic[], sense: number, width: number): void => {
  const around = probe(middle, sense);
  const past = probe(hole, sense).map(({ at }) => {
    let [least, side] = [Infinity, 0];
    for (const one of around) {
      const [x, y] = [at.x - one.at.x, at.y - one.at.y];
      if (Math.hypot(x, y) >= least) continue;
      [least, side] = [Math.hypot(x, y), x * one.out.x + y * one.out.y];
    }
    return side > 0 ? least : 0;
  });
  const most = Math.max(...past);
  if (most > 0.8 * width)
    throw jointError(
      'width',
      'hole-past-edge',
      say`the branch leans through the plate so that its hole reaches ${told(most)} past it on the plate’s middle, and leaves next to nothing of a pad ${told(width)} wide`,
      say`give a width over ${told(Math.ceil(most / 0.8))}, a thinner plate, or a branch that leans less`,
    );
};

/** Throws where the offset line would fold: where the middle line is hollow with a radius under the width. */
const checkBends = (line: readonly Cubic[], away: number, width: number): void => {
  for (const cubic of line)
    for (let i = 0; i < 16; i++) {
      const [a, b] = [offsetPoint(cubic, i / 16, away), offsetPoint(cubic, (i + 1) / 16, away)];
      const slope = slopeAt(cubic, (i + 0.5) / 16);
      if ((b.x - a.x) * slope.x + (b.y - a.y) * slope.y < 0)
        throw jointError(
          'width',
          'folds',
          say`${told(width)} from the branch the pad’s edge folds over itself where the opening is hollow`,
          say`give a smaller width`,
        );
    }
};
