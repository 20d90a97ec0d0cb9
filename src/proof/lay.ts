import type { Lay } from '../drawing/fit.ts';
import { rollUp } from './rolling.ts';
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
