import { TURN } from './angle-units.ts';
import { itemAround } from '../lists.ts';
import type { LineEdge, Section, SectionEdge } from './section.ts';
import { cross2, distance2, dot2, scale2, sub2, unit2, type Vec2 } from './vector.ts';

/**
 * The sections of the trade's stock, mm, each in its stock frame with its contour begun at position 0. Sizes are taken as
 * they are: whoever reads a designation sees to it that they can be.
 */

/** A corner of a contour and the side that leaves it, counter-clockwise. */
interface Corner {
  readonly x: number;
  readonly y: number;
  /** Rounding of the corner, 0 for a sharp one. */
  readonly radius?: number;
  /** Name of the rounding. */
  readonly corner?: string;
  /** Name of the side that leaves the corner. */
  readonly side: string;
  /** True where a tape does not reach the side, or the rounding. */
  readonly innerSide?: boolean;
  readonly innerCorner?: boolean;
  /** Depth of steel counted under the side, mm. */
  readonly wall?: number;
}

const nameEdge = (face: string, inner = false, wall?: number) => ({
  face,
  ...(inner && { inner }),
  ...(wall !== undefined && { wall }),
});

/** The contour of straight sides between rounded corners. Roundings that leave nothing of a side leave it out. */
const roundedContour = (corners: readonly Corner[]): readonly SectionEdge[] => {
  const near = (i: number): Corner => itemAround(corners, i);
  const parts = corners.map((corner, i) => {
    const back = unit2(sub2(near(i - 1), corner));
    const ahead = unit2(sub2(near(i + 1), corner));
    const radius = corner.radius ?? 0;
    const turn = Math.atan2(cross2(scale2(back, -1), ahead), -dot2(back, ahead));
    const trim = Math.abs(radius * Math.tan(turn / 2));
    const away = (d: Vec2): Vec2 => ({ x: corner.x + trim * d.x, y: corner.y + trim * d.y });
    const [from, to] = [away(back), away(ahead)];
    // The outward normal at the rounding's beginning lies to the right of the side that comes in.
    const sense = Math.sign(turn);
    const normal = { x: -back.y, y: back.x };
    const centre = { x: from.x - sense * radius * normal.x, y: from.y - sense * radius * normal.y };
    const start = Math.atan2(sense * normal.y, sense * normal.x);
    return { corner, from, to, radius, centre, start, turn };
  });
  return parts.flatMap((part, i): SectionEdge[] => {
    const next = itemAround(parts, i + 1);
    const { corner } = part;
    const side: LineEdge = {
      kind: 'line',
      ...nameEdge(corner.side, corner.innerSide, corner.wall),
      from: part.to,
      to: next.from,
    };
    const rounding: SectionEdge[] =
      part.radius > 0
        ? [
            {
              kind: 'arc',
              ...nameEdge(corner.corner ?? corner.side, corner.innerCorner, corner.wall),
              centre: part.centre,
              radius: part.radius,
              start: part.start,
              sweep: part.turn,
            },
          ]
        : [];
    return [...rounding, ...(distance2(part.to, next.from) > 1e-9 ? [side] : [])];
  });
};

const rectangle = (x: number, y: number, corner: number): readonly SectionEdge[] => {
  const [a, b] = [x / 2, y / 2];
  const at = (cx: number, cy: number, i: number): Corner => ({
    x: cx,
    y: cy,
    radius: corner,
    corner: `corner ${i}`,
    side: `face ${(i % 4) + 1}`,
  });
  return roundedContour([
    { x: a, y: 0, side: 'face 1' },
    at(a, b, 1),
    at(-a, b, 2),
    at(-a, -b, 3),
    at(a, -b, 4),
  ]);
};

/**
 * A square or rectangular tube, `x` along x and `y` along y. Position 0 is the middle of face 1, on +x; faces and corners
 * count counter-clockwise.
 * @param innerCorner inside radius of the corners; the outside one less the wall, or sharp, when left out
 */
export const tubeSection = (
  x: number,
  y: number,
  corner: number,
  wall: number,
  innerCorner = Math.max(0, corner - wall),
): Section => ({
  outside: rectangle(x, y, corner),
  inside: rectangle(x - 2 * wall, y - 2 * wall, innerCorner),
  thickness: wall,
});

/** A solid bar of rectangular section, `x` along x. Position 0 is the middle of the face on +x. */
export const flatSection = (x: number, y: number): Section => ({
  outside: rectangle(x, y, 0),
  thickness: Math.min(x, y),
});

