import type { Lay } from './record.ts';
import { rollUp } from './rolling.ts';
import { laySection } from './section-lay.ts';
import { point, type Vec2, type Vec3 } from './space.ts';

/** Where a point of a sheet comes to lie, at a depth under the outside, mm. */
export type Place = (p: Vec2, depth: number) => Vec3;

/** A sheet laid on its part, as `soapstone.json` says how. */
export const placeOn = (lay: Lay): Place => {
  switch (lay.kind) {
    case 'round': {
      // Once round the sheet is once round the stock, whatever the paper or plate is thick.
      const wrap = { od: lay.od, paper: lay.sheetGirth / Math.PI - lay.od };
      return (p, depth) => rollUp(p, wrap, lay.od / 2 - depth);
    }
    case 'flat':
      return (p, depth) => point(-depth, p.x, p.y);
    case 'bar':
      return placeOnBar(lay);
    case 'section':
      return laySection(lay.section, lay.lift).place;
    case 'cone': {
      const { radius, halfAngle, lift } = lay;
      const [s, c] = [Math.sin(halfAngle), Math.cos(halfAngle)];
      // Along the side from the plane z = 0 to the apex. The print is a cone of its own, whose apex lies further on.
      const slant = radius / s;
      const further = (lift * c) / s;
      return (p, depth) => {
        const [across, down] = [p.x, slant + further - p.y];
        const along = Math.hypot(across, down) - further;
        const round = Math.atan2(across, down) / s;
        const out = along * s - depth * c;
        return point(out * Math.cos(round), out * Math.sin(round), (slant - along) * c - depth * s);
      };
    }
  }
};

const QUARTER_TURN = Math.PI / 2;

/** Side by side and corner by corner round a bar, counter-clockwise from the middle of its first side. */
const placeOnBar = ({ width, depth, corner, turned, lift }: Extract<Lay, { kind: 'bar' }>): Place => {
  // A sharp corner is a crease: the print is no longer there than the steel.
  const bend = corner > 0 ? QUARTER_TURN * (corner + lift) : 0;
  const flat = (side: number): number => (side % 2 === 0 ? width : depth) - 2 * corner;
  const quarter = (width + depth) / 2 - 2 * corner + bend;
  const facing = (((-turned / QUARTER_TURN) % 4) + 4) % 4;
  const side = Math.floor(facing + 1e-9);
  const past = facing - side;
  const from = side * quarter + (past < 1e-9 ? 0 : flat(side) / 2 + past * bend);
  return (p, under) => {
    const run = (((from + p.x) % (4 * quarter)) + 4 * quarter) % (4 * quarter);
    const side = Math.min(3, Math.floor(run / quarter));
    const along = run - side * quarter;
    const out = (side % 2 === 0 ? depth : width) / 2;
    // In axes of the side it starts on: out of it, and counter-clockwise along it.
    const half = flat(side) / 2;
    const round = (along - half) / bend;
    const [x, y] =
      round <= 0 || (bend === 0 && along <= half)
        ? [out - under, along]
        : round < 1
          ? [
              out - corner + (corner - under) * Math.cos(round * QUARTER_TURN),
              half + (corner - under) * Math.sin(round * QUARTER_TURN),
            ]
          : [quarter - along, half + corner - under];
    const angle = turned + side * QUARTER_TURN;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    return point(x * c - y * s, x * s + y * c, p.y);
  };
};
