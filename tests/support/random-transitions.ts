import { expect } from 'vitest';
import { UserError, type Texts } from '../../src/index.ts';
import { align, foldBack, hullRules, readPattern, ringDistance, surfaceArea, unroll } from './fold.ts';
import { placePoints } from './outlines.ts';
import { profileKinds } from './random-profiles.ts';
import { inner, minus, outer, point, type Vec3 } from './space.ts';

/** What became of a transition between two ends: its pattern closes, or it was refused for the reason that is really there. */
export type Outcome = 'closes' | 'refused';

/** Rules past the seam either way. */
const PAST = 4;

/** A transition between two kinds of ends anyhow placed. */
const randomTransition = (random: () => number, lower: string, upper: string) => {
  const [a, b] = [profileKinds[lower]!(random), profileKinds[upper]!(random)];
  const among = (most: number): number => Math.round(most * (2 * random() - 1));
  const [x, y, z] = [among(200), among(200), 60 + Math.round(340 * random())];
  // Every third stands level, and every third is not turned.
  const tilt = random() < 0.33 ? 0 : among(70);
  const turn = random() < 0.33 ? 0 : among(90);
  const texts: Texts = {
    from: a.text,
    to: b.text,
    height: `${z}mm`,
    offset: `${x}mm,${y}mm`,
    tilt: String(tilt),
    turn: String(turn),
    bends: '3',
  };
  return {
    texts,
    rings: [placePoints(a.points), placePoints(b.points, point(x, y, z), tilt, turn)] as const,
  };
};

/** True where all of one ring lies well to one side of the plane of the other. */
const standsClear = (ring: readonly Vec3[], of: readonly Vec3[]): boolean => {
  const third = Math.floor(of.length / 3);
  const normal = outer(minus(of[third]!, of[0]!), minus(of[2 * third]!, of[0]!));
  const size = Math.sqrt(inner(normal, normal));
  const sides = ring.map((p) => inner(minus(p, of[0]!), normal) / size);
  return Math.min(...sides) > 0.5 || Math.max(...sides) < -0.5;
};

/**
 * Prints the transition and folds it back from the file's bytes over a surface found without the layout: its ends lie on their
 * outlines, its area is the surface's. A refusal must name ends that cut through each other's plane, and they must do so.
 */
export const tryTransition = async (random: () => number, lower: string, upper: string): Promise<Outcome> => {
  const { texts, rings } = randomTransition(random, lower, upper);
  const [a, b] = rings;
  const clear = standsClear(a, b) && standsClear(b, a);
  const said = JSON.stringify(texts);
  const pattern = await readPattern('transition', texts, 'transition 1').catch((error: unknown) => {
    if (!(error instanceof UserError)) throw error;
    expect([error.failure, error.issues[0]?.code], said).toEqual(['joint', 'ends-cross']);
    return undefined;
  });
  if (!pattern) {
    expect(clear, `${said} was refused, though its ends stand clear of each other's plane`).toBe(false);
    return 'refused';
  }
  const rules = hullRules(a, b);
  // The surface goes on over the seam, which need not lie on one of its rules.
  const over = [...rules.slice(-PAST - 1, -1), ...rules, ...rules.slice(1, PAST + 1)];
  const flats = unroll(over);
  const [move, fold] = [align(pattern, flats.slice(PAST, PAST + rules.length)), foldBack(over, flats)];
  const seam = [fold(move(pattern.leftFoot)), fold(move(pattern.leftHead))];
  const misses = pattern.points
    .filter((_, i) => i % 5 === 0)
    .map((p) => fold(move(p)))
    .map((p) => Math.min(ringDistance(p, a), ringDistance(p, b), ringDistance(p, seam)));
  expect(Math.max(...misses), said).toBeLessThan(0.02);
  expect(Math.abs(pattern.area / surfaceArea(rules) - 1), said).toBeLessThan(1e-4);
  return 'closes';
};
