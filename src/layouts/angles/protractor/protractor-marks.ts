import type { SheetFigures } from '../../../drawing/fit-up.ts';
import type { Mark, Path } from '../../../drawing/model.ts';
import { arcPath, circlePath, letter, NARROW, QUARTER, ruleLine } from '../../../drawing/paths.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { polar2, vec2 } from '../../../geometry/vector.ts';
import { arcScale, NEAREST, numberOffset, scaleDepth } from '../../../sheets/arc-scale.ts';
import { drawOutline, drawTarget, onPaper, uprightAngle } from '../../../sheets/flat-marks.ts';
import { formatAngle } from '../../../units/angle.ts';
import { textWidth } from '../../../drawing/lettering.ts';
/** Whole degrees that strokes may stand apart. */
const wholeSteps = [1, 2, 5, 10, 15, 30] as const;

/** A protractor, mm and radians counter-clockwise from the right end of its straight edge. */
export interface Protractor {
  readonly radius: number;
  readonly arc: 'half' | 'quarter' | 'full';
  readonly rays: readonly number[];
}

/** The angle from end to end of its arc. */
export const sweepOf = (arc: Protractor['arc']): number =>
  arc === 'full' ? 2 * Math.PI : arc === 'half' ? Math.PI : Math.PI / 2;

const outlineOf = (radius: number, arc: Protractor['arc']): Path => {
  const o = vec2(0, 0);
  if (arc === 'full') return circlePath(o, radius);
  const curve = arcPath(o, radius, 0, sweepOf(arc));
  const back = arc === 'quarter' ? [o, curve.start] : [curve.start];
  return {
    start: curve.start,
    segments: [...curve.segments, ...back.map((to) => ({ kind: 'line' as const, to }))],
    closed: true,
  };
};

/** Outline on `cut`, degrees from both ends on `station`, the angles asked for on `reference`, the center on `punch`. */
export const protractorMarks = ({ radius, arc, rays }: Protractor): Mark[] => {
  const o = vec2(0, 0);
  const sweep = Math.round(sweepOf(arc) / DEGREE);
  const full = arc === 'full';
  const depth = scaleDepth();
  const inner = radius - depth - 1.5;
  const twoRows = radius >= 45;
  const reach = twoRows ? inner - depth : radius - depth;
  const rows = {
    centre: o,
    side: -1 as const,
    from: 0,
    to: full ? sweep - 0.25 : sweep,
    numberSteps: [10, 30, 90] as const,
    isBare: (value: number): boolean => !full && (value === 0 || value === sweep),
    isMain: (value: number): boolean => value % 90 === 0,
    reading: (angle: number): number => angle - Math.PI / 2,
  };
  return [
    drawOutline(outlineOf(radius, arc)),
    ...(full
      ? [
          ruleLine('centre', vec2(-reach, 0), vec2(reach, 0), NARROW, 'long-dash-dot'),
          ruleLine('centre', vec2(0, -reach), vec2(0, reach), NARROW, 'long-dash-dot'),
        ]
      : []),
    ...(arc === 'half' ? [ruleLine('centre', vec2(0, 0), vec2(0, reach), NARROW, 'long-dash-dot')] : []),
    ...(full ? [] : endNumbers(radius - numberOffset(), sweep, 0, sweep)),
    ...(full || !twoRows ? [] : endNumbers(inner - numberOffset(), sweep, sweep, 0)),
    ...rayLabels(rays, reach).flatMap((label) => rayMarks(label, radius, reach)),
    ...arcScale({
      ...rows,
      radius,
      angleOf: (degrees) => degrees * DEGREE,
      steps: [0.25, 0.5, ...wholeSteps],
      write: String,
    }),
    ...(twoRows
      ? arcScale({
          ...rows,
          radius: inner,
          from: full ? 1 : 0,
          to: sweep,
          angleOf: (degrees) => (sweep - degrees) * DEGREE,
          steps: [5, 10, 15, 30],
          write: String,
        })
      : []),
    ...drawTarget(o),
  ];
};