const ring = (radius: number): readonly SectionEdge[] => [
  { kind: 'arc', face: 'outside', centre: { x: 0, y: 0 }, radius, start: 0, sweep: TURN },
];

/** A round pipe. Position 0 is on +x. */
export const roundSection = (radius: number, wall: number): Section => ({
  outside: ring(radius),
  inside: ring(radius - wall),
  thickness: wall,
});

const ellipse = (x: number, y: number, turn: number, inset: number): SectionEdge => {
  const radii = [x / 2, y / 2] as const;
  // The parameter of the point on +x.
  const start = Math.atan2(radii[0] * Math.sin(-turn), radii[1] * Math.cos(turn));
  return {
    kind: 'ellipse',
    face: 'outside',
    centre: { x: 0, y: 0 },
    radii,
    turn,
    start,
    sweep: TURN,
    inset,
  };
};

/**
 * An elliptical tube or a pipe that is out of round, `x` by `y` outside with a wall of even thickness. Position 0 is where
 * the outside crosses +x.
 * @param turn station of the first size, radians
 */
export const ellipseSection = (x: number, y: number, wall: number, turn = 0): Section => ({
  outside: [ellipse(x, y, turn, 0)],
  inside: [ellipse(x, y, turn, wall)],
  thickness: wall,
});

const oval = (x: number, y: number): readonly SectionEdge[] => {
  const radius = Math.min(x, y) / 2;
  const quarter = (cx: number, cy: number, i: number): Corner => ({
    x: (cx * x) / 2,
    y: (cy * y) / 2,
    radius,
    // The two quarters of a round end are one face.
    corner: x >= y ? (cx > 0 ? 'round 1' : 'round 2') : cy > 0 ? 'round 1' : 'round 2',
    side: `face ${(i % 4) + 1}`,
  });
  const contour = roundedContour([
    { x: x / 2, y: 0, side: 'face 1' },
    quarter(1, 1, 1),
    quarter(-1, 1, 2),
    quarter(-1, -1, 3),
    quarter(1, -1, 4),
  ]);
  return contour;
};

/** An oval tube with two straight sides, `x` by `y` outside. Position 0 is where the outside crosses +x. */
export const ovalSection = (x: number, y: number, wall: number): Section => ({
  outside: oval(x, y),
  inside: oval(x - 2 * wall, y - 2 * wall),
  thickness: wall,
});

const halfRing = (radius: number, back: number): readonly SectionEdge[] => {
  const end = Math.acos(back / radius);
  const corner = Math.sqrt((radius - back) * (radius + back));
  const arc = (start: number, sweep: number): SectionEdge => ({
    kind: 'arc',
    face: 'round',
    centre: { x: 0, y: 0 },
    radius,
    start,
    sweep,
  });
  return [
    arc(0, end),
    { kind: 'line', face: 'flat', from: { x: back, y: corner }, to: { x: back, y: -corner } },
    arc(-end, end),
  ];
};

/** A half-round tube: half a circle of `diameter` outside and its flat through the origin. Position 0 is the crown, on +x. */
export const halfRoundSection = (diameter: number, wall: number): Section => ({
  outside: halfRing(diameter / 2, 0),
  inside: halfRing(diameter / 2 - wall, wall),
  thickness: wall,
});

/** Sizes of an angle: legs outside, their thickness, fillet and rounding of the toes. */
export interface AngleSizes {
  readonly long: number;
  readonly short: number;
  readonly thickness: number;
  readonly root: number;
  readonly toe: number;
}

/** An angle. Its heel is the origin and position 0; leg 1 runs along +x, leg 2 along +y. */
export const angleSection = ({ long, short, thickness: t, root, toe }: AngleSizes): Section => ({
  outside: roundedContour([
    { x: 0, y: 0, side: 'leg 1', wall: t + root },
    { x: long, y: 0, side: 'toe 1', wall: t },
    {
      x: long,
      y: t,
      radius: toe,
      corner: 'toe rounding 1',
      innerCorner: true,
      side: 'inside of leg 1',
      innerSide: true,
      wall: t,
    },
    {
      x: t,
      y: t,
      radius: root,
      corner: 'fillet',
      innerCorner: true,
      side: 'inside of leg 2',
      innerSide: true,
      wall: t,
    },
    { x: t, y: short, radius: toe, corner: 'toe rounding 2', innerCorner: true, side: 'toe 2', wall: t },
    { x: 0, y: short, side: 'leg 2', wall: t + root },
  ]),
  thickness: t,
});

