import type { Outline } from './outline.ts';
import type { Vec2 } from './vector.ts';

/**
 * A rectangular tube's outline: `height` along x, `width` along y, corners rounded. Position 0 is the middle of the face
 * on +x. The wall has the same thickness round the corners; inside a corner sharper than the wall it is drawn to its point.
 * @param turn turns the whole about the axis, radians, counter-clockwise
 */
export const tubeOutline = (
  width: number,
  height: number,
  corner: number,
  wall: number,
  turn = 0,
): Outline => {
  const [flatX, flatY] = [height / 2 - corner, width / 2 - corner];
  const arc = (Math.PI / 2) * corner;
  const girth = 4 * (flatX + flatY) + 4 * arc;
  // Each quarter: half a face, a corner, half the next face.
  const quarters = [
    { x: 1, y: 0, along: flatY, across: flatX },
    { x: 0, y: 1, along: flatX, across: flatY },
    { x: -1, y: 0, along: flatY, across: flatX },
    { x: 0, y: -1, along: flatX, across: flatY },
  ] as const;
  const quarter = flatX + flatY + arc;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return {
    girth,
    wall,
    at: (position, depth) => {
      const run = ((position % girth) + girth) % girth;
      const index = Math.min(3, Math.floor(run / quarter));
      const { x: nx, y: ny, along, across } = quarters[index] as (typeof quarters)[number];
      // In the quarter's own axes: out of its face, and counter-clockwise along it.
      const u = run - index * quarter;
      const local: Vec2 =
        u <= along
          ? { x: across + corner - depth, y: u }
          : u < along + arc
            ? {
                x: across + Math.cos((u - along) / corner) * (corner - depth),
                y: along + Math.sin((u - along) / corner) * (corner - depth),
              }
            : { x: quarter - u, y: along + corner - depth };
      const p = { x: local.x * nx - local.y * ny, y: local.x * ny + local.y * nx };
      return { x: p.x * c - p.y * s, y: p.x * s + p.y * c };
    },
    joints: quarters.flatMap((q, i) => [i * quarter + q.along, i * quarter + q.along + arc]),
  };
};