/** The arc, its straight edges, the center, a stroke at every degree and one at every angle asked for. */
export const protractorFigures = ({ radius, arc, rays }: Protractor): Partial<SheetFigures> => {
  const centre = vec2(0, 0);
  const sweep = sweepOf(arc);
  const end = polar2(radius, sweep);
  const corners = arc === 'quarter' ? [end, centre, vec2(radius, 0)] : [end, vec2(radius, 0)];
  // As close as the scale's strokes stand on this arc.
  const step = DEGREE * (wholeSteps.find((degrees) => degrees * DEGREE * radius >= NEAREST) ?? 30);
  const steps = Math.round(sweep / step);
  return {
    ...(arc === 'full'
      ? { circles: [{ centre, radius }] }
      : {
          arcs: [{ centre, radius, from: 0, sweep }],
          lines: corners.slice(1).map((to, i) => ({ from: corners[i] ?? centre, to })),
        }),
    points: [centre],
    turns: [
      { centre, radius, from: 0, step, count: arc === 'full' ? steps : steps + 1 },
      ...rays.map((ray) => ({
        centre,
        radius: radius + 4,
        from: ray,
        step: 2 * Math.PI,
        count: 1,
        role: 'reference' as const,
      })),
    ],
  };
};

/** The numbers at both ends of an arc that a straight edge cuts off: beside the edge, inside the outline. */
const endNumbers = (radius: number, sweep: number, first: number, last: number): Mark[] => {
  const end = polar2(radius, sweep * DEGREE);
  const beside = sweep === 90 ? vec2(1.2, end.y - 1.25) : vec2(end.x, 1.2);
  return [
    letter('text', vec2(radius, 1.2), String(first), 2.5, { align: 'centre', bold: true }),
    letter('text', beside, String(last), 2.5, { align: sweep === 90 ? 'left' : 'centre', bold: true }),
  ];
};

/** An angle asked for, and where the middle of its value stands: from the center, mm. */
interface RayLabel {
  readonly ray: number;
  readonly out: number;
}

/** Parts of the reach at which a value may stand, the best first. */
const places = [0.62, 0.36, 0.86] as const;
/** Rows of values need so much, mm. */
const ROW = 5;

/** Where the values stand, so that those of close angles do not run into each other while there is room. */
const rayLabels = (rays: readonly number[], reach: number): readonly RayLabel[] => {
  const placed: (RayLabel & { readonly half: number })[] = [];
  for (const ray of rays) {
    const half = textWidth(formatAngle(ray, 4), 3.5, true) / 2 + 0.5;
    const isFree = (out: number): boolean =>
      placed.every(
        (other) =>
          Math.abs(other.out - out) > other.half + half ||
          Math.abs(other.ray - ray) * Math.min(out, other.out) > ROW,
      );
    const outs = places.map((part) => part * reach);
    placed.push({ ray, out: outs.find(isFree) ?? places[0] * reach, half });
  }
  return placed;
};

/** One angle from the center to the arc, its value along the line. */
const rayMarks = ({ ray, out }: RayLabel, radius: number, reach: number): Mark[] => {
  const direction = polar2(1, ray);
  const at = (r: number) => polar2(r, ray);
  const off = uprightAngle(direction) + Math.PI / 2;
  const foot = at(out);
  const lift = polar2(1, off);
  return [
    // Open where the numbers stand.
    ruleLine('reference', at(6), at(reach), QUARTER),
    ruleLine('reference', at(radius - 5), at(radius + 4), QUARTER),
    ...(Math.abs(direction.y) > 1e-9 || ray === 0
      ? [
          letter('text', { x: foot.x + lift.x, y: foot.y + lift.y }, formatAngle(ray, 4), 3.5, {
            align: 'centre',
            angle: uprightAngle(direction),
            bold: true,
          }),
        ]
      : onPaper(letter('text', foot, formatAngle(ray, 4), 3.5, { align: 'centre', bold: true }))),
  ];
};
