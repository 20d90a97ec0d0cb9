import type { Field } from '../../../fields/field.ts';
import { parsedField } from '../../../fields/fields.ts';
import { chiSquareLimit, radialLimit } from '../../../geometry/confidence.ts';
import { halve } from '../../../geometry/halving.ts';
import {
  findPoses,
  mirrorPose,
  oddReading,
  type Pose,
  poseCovariance,
  type PoseFit,
  ringMarks,
  type TapeMarks,
  type TapeReading,
} from '../../../geometry/pose-by-tape.ts';
import { cross3, dot3, intoAxes, length3, unit3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import { told } from '../../../units/format.ts';
import { parseLength } from '../../../units/length.ts';
import { quoted, refusals } from '../../../units/notation.ts';
import { say } from '../../../words/say.ts';

/** A taped distance between two punch marks, by their numbers from 1. */
export interface NamedReading {
  readonly name: string;
  readonly a: number;
  readonly b: number;
  readonly distance: number;
}

const HINT = () => say`write each tape like A1-B2 1203.5mm, with commas between`;

/** Reads `A1-B1 1203.5mm, A1-B2 1210mm, …`: marks 1 to 4 on each end, any order, no pair twice. */
export const parseTape = (
  text: string,
  { units, path }: { units: 'in' | 'mm' | undefined; path: string },
): readonly NamedReading[] => {
  const refuse = refusals(path);
  const parts = text
    .split(/[,;\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  const readings = parts.map((part): NamedReading => {
    const [, one = '', i = '', two = '', j = '', length = ''] =
      /^([ab]) ?([1-4]) ?[-–—: ]? ?([ab]) ?([1-4]) ?[:=]? *(.+)$/i.exec(part) ?? [];
    if (length === '' || one.toUpperCase() === two.toUpperCase())
      throw refuse(
        'not-a-tape',
        say`"${quoted(part)}" is not a tape from a mark of end A to one of end B`,
        HINT(),
      );
    const [a, b] = one.toUpperCase() === 'A' ? [i, j] : [j, i];
    const distance = parseLength(length, { units, path });
    if (distance <= 0)
      throw refuse(
        'not-positive',
        say`the tape A${a}-B${b} is not above zero`,
        say`give what the tape reads`,
      );
    return { name: `A${a}-B${b}`, a: Number(a), b: Number(b), distance };
  });
  if (readings.length === 0) throw refuse('empty', say`no tape is given`, HINT());
  const twice = readings.find(({ name }, i) => readings.findIndex((one) => one.name === name) < i);
  if (twice)
    throw refuse(
      'given-twice',
      say`the tape ${twice.name} is given twice`,
      say`give each pair of marks once`,
    );
  return readings;
};

/** The taped distances, as text or from a CSV file with the marks in the first cells and the length in the last. */
export const tapeField = (help: string, example: string): Field<readonly NamedReading[] | undefined> =>
  parsedField(help, {
    example,
    optional: true,
    kind: 'designation',
    symbol: 'TAPES',
    parse: parseTape,
    fromRows: (rows) =>
      rows
        .map((row) => row.filter((cell) => cell !== ''))
        .filter((cells) => cells.length > 1)
        .map((cells) => cells.slice(0, 3).join(' '))
        .join(', '),
  });

/** What is known besides the tapes. Lengths in mm. */
export interface TapeRequest {
  readonly readings: readonly NamedReading[];
  /** From each end's center to its marks. */
  readonly markRadius: number;
  /** Accuracy of one tape: two readings in three lie within it. */
  readonly tapeError: number;
  /** Which side of end A's face the center of end B lies; undefined where it was not said. */
  readonly side: 'ahead' | 'behind' | undefined;
}

/** How well the pose is known, 19 times in 20. Lengths in mm, angles in radians. */
export interface Uncertainty {
  /** From center to center. */
  readonly length: number;
  /** Center of end B, square to A's axis. */
  readonly sideways: number;
  readonly angle: number;
  readonly roll: number;
  /** What 1 mm of tape does to the center of end B, sideways, in the worst direction. */
  readonly sidewaysPerMm: number;
  /** Mark radius that would bring that under 1.5 mm; undefined where it is under already. */
  readonly betterRadius: number | undefined;
}

/** Where end B stands, and what the tapes say of it. */
export interface TapedPose {
  readonly pose: Pose;
  readonly marks: 3 | 4;
  /** Pose less tape for each reading, mm. */
  readonly residuals: readonly number[];
  /** Reading to take again, where the tapes agree less well than they should. */
  readonly again: string | undefined;
  readonly uncertainty: Uncertainty;
}

const TIMES_95 = 1.959964;
const GOOD_SIDEWAYS = 1.5;

/** Pairs of marks that were not taped. */
const missingPairs = (readings: readonly NamedReading[], count: number): readonly string[] =>
  Array.from({ length: count * count }, (_, k) => `A${Math.floor(k / count) + 1}-B${(k % count) + 1}`).filter(
    (name) => readings.every((reading) => reading.name !== name),
  );

const askFor = (missing: readonly string[]): string =>
  missing.length === 0
    ? say`clamp bars or a disc across the ends and tape from marks further out`
    : say`tape ${missing.join(', ')} too`;

const spreadOf = (
  covariance: readonly (readonly number[])[],
  i: number,
  j: number,
): readonly [number, number] => {
  const [a, b, c] = [covariance[i]?.[i] ?? 0, covariance[j]?.[j] ?? 0, covariance[i]?.[j] ?? 0];
  const [middle, swing] = [(a + b) / 2, Math.hypot((a - b) / 2, c)];
  return [Math.sqrt(middle + swing), Math.sqrt(Math.max(0, middle - swing))];
};

/** Covariance of the turn about two directions square to `along`, as a 2 x 2 matrix. */
const leanOf = (covariance: readonly (readonly number[])[], along: Vec3): readonly (readonly number[])[] => {
  const p = unit3(cross3(along, Math.abs(along.x) < 0.7 ? vec3(1, 0, 0) : vec3(0, 1, 0)));
  const q = cross3(along, p);
  const over = (u: Vec3, v: Vec3): number => {
    const [a, b] = [
      [u.x, u.y, u.z],
      [v.x, v.y, v.z],
    ];
    return a.reduce(
      (sum, value, i) =>
        sum + b.reduce((part, w, j) => part + value * w * (covariance[i + 3]?.[j + 3] ?? 0), 0),
      0,
    );
  };
  return [
    [over(p, p), over(p, q)],
    [over(q, p), over(q, q)],
  ];
};

const along3 = (covariance: readonly (readonly number[])[], offset: number, { x, y, z }: Vec3): number => {
  const v = [x, y, z];
  return Math.sqrt(
    v.reduce(
      (sum, a, i) =>
        sum + v.reduce((part, b, j) => part + a * b * (covariance[i + offset]?.[j + offset] ?? 0), 0),
      0,
    ),
  );
};

const uncertaintyOf = (
  readings: readonly TapeReading[],
  count: number,
  pose: Pose,
  radius: number,
  error: number,
): Uncertainty | undefined => {
  const covarianceAt = (size: number) => {
    const ring = ringMarks(count, size);
    return poseCovariance(readings, { a: ring, b: ring }, pose);
  };
  const covariance = covarianceAt(radius);
  if (!covariance) return undefined;
  const perMm = (size: number): number => {
    const found = covarianceAt(size);
    return found ? spreadOf(found, 0, 1)[0] : Infinity;
  };
  const sidewaysPerMm = perMm(radius);
  const betterRadius = (): number | undefined => {
    if (sidewaysPerMm <= GOOD_SIDEWAYS) return undefined;
    let far = radius;
    for (let i = 0; i < 12 && perMm(far) > GOOD_SIDEWAYS; i++) far *= 1.6;
    const { high } = halve((size) => perMm(size) > GOOD_SIDEWAYS, radius, far, 40);
    // Whole steps of 5 mm: that is how a bar is drilled.
    return Math.ceil(high / 5) * 5;
  };
  const lean = leanOf(covariance, pose.along);
  const direction = length3(pose.at) > 0 ? unit3(pose.at) : vec3(0, 0, 1);
  return {
    length: TIMES_95 * error * along3(covariance, 0, direction),
    sideways: error * radialLimit(...spreadOf(covariance, 0, 1)),
    angle: error * radialLimit(...spreadOf(lean, 0, 1)),
    roll: TIMES_95 * error * along3(covariance, 3, pose.along),
    sidewaysPerMm,
    betterRadius: betterRadius(),
  };
};

/** Half the finest step a tape is read to, mm: readings that agree better than this agree by luck. */
const FINEST = 0.05;

/**
 * Solves for the pose. Throws a `joint` UserError that says what to measure where the tapes are too few, leave the end free to
 * move, contradict one another, or fit two places.
 */
export const solveTape = ({ readings, markRadius, tapeError, side }: TapeRequest): TapedPose => {
  const marks = readings.some(({ a, b }) => a > 3 || b > 3) ? 4 : 3;
  const ring = ringMarks(marks, markRadius);
  const both: TapeMarks = { a: ring, b: ring };
  const tapes = readings.map(({ a, b, distance }): TapeReading => ({ a: a - 1, b: b - 1, distance }));
  const missing = missingPairs(readings, marks);
  if (readings.length < 6)
    throw jointError(
      'tape',
      'too-few-tapes',
      say`${readings.length} tape${readings.length === 1 ? '' : 's'} cannot place an end: that takes six, and nine to check them`,
      askFor(missing),
    );
  const fits = findPoses(tapes, both);
  const [best, second] = fits;
  const free = (): Error =>
    jointError('tape', 'not-determined', say`these tapes leave end B free to move`, askFor(missing));
  if (!best) throw free();
  const spare = readings.length - 6;
  const limit = (share: 0.95 | 0.999): number =>
    spare > 0 ? tapeError ** 2 * chiSquareLimit(spare, share) : Infinity;
  if (best.squares > limit(0.999)) throw contradiction(readings, tapes, both, best, limit(0.999), tapeError);
  const uncertainty = uncertaintyOf(tapes, marks, best.pose, markRadius, tapeError);
  if (!uncertainty || uncertainty.sidewaysPerMm > 1000) throw free();
  const own = spare > 0 ? Math.max(best.squares / spare, FINEST ** 2) : FINEST ** 2;
  if (second && second.squares - best.squares < 6 * own)
    throw jointError(
      'tape',
      'two-answers',
      say`these tapes fit two places: end B ${place(best.pose)}, or ${place(second.pose)}`,
      askFor(missing),
    );
  if (side === undefined && Math.abs(best.pose.at.z) < 3 * (uncertainty.sideways + uncertainty.length))
    throw jointError(
      'side',
      'either-side',
      say`the center of end B lies about in the plane of end A’s face, so that the tapes fit a place on either side of it`,
      say`say on which side it lies: side ahead or side behind`,
    );
  const pose = side === 'behind' ? mirrorPose(best.pose) : best.pose;
  const worst = Math.max(...best.residuals.map(Math.abs));
  const again =
    best.squares > limit(0.95)
      ? readings[best.residuals.findIndex((r) => Math.abs(r) === worst)]?.name
      : undefined;
  return { pose, marks, residuals: best.residuals, again, uncertainty };
};

const place = ({ at }: Pose): string => say`at ${told(at.x, 1)}, ${told(at.y, 1)}, ${told(at.z, 1)}`;

const contradiction = (
  readings: readonly NamedReading[],
  tapes: readonly TapeReading[],
  marks: TapeMarks,
  best: PoseFit,
  limit: number,
  tapeError: number,
): Error => {
  const worst = Math.max(...best.residuals.map(Math.abs));
  const message = say`the tapes do not agree: no place of end B brings them within ${told(worst, 1)} of all, where ${told(tapeError, 1)} was promised`;
  // With one reading to spare, any of them may be the wrong one.
  if (readings.length < 8)
    return jointError(
      'tape',
      'tapes-disagree',
      message,
      say`tape all again, and ${askFor(missingPairs(readings, marks.a.length))}`,
    );
  const odd = oddReading(tapes, marks);
  const name = readings[odd.index]?.name ?? '';
  return jointError(
    'tape',
    'tapes-disagree',
    message,
    odd.squares < limit
      ? say`tape ${name} again: without it the others agree`
      : say`tape ${name} again first; then check that stations run counter-clockwise on both ends, and the mark radius`,
  );
};

/** Residuals by the names of their tapes, mm. */
export const namedResiduals = (
  readings: readonly NamedReading[],
  residuals: readonly number[],
): Readonly<Record<string, number>> =>
  Object.fromEntries(readings.map(({ name }, i) => [name, residuals[i] ?? 0]));

/** A center and a direction of a pipe end where coordinates are known, in any one frame: mm, and a unit direction out of it. */
export interface KnownEnd {
  readonly center: Vec3;
  readonly out: Vec3;
}

/** Reads `x,y,z / i,j,k`: lengths, then a direction in plain numbers. */
export const parseKnownEnd = (
  text: string,
  { units, path }: { units: 'in' | 'mm' | undefined; path: string },
): KnownEnd => {
  const refuse = refusals(path);
  const hint = say`write the center and the direction out of the end: 0mm, 0mm, 1200mm / 0, 0, 1`;
  // The last one: an inch may be written 1/2in, a direction has no other.
  const stroke = text.lastIndexOf('/');
  const [center, out] = [text.slice(0, Math.max(0, stroke)), text.slice(stroke + 1)];
  const lengths = center.split(',').map((part) => part.trim());
  const numbers = out.split(',').map((part) => Number(part.trim() === '' ? NaN : part));
  if (lengths.length !== 3 || numbers.length !== 3 || numbers.some((n) => !Number.isFinite(n)))
    throw refuse('not-understood', say`"${quoted(text)}" is not a center and a direction`, hint);
  const [x = 0, y = 0, z = 0] = lengths.map((part) => parseLength(part, { units, path }));
  const [i = 0, j = 0, k = 0] = numbers;
  if (Math.hypot(i, j, k) < 1e-9) throw refuse('no-direction', say`the direction has no length`, hint);
  return { center: { x, y, z }, out: unit3({ x: i, y: j, z: k }) };
};

/** A direction square to `out`: as near to straight up as it goes, or toward +x on an end that looks up or down. */
export const upOf = (out: Vec3): Vec3 => {
  const up = Math.abs(out.z) < 0.999 ? vec3(0, 0, 1) : vec3(1, 0, 0);
  const lean = dot3(up, out);
  return unit3(vec3(up.x - lean * out.x, up.y - lean * out.y, up.z - lean * out.z));
};

/** The pose of the second end in the first one's frame, station 0 of both up. */
export const poseBetween = (from: KnownEnd, to: KnownEnd): Pose => {
  const x = upOf(from.out);
  const y = cross3(from.out, x);
  const inFrame = (v: Vec3): Vec3 => intoAxes({ x, y, z: from.out }, v);
  const apart = vec3(to.center.x - from.center.x, to.center.y - from.center.y, to.center.z - from.center.z);
  return { at: inFrame(apart), along: inFrame(to.out), station0: inFrame(upOf(to.out)) };
};
