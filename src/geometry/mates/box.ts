import { along, type Hit, type Line, type Mate } from '../mate.ts';
import { GRAZE } from '../tolerance.ts';
import { add3, cross3, dot3, scale3, sub3, type Vec3 } from '../vector.ts';

/** A rectangular bar, or the outside of a rectangular tube, mm. */
export interface Bar {
  /** A point of its middle line; the middle of its length where it has ends. */
  readonly centre: Vec3;
  /** Unit direction along it. */
  readonly axis: Vec3;
  /** Unit direction of its width, square to the axis. */
  readonly across: Vec3;
  readonly width: number;
  /** Its size square to width and axis. */
  readonly depth: number;
  /** Radius of the four corners along it; 0 for sharp ones. */
  readonly corner: number;
  /** Left out, it has no ends. */
  readonly length?: number;
}

/** A place where a line crosses into the section, in the section's own coordinates. */
interface Entry {
  readonly t: number;
  readonly nx: number;
  readonly ny: number;
  readonly face: string;
}

/** A bar as a mate. The line is followed in the plane of the section, across flats and rounded corners, and along it. */
export const boxMate = (bar: Bar): Mate => {
  const { centre, axis, across, width, depth, corner, length } = bar;
  const up = cross3(axis, across);
  const [halfX, halfY] = [width / 2, depth / 2];
  const [flatX, flatY] = [halfX - corner, halfY - corner];

  /** Where the line (x + t dx, y + t dy) first crosses into the section. */
  const enterSection = (x: number, y: number, dx: number, dy: number): Entry | undefined => {
    if (dx !== 0) {
      const side = dx > 0 ? -1 : 1;
      const t = (side * halfX - x) / dx;
      if (Math.abs(y + t * dy) <= flatY + GRAZE)
        return { t, nx: side, ny: 0, face: side > 0 ? 'face 1' : 'face 3' };
    }
    if (dy !== 0) {
      const side = dy > 0 ? -1 : 1;
      const t = (side * halfY - y) / dy;
      if (Math.abs(x + t * dx) <= flatX + GRAZE)
        return { t, nx: 0, ny: side, face: side > 0 ? 'face 2' : 'face 4' };
    }
    if (corner === 0) return undefined;
    let found: Entry | undefined;
    const speed = dx * dx + dy * dy;
    for (const [i, [sx, sy]] of [
      [1, 1],
      [-1, 1],
      [-1, -1],
      [1, -1],
    ].entries() as IterableIterator<[number, [number, number]]>) {
      const [px, py] = [x - sx * flatX, y - sy * flatY];
      const closest = -(px * dx + py * dy) / speed;
      const gap = Math.abs(px * dy - py * dx) / Math.sqrt(speed);
      if (gap > corner + GRAZE) continue;
      const t = closest - Math.sqrt(Math.max(0, (corner - gap) * (corner + gap)) / speed);
      const [qx, qy] = [(px + t * dx) / corner, (py + t * dy) / corner];
      const onCorner = sx * qx >= -1e-9 && sy * qy >= -1e-9;
      if (onCorner && (!found || t < found.t)) found = { t, nx: qx, ny: qy, face: `corner ${i + 1}` };
    }
    return found;
  };

  const asHit = ({ t, nx, ny, face }: Entry): Hit => ({
    t,
    normal: add3(scale3(across, nx), scale3(up, ny)),
    face,
  });

  return {
    convex: true,
    enter: (line: Line) => {
      const o = sub3(line.origin, centre);
      const [x, y, z] = [dot3(o, across), dot3(o, up), dot3(o, axis)];
      const [dx, dy, dz] = [
        dot3(line.direction, across),
        dot3(line.direction, up),
        dot3(line.direction, axis),
      ];
      const alongBar = Math.hypot(dx, dy) < 1e-12;
      const section = alongBar ? undefined : enterSection(x, y, dx, dy);
      if (length === undefined) return section && asHit(section);
      const half = length / 2;
      if (Math.abs(dz) < 1e-12) return section && Math.abs(z) <= half + GRAZE ? asHit(section) : undefined;
      const atEnd = (-Math.sign(dz) * half - z) / dz;
      if (section && section.t >= atEnd)
        return Math.abs(z + section.t * dz) <= half + GRAZE ? asHit(section) : undefined;
      const p = along(line, atEnd);
      const q = sub3(p, centre);
      if (!insideSection(bar, dot3(q, across), dot3(q, up))) return undefined;
      return { t: atEnd, normal: scale3(axis, -Math.sign(dz)), face: dz > 0 ? 'end 1' : 'end 2' };
    },
  };
};

const insideSection = ({ width, depth, corner }: Bar, x: number, y: number): boolean => {
  const [a, b] = [Math.abs(x) - width / 2 + corner, Math.abs(y) - depth / 2 + corner];
  return Math.hypot(Math.max(a, 0), Math.max(b, 0)) + Math.min(Math.max(a, b), 0) <= corner + GRAZE;
};
