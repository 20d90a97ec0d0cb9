import { itemAt } from '../lists.ts';
import type { Vec2 } from '../geometry/vector.ts';

/** A hidden line this near to a line already drawn, and as good as parallel to it, would only blur it; mm. */
const NEAR = 0.45;
const CELL = 0.3;
/** How many directions a half turn is divided into. */
const SECTORS = 8;
/** How far to both sides of a hidden line others are looked for, mm. */
const ACROSS = [0, CELL / 2, -CELL / 2, NEAR, -NEAR];
/** What is left of a hidden line is drawn from this length on, mm: one dash and a gap say nothing. */
const SHORTEST = 1.5;

/**
 * What is left of hidden lines where nothing already drawn runs along the same way: the visible lines, and hidden ones before
 * them, whose dashes would fill each other's gaps. Paper mm.
 */
export const uncovered = (
  drawn: readonly (readonly Vec2[])[],
  hidden: readonly (readonly Vec2[])[],
): readonly (readonly Vec2[])[] => {
  const cells = new Map<number, number>();
  const keyOf = (x: number, y: number): number =>
    (Math.floor(x / CELL) + 50_000) * 100_000 + Math.floor(y / CELL) + 50_000;
  const mark = (line: readonly Vec2[]): void =>
    overSteps(line, (x, y, { sector }) => {
      const key = keyOf(x, y);
      // The neighbouring directions count as the same.
      const bits =
        (1 << sector) | (1 << ((sector + 1) % SECTORS)) | (1 << ((sector + SECTORS - 1) % SECTORS));
      cells.set(key, (cells.get(key) ?? 0) | bits);
    });
  const isCovered = (x: number, y: number, { sector, nx, ny }: Way): boolean => {
    const bit = 1 << sector;
    // Looked for straight across the line.
    for (const off of ACROSS)
      if (((cells.get(keyOf(x + nx * off, y + ny * off)) ?? 0) & bit) !== 0) return true;
    return false;
  };
  drawn.forEach(mark);
  const left: (readonly Vec2[])[] = [];
  for (const line of hidden) {
    const before = left.length;
    let run: Vec2[] = [];
    let last: Vec2 | undefined;
    const close = (): void => {
      if (run.length > 1 && lengthOf(run) >= SHORTEST) left.push(run);
      run = [];
    };
    overSteps(line, (x, y, way, isVertex) => {
      if (isCovered(x, y, way)) {
        if (last && run.length > 0) run.push(last);
        close();
      } else if (run.length === 0 || isVertex) run.push({ x, y });
      last = { x, y };
    });
    if (last && run.length > 0) run.push(last);
    close();
    left.slice(before).forEach(mark);
  }
  return left;
};

/** Which way a stretch of a line runs: its sector, and the unit direction across it. */
interface Way {
  readonly sector: number;
  readonly nx: number;
  readonly ny: number;
}

const overSteps = (
  line: readonly Vec2[],
  visit: (x: number, y: number, way: Way, isVertex: boolean) => void,
): void =>
  line.slice(1).forEach((q, i) => {
    const p = itemAt(line, i);
    const [dx, dy] = [q.x - p.x, q.y - p.y];
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length === 0) return;
    const sector = Math.floor(((Math.atan2(dy, dx) / Math.PI + 2) * SECTORS) % SECTORS);
    const way = { sector, nx: -dy / length, ny: dx / length };
    const steps = Math.max(1, Math.ceil(length / (0.7 * CELL)));
    const last = i === line.length - 2;
    for (let k = 0; k < (last ? steps + 1 : steps); k++)
      visit(p.x + (dx * k) / steps, p.y + (dy * k) / steps, way, k === 0);
  });

const lengthOf = (line: readonly Vec2[]): number =>
  line.slice(1).reduce((sum, q, i) => sum + Math.hypot(q.x - itemAt(line, i).x, q.y - itemAt(line, i).y), 0);