/** Sizes of a channel or a beam. */
export interface FlangedSizes {
  readonly depth: number;
  readonly width: number;
  readonly web: number;
  /** Thickness of the flange; where it tapers, that at `meanAt` from the toe. */
  readonly flange: number;
  readonly root: number;
  readonly toe: number;
  /** Rise of the flange's inside per length toward the web; 0 for parallel flanges. */
  readonly taper: number;
  /** Distance from the toe at which a tapered flange has its thickness, mm. */
  readonly meanAt: number;
}

/** Thickness of a flange at its toe and, carried on, at the web. */
export const flangeThickness = (
  { width, web, flange, taper, meanAt }: FlangedSizes,
  overhang: number,
): { readonly toe: number; readonly web: number } => {
  if (overhang <= 0) throw new RangeError(`a flange of ${width} mm leaves nothing beside a web of ${web} mm`);
  return { toe: flange - taper * meanAt, web: flange + taper * (overhang - meanAt) };
};

/** How far a fillet reaches along the web from where web and flange would meet. */
const filletDepth = ({ root, taper }: FlangedSizes): number =>
  root * Math.tan((Math.PI / 2 - Math.atan(taper)) / 2);

/** A channel. The middle of the web's back is the origin and position 0, +x out of it; the flanges run along -x, flange 1 on +y. */
export const channelSection = (sizes: FlangedSizes): Section => {
  const { depth, width, web, root, toe } = sizes;
  const h = depth / 2;
  const thick = flangeThickness(sizes, width - web);
  const flangeWall = thick.web + filletDepth(sizes);
  const inside = (x: number, y: number, radius: number, corner: string, side: string): Corner => ({
    x,
    y,
    radius,
    corner,
    innerCorner: true,
    side,
    innerSide: !side.startsWith('toe'),
    wall: thick.web,
  });
  return {
    outside: roundedContour([
      { x: 0, y: 0, side: 'web', wall: web + root },
      { x: 0, y: h, side: 'flange 1', wall: flangeWall },
      { x: -width, y: h, side: 'toe 1', wall: thick.web },
      inside(-width, h - thick.toe, toe, 'toe rounding 1', 'inside of flange 1'),
      inside(-web, h - thick.web, root, 'fillet 1', 'inside of web'),
      inside(-web, -h + thick.web, root, 'fillet 2', 'inside of flange 2'),
      inside(-width, -h + thick.toe, toe, 'toe rounding 2', 'toe 2'),
      { x: -width, y: -h, side: 'flange 2', wall: flangeWall },
      { x: 0, y: -h, side: 'web', wall: web + root },
    ]),
    thickness: Math.min(web, thick.toe),
  };
};

/**
 * A beam. Its depth lies along x, its middle is the origin; position 0 is the middle of flange 1, on +x. Its web has side 1
 * on +y and side 2 on -y, and each flange has its inside beside both.
 */
export const beamSection = (sizes: FlangedSizes): Section => {
  const { depth, width, web, root, toe } = sizes;
  const [h, b, w] = [depth / 2, width / 2, web / 2];
  const thick = flangeThickness(sizes, b - w);
  const wall = thick.web + filletDepth(sizes);
  const inside = (x: number, y: number, radius: number, corner: string, side: string): Corner => ({
    x,
    y,
    radius,
    corner,
    innerCorner: true,
    side,
    innerSide: !side.startsWith('toe'),
    wall: side.startsWith('web') ? web : thick.web,
  });
  return {
    outside: roundedContour([
      { x: h, y: 0, side: 'flange 1', wall },
      { x: h, y: b, side: 'toe 1', wall: thick.web },
      inside(h - thick.toe, b, toe, 'toe rounding 1', 'inside of flange 1, side 1'),
      inside(h - thick.web, w, root, 'fillet 1', 'web, side 1'),
      inside(-h + thick.web, w, root, 'fillet 2', 'inside of flange 2, side 1'),
      inside(-h + thick.toe, b, toe, 'toe rounding 2', 'toe 2'),
      { x: -h, y: b, side: 'flange 2', wall },
      { x: -h, y: -b, side: 'toe 3', wall: thick.web },
      inside(-h + thick.toe, -b, toe, 'toe rounding 3', 'inside of flange 2, side 2'),
      inside(-h + thick.web, -w, root, 'fillet 3', 'web, side 2'),
      inside(h - thick.web, -w, root, 'fillet 4', 'inside of flange 1, side 2'),
      inside(h - thick.toe, -b, toe, 'toe rounding 4', 'toe 4'),
      { x: h, y: -b, side: 'flange 1', wall },
    ]),
    thickness: Math.min(web, thick.toe),
  };
};
