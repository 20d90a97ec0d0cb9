import { countAt, realAt } from '../lists.ts';

/** A grid of cells over a picture. */
interface Cells {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  readonly cellX: number;
  readonly cellY: number;
}

/** Triangles as they are seen, sorted so that `hides` finds those at a place. */
export interface Screen {
  readonly cells: Cells;
  /** Edges and plane of each triangle. */
  readonly planes: Float64Array;
  /** Where each cell's list begins in `lists`. */
  readonly starts: Uint32Array;
  readonly lists: Uint32Array;
  /** A triangle in front by no more than this hides nothing, mm. */
  readonly nearer: number;
}

const CELLS = 24;
/** Edge functions and the plane of a triangle: three times a, b, c of ax + by + c ≥ 0, and z = ax + by + c. */
const STRIDE = 12;

const clampCell = (t: number): number => (t <= 0 ? 0 : t >= CELLS ? CELLS - 1 : Math.floor(t));
const rowAt = ({ minY, cellY }: Cells, y: number): number => clampCell((y - minY) / cellY);
const columnAt = ({ minX, cellX }: Cells, x: number): number => clampCell((x - minX) / cellX);

/** Runs over the cells triangle `i` lies in. */
const overCells = (cells: Cells, triangles: Float64Array, i: number, visit: (cell: number) => void): void => {
  const { minY, cellY } = cells;
  const o = 9 * i;
  const ay = realAt(triangles, o + 1);
  const by = realAt(triangles, o + 4);
  const cy = realAt(triangles, o + 7);
  const last = rowAt(cells, Math.max(ay, by, cy));
  for (let r = rowAt(cells, Math.min(ay, by, cy)); r <= last; r++) {
    const low = minY + r * cellY;
    const high = low + cellY;
    let left = Infinity;
    let right = -Infinity;
    for (let k = 0; k < 9; k += 3) {
      const q = o + ((k + 3) % 9);
      const px = realAt(triangles, o + k);
      const py = realAt(triangles, o + k + 1);
      const qx = realAt(triangles, q);
      const qy = realAt(triangles, q + 1);
      if (Math.max(py, qy) < low || Math.min(py, qy) > high) continue;
      const climb = py === qy ? 0 : (qx - px) / (qy - py);
      const u = py === qy ? px : px + climb * (Math.min(high, Math.max(low, py)) - py);
      const v = py === qy ? qx : px + climb * (Math.min(high, Math.max(low, qy)) - py);
      left = Math.min(left, u, v);
      right = Math.max(right, u, v);
    }
    if (left > right) continue;
    const end = columnAt(cells, right);
    for (let c = columnAt(cells, left); c <= end; c++) visit(r * CELLS + c);
  }
};

/**
 * Sorts triangles into the cells of a grid over the picture, row by row as wide as each is there, so that a point is compared
 * with few. Triangles are x, y to the right and up, z toward the eye; nine numbers each. Only those that face the eye need be given: what
 * lies behind a closed body lies behind one of those.
 */
export const makeScreen = (triangles: Float64Array): Screen => {
  const count = triangles.length / 9;
  let [minX, minY, maxX, maxY, size] = [Infinity, Infinity, -Infinity, -Infinity, 0];
  for (let i = 0; i < triangles.length; i += 3) {
    const x = realAt(triangles, i);
    const y = realAt(triangles, i + 1);
    minX = Math.min(minX, x);
    maxX = Math.max(maxX, x);
    minY = Math.min(minY, y);
    maxY = Math.max(maxY, y);
    size = Math.max(size, Math.abs(x), Math.abs(y), Math.abs(realAt(triangles, i + 2)));
  }
  const nearer = 1e-9 * size;
  const [cellX, cellY] = [(maxX - minX) / CELLS || 1, (maxY - minY) / CELLS || 1];
  const cells = { minX, minY, maxX, maxY, cellX, cellY };
  const planes = new Float64Array(count * STRIDE);
  for (let i = 0; i < count; i++) placePlane(triangles, i, planes, nearer);
  const starts = new Uint32Array(CELLS * CELLS + 1);
  const note = (cell: number): void => {
    starts[cell + 1] = countAt(starts, cell + 1) + 1;
  };
  for (let i = 0; i < count; i++) overCells(cells, triangles, i, note);
  for (let c = 0; c < CELLS * CELLS; c++) starts[c + 1] = countAt(starts, c + 1) + countAt(starts, c);
  const fill = starts.slice();
  const lists = new Uint32Array(countAt(starts, CELLS * CELLS));
  for (let i = 0; i < count; i++)
    overCells(cells, triangles, i, (cell) => {
      const at = countAt(fill, cell);
      lists[at] = i;
      fill[cell] = at + 1;
    });
  return { cells, planes, starts, lists, nearer };
};

/** True where a triangle lies in front of the point, nearer the eye by more than rounding. */
export const hides = (
  { cells, planes, starts, lists, nearer }: Screen,
  x: number,
  y: number,
  z: number,
): boolean => {
  const { minX, minY, maxX, maxY } = cells;
  if (x < minX || x > maxX || y < minY || y > maxY) return false;
  const cell = rowAt(cells, y) * CELLS + columnAt(cells, x);
  const end = countAt(starts, cell + 1);
  for (let k = countAt(starts, cell); k < end; k++) {
    const o = countAt(lists, k) * STRIDE;
    if (
      realAt(planes, o) * x + realAt(planes, o + 1) * y + realAt(planes, o + 2) >= 0 &&
      realAt(planes, o + 3) * x + realAt(planes, o + 4) * y + realAt(planes, o + 5) >= 0 &&
      realAt(planes, o + 6) * x + realAt(planes, o + 7) * y + realAt(planes, o + 8) >= 0 &&
      realAt(planes, o + 9) * x + realAt(planes, o + 10) * y + realAt(planes, o + 11) > z + nearer
    )
      return true;
  }
  return false;
};

/** `wider` mm are added on every side, so that no ray slips between neighbours. */
const placePlane = (triangles: Float64Array, i: number, planes: Float64Array, wider: number): void => {
  const v = (k: number): number => realAt(triangles, 9 * i + k);
  const o = i * STRIDE;
  for (let k = 0; k < 3; k++) {
    const n = (k + 1) % 3;
    const px = v(3 * k);
    const py = v(3 * k + 1);
    const qx = v(3 * n);
    const qy = v(3 * n + 1);
    planes[o + 3 * k] = py - qy;
    planes[o + 3 * k + 1] = qx - px;
    planes[o + 3 * k + 2] = px * qy - py * qx + wider * (Math.abs(qx - px) + Math.abs(qy - py));
  }
  const [ux, uy, uz] = [v(3) - v(0), v(4) - v(1), v(5) - v(2)];
  const [wx, wy, wz] = [v(6) - v(0), v(7) - v(1), v(8) - v(2)];
  const area = ux * wy - uy * wx;
  const [a, b] = [(uz * wy - wz * uy) / area, (ux * wz - wx * uz) / area];
  planes[o + 9] = a;
  planes[o + 10] = b;
  planes[o + 11] = v(2) - a * v(0) - b * v(1);
};
