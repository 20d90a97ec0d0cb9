import { itemAt } from '../../../lists.ts';
import type { Outline } from '../../../geometry/outline.ts';
import { cross3, dot3, scale3, unit3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import type { DrawnBody } from '../../../joint/bodies/body.ts';
import { solidMate } from '../../../joint/solid-mate.ts';
import { cutToBody, openCutPipe, passLines } from '../../../scene/passes.ts';
import type { Note, Part, Scene, SurfaceLine, View } from '../../../scene/scene.ts';
import { angleNote, labelNote, lengthNote } from '../../../scene/scene.ts';
import { opened, SCENE_POSE } from '../../../scene/shape.ts';
import { bodyShape } from '../../../scene/solid-shape.ts';
import { stockShape, type FittedCut } from '../../../scene/stock-shape.ts';
import type { Stock } from '../../../stock/stock.ts';
import { writeAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { SeenBody } from './branch-holes.ts';

/** A joint to be looked at, in the branch's stock frame. */
export interface SeenJoint {
  readonly bodies: readonly SeenBody[];
  readonly stock: Stock;
  /** Where its end is cut, mm along its axis. */
  readonly end: FittedCut;
  /** Where a set-in branch goes through the outside of what it meets, by girth position. */
  readonly passes: ((s: number) => number) | undefined;
}

const COUNT = 180;

/** The branch and what it meets, from station 90 and from station 180. */
export const branchScene = (joint: SeenJoint, setting: Setting): Scene => {
  const { bodies, stock, end, passes } = joint;
  const { outline } = stock;
  const positions = Array.from({ length: COUNT }, (_, i) => (i * outline.girth) / COUNT);
  const ends = positions.map(end.around);
  const half = Math.max(...positions.map((s) => Math.abs(outline.at(s, 0).x)));
  const largest = Math.max(...bodies.map(({ view }) => reachOf(view.drawn.reach)), 0);
  const lowest = Math.min(...positions.map((s) => (passes ?? end.around)(s)));
  const tail = Math.min(lowest, ...ends) - Math.max(1.6 * half, 0.3 * largest);
  const branch: Part = {
    id: 'branch',
    name: say`branch`,
    role: 'work',
    shape: stockShape(stock, SCENE_POSE, tail, end),
    ...(passes ? { lines: [passLine(outline, passes)] } : {}),
  };
  const parts = bodies.map((body, i): Part => ({
    id: bodies.length === 1 ? 'body' : `body ${i + 1}`,
    name: body.designation,
    role: 'mate',
    ...meetOthers(body, bodies.slice(0, i)),
  }));
  const views = sideAndEnd(joint, { tail, half, highest: Math.max(...ends) }, setting);
  return { parts: [branch, ...parts], views };
};

/** A body among those before it: cut to the first that it ends in, else with the lines where it goes into them. */
const meetOthers = (body: SeenBody, before: readonly SeenBody[]): Pick<Part, 'shape' | 'lines' | 'holed'> => {
  const { view, hole, through } = body;
  const isMade = !body.sketched;
  for (const other of before) {
    const cut = cutToBody(view.drawn, other.view.drawn);
    if (!cut) continue;
    const shape = hole && through && openCutPipe(cut, hole, through);
    return shape ? { shape, holed: isMade } : { shape: cut };
  }
  const lines = before.flatMap((other) =>
    meetingLines(view.drawn, other.view.drawn).flatMap((line) => outsideHoles(line, [body, other])),
  );
  const shape = opened(bodyShape(view.drawn), hole ? [hole] : []);
  return { shape, lines, ...(hole && { holed: isMade }) };
};

/** The parts of a line on bodies that their holes leave. */
const outsideHoles = (line: SurfaceLine, bodies: readonly SeenBody[]): readonly SurfaceLine[] => {
  const cuts = bodies.flatMap(({ hole, through, view }) =>
    hole && through ? [{ bore: solidMate(through), body: solidMate(view.drawn.outside) }] : [],
  );
  /** In the bore, where the branch's side of the outside is cut. */
  const isCut = (p: Vec3): boolean =>
    cuts.some(({ bore, body }) => {
      const [into, out] = [1, -1].map((x) => bore.enter({ origin: p, direction: vec3(x, 0, 0) })?.t);
      const seen = body.enter({ origin: { ...p, z: 0 }, direction: vec3(0, 0, 1) })?.t;
      const inBore = into !== undefined && out !== undefined && into < 0 && out < 0;
      return inBore && seen !== undefined && Math.abs(seen - p.z) < 1e-3;
    });
  const runs: { points: Vec3[]; normals: Vec3[] }[] = [];
  let run: { points: Vec3[]; normals: Vec3[] } | undefined;
  line.points.forEach((p, i) => {
    if (isCut(p)) {
      run = undefined;
      return;
    }
    if (!run) runs.push((run = { points: [], normals: [] }));
    run.points.push(p);
    run.normals.push(itemAt(line.normals, i));
  });
  return runs.filter(({ points }) => points.length > 1).map((kept) => ({ ...line, ...kept }));
};

/** Where two bodies go into each other, from whichever of them is a straight pipe. */
const meetingLines = (a: DrawnBody, b: DrawnBody): readonly SurfaceLine[] => {
  const lines = passLines(a, b);
  return lines.length > 0 ? lines : passLines(b, a);
};

const reachOf = (reach: readonly [number, number] | undefined): number => (reach ? reach[1] - reach[0] : 0);

/** The line along which the branch goes in. */
const passLine = (outline: Outline, passes: (s: number) => number): SurfaceLine => {
  const places = Array.from({ length: COUNT + 1 }, (_, i) => (i * outline.girth) / COUNT);
  return {
    points: places.map((s) => ({ ...outline.at(s, 0), z: passes(s) })),
    normals: places.map((s) => {
      const [p, q] = [outline.at(s, 0), outline.at(s, outline.wall || 1)];
      return unit3(vec3(p.x - q.x, p.y - q.y, 0));
    }),
    kind: 'edge',
  };
};

interface Extent {
  readonly tail: number;
  /** Half the branch's width from station 0 to 180. */
  readonly half: number;
  readonly highest: number;
}

/** What the bodies are called and how large they are, as one of the two views shows it. */
const bodyNotes = (bodies: SeenJoint['bodies'], view: 'side' | 'end', setting: Setting): readonly Note[] =>
  bodies.flatMap((body): readonly Note[] => [
    ...body.view.centers.map((points): Note => ({ kind: 'center', points })),
    ...body.view.labels
      .filter((label) => label.view === view)
      .map(({ at, text, toward: side }): Note => labelNote(at, text, { ...(side && { toward: side }) })),
    // Several bodies would fill the picture with figures that their own sheets do not need.
    ...(bodies.length > 1
      ? []
      : body.view.lengths
          .filter((length) => length.view === view)
          .map(({ from, to, length, sign }): Note =>
            lengthNote(from, to, sign + writeShort(length, setting)),
          )),
    ...(bodies.length > 1 || view === 'end'
      ? []
      : body.view.angles.map(({ at, from, to, angle }): Note => angleNote(at, from, to, writeAngle(angle)))),
  ]);

const sideAndEnd = (
  { bodies, stock, end, passes }: SeenJoint,
  { tail, half, highest }: Extent,
  setting: Setting,
): readonly View[] => {
  const { outline, round } = stock;
  const [first] = bodies;
  if (!first) return [];
  const { right, up } = first.view;
  const toward = cross3(right, up);
  const words = first.words.map((word) => word.replace(/( · )?TDC/, '').toLowerCase());
  const axis: Note = { kind: 'center', points: [vec3(0, 0, tail), vec3(0, 0, highest)] };
  const station = (quarter: number): Note => {
    const s = (quarter * outline.girth) / 4;
    const { x, y } = outline.at(s, 0);
    const top = tail + 0.12 * ((passes ?? end.around)(s) - tail);
    const word = quarter % 2 === 0 ? (words[quarter] ?? '') : '';
    return labelNote(vec3(x, y, top), `${quarter * 90}° ${word}`.trim(), {
      along: vec3(x, y, (passes ?? end.around)(s)),
      toward: vec3(x, y, 0),
      bold: quarter === 0,
    });
  };
  // Named where it is unlike the other three lines, as a lateral's crotch is.
  const crotch = words[2] && words[2] !== words[0] && words[2] !== words[1] ? ` (${words[2]})` : '';
  return [
    {
      title: say`Side view, from station 90`,
      sight: { right, up },
      width: 52,
      height: 46,
      notes: [
        axis,
        ...bodyNotes(bodies, 'side', setting),
        lengthNote(
          vec3(-half, 0, tail),
          vec3(half, 0, tail),
          `${round === undefined ? '' : '⌀'}${writeShort(2 * half, setting)}`,
          vec3(0, 0, -1),
        ),
        station(0),
        station(2),
      ],
    },
    {
      title: say`End view, from station 180${crotch}`,
      sight: { right: toward, up },
      width: 40,
      height: 46,
      notes: [
        axis,
        ...crossLines(bodies, toward, up),
        ...bodyNotes(bodies, 'end', setting),
        station(1),
        station(3),
      ],
    },
  ];
};

/** Center lines of a straight body seen along its axis. */
const crossLines = (bodies: SeenJoint['bodies'], right: Vec3, up: Vec3): readonly Note[] =>
  bodies.flatMap(({ view }): readonly Note[] => {
    const { outside } = view.drawn;
    if (outside.kind !== 'cylinder' || Math.abs(dot3(unit3(outside.along), cross3(right, up))) < 0.999)
      return [];
    const { through, radius } = outside;
    return [right, up].map((way): Note => {
      const arm = scale3(way, radius);
      return {
        kind: 'center',
        points: [
          vec3(through.x - arm.x, through.y - arm.y, through.z - arm.z),
          vec3(through.x + arm.x, through.y + arm.y, through.z + arm.z),
        ],
      };
    });
  });
