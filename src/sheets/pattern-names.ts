import { textWidth } from '../drawing/lettering.ts';
import type { Fill, Mark } from '../drawing/model.ts';
import { letter, polylinePath } from '../drawing/paths.ts';
import { halfway } from '../geometry/pattern.ts';
import { add2, cross2, distance2, dot2, left2, scale2, sub2, unit2, type Vec2 } from '../geometry/vector.ts';
import { say } from '../words/say.ts';
import { uprightAngle } from './flat-marks.ts';

/** A straight line of a pattern, and what stands on it. */
export interface NamedLine {
  readonly foot: Vec2;
  readonly head: Vec2;
  readonly text: string;
  /** The stretch of it that no other line crosses, where that is not all of it. */
  readonly clear?: readonly [Vec2, Vec2];
}

type Line = readonly [Vec2, Vec2];

/** A word along a line, its middle at `at`. */
interface Word {
  readonly at: Vec2;
  /** Unit direction. */
  readonly way: Vec2;
  readonly text: string;
  readonly height: number;
  readonly bold: boolean;
}

/** Where along a line its word is tried, the middle first. */
const PLACES = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82];

const along = ([a, b]: Line, t: number): Vec2 => add2(scale2(a, 1 - t), scale2(b, t));

/** Corners of the white paper under a word. */
const groundOf = ({ at, way, text, height, bold }: Word): readonly Vec2[] => {
  const long = scale2(way, textWidth(text, height, bold) / 2 + 0.6);
  const wide = scale2(left2(way), height / 2 + 0.5);
  const corner = (a: number, b: number): Vec2 => add2(at, add2(scale2(long, a), scale2(wide, b)));
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
};

/** True where two convex shapes, or a shape and a straight line, have ground in common: no direction parts them. */
const isMeeting = (a: readonly Vec2[], b: readonly Vec2[]): boolean =>
  [a, b].every((shape) =>
    shape.every((p, i) => {
      const across = left2(sub2(shape[(i + 1) % shape.length] ?? p, p));
      const [ofA, ofB] = [a, b].map((points) => points.map((q) => dot2(q, across))) as [number[], number[]];
      return Math.max(...ofA) > Math.min(...ofB) && Math.max(...ofB) > Math.min(...ofA);
    }),
  );

const isClear = (word: Word, others: readonly (readonly Vec2[])[]): boolean => {
  const ground = groundOf(word);
  return !others.some((other) => isMeeting(ground, other));
};

/** The word at the first place along a line where it is clear of others; undefined where there is none. */
const clearWord = (
  line: Line,
  { text, height, bold }: Pick<Word, 'text' | 'height' | 'bold'>,
  others: readonly (readonly Vec2[])[],
): Word | undefined => {
  const [length, needed] = [distance2(...line), textWidth(text, height, bold) + 4];
  if (length < needed) return undefined;
  const way = unit2(sub2(line[1], line[0]));
  return PLACES.filter((t) => Math.min(t, 1 - t) * length >= needed / 2)
    .map((t) => ({ at: along(line, t), way, text, height, bold }))
    .find((word) => isClear(word, others));
};

const drawWord = ({ at, way, text, height, bold }: Word): Mark =>
  letter('text', at, text, height, { align: 'centre', valign: 'middle', angle: uprightAngle(way), bold });

const paperUnder = (word: Word): Fill => ({
  kind: 'fill',
  role: 'text',
  ink: 'white',
  path: polylinePath([...groundOf(word)], true),
});

/** A seam's name beside it, on the pattern: clear of its lines, or where there is no such place in its middle. */
const seamWord = (
  [foot, head]: Line,
  side: 1 | -1,
  text: string,
  lines: readonly Line[],
): Word | undefined => {
  const beside = (off: number): Line => {
    const inward = scale2(left2(unit2(sub2(head, foot))), side * off);
    return [add2(foot, inward), add2(head, inward)];
  };
  const large = { text, height: 3.5, bold: true };
  return (
    clearWord(beside(4.5), large, lines) ??
    clearWord(beside(3.5), { ...large, height: 2.5 }, lines) ??
    clearWord(beside(4.5), large, [])
  );
};

/** How far apart the lines must lie between which the printed face is named in such lettering, mm. */
const FACE_PITCHES = [
  [3.5, 9],
  [2.5, 7],
] as const;

/** How far a point lies square off a straight line. */
const offLine = (p: Vec2, [a, b]: Line): number => Math.abs(cross2(unit2(sub2(b, a)), sub2(p, a)));

/** Which face is printed, between the two lines nearest the middle of the pattern that leave room for it. */
const faceWord = (lines: readonly Line[], words: readonly (readonly Vec2[])[]): Word | undefined => {
  const ways = lines.slice(1).map((q, i) => {
    const p = lines[i] as Line;
    const apart = [0.35, 0.5, 0.65].flatMap((t) => [offLine(along(p, t), q), offLine(along(q, t), p)]);
    const aside = Math.abs(i + 1 - lines.length / 2);
    return { middle: [halfway(p[0], q[0]), halfway(p[1], q[1])] as const, room: Math.min(...apart), aside };
  });
  ways.sort((a, b) => a.aside - b.aside);
  for (const [height, pitch] of FACE_PITCHES)
    for (const { middle, room } of ways) {
      const word =
        room >= pitch ? clearWord(middle, { text: say`OUTSIDE UP`, height, bold: true }, words) : undefined;
      if (word) return word;
    }
  return undefined;
};

/** How far apart names on neighboring lines must lie, mm. */
const NAME_PITCH = 5;

/**
 * The names on a pattern, none over another: of its seams, of the lines between them, and of the face that is printed.
 * @param lines from left to right; one whose name finds no clear place goes without
 * @param seams left and right, each from its foot to its head, with their names
 */
export const patternNames = (
  lines: readonly NamedLine[],
  [left, right]: readonly [left: Line, right: Line],
  names: readonly [string, string],
): readonly Mark[] => {
  const drawn = lines.map(({ foot, head }): Line => [foot, head]);
  const seams = [seamWord(left, -1, names[0], drawn), seamWord(right, 1, names[1], drawn)].filter(
    (word) => word !== undefined,
  );
  const taken = seams.map(groundOf);
  let last: Vec2 | undefined;
  const onLines = lines.flatMap(({ foot, head, text, clear = [foot, head] }) => {
    if (last && distance2(last, halfway(...clear)) < NAME_PITCH) return [];
    const word = clearWord(clear, { text, height: 2.5, bold: false }, taken);
    if (!word) return [];
    last = halfway(...clear);
    taken.push(groundOf(word));
    return [word];
  });
  const face = faceWord(
    lines.map(({ foot, head, clear = [foot, head] }) => clear),
    taken,
  );
  return [
    ...onLines.flatMap((word) => [paperUnder(word), drawWord(word)]),
    // A seam's name that found no place clear of the lines stands on white paper over them.
    ...seams.flatMap((word) => [...(isClear(word, drawn) ? [] : [paperUnder(word)]), drawWord(word)]),
    ...(face ? [drawWord(face)] : []),
  ];
};
