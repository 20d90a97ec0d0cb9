import type { Dome } from '../geometry/arms.ts';
import { smallEnd, solveTongues, type Taper } from '../geometry/tongues.ts';
import { unit3, vec3, type Vec3 } from '../geometry/vector.ts';
import type { Note, Scene, SurfaceLine, View } from '../scene/scene.ts';
import { labelNote, lengthNote } from '../scene/scene.ts';
import { SCENE_POSE, type ProfileRun, type Shape } from '../scene/shape.ts';
import type { Pipe } from '../stock/pipe.ts';
import type { Setting } from '../units/setting.ts';
import { writeShort } from '../units/writing.ts';
import { say } from '../words/say.ts';

/** How much of the pipe is drawn, as a part of its radius. */
const STUB = 0.8;
const STEPS = 24;

/** A place of a profile: height over the bend line and distance from the axis. */
type Place = readonly [height: number, radius: number];

/** The weld along a profile at a station, from the bend line (`t` 0) to the tip (1). */
const seamLine = (station: number, at: (t: number) => Place): SurfaceLine => {
  const [c, s] = [Math.cos(station), Math.sin(station)];
  const places = Array.from({ length: STEPS + 1 }, (_, i) => at(i / STEPS));
  return {
    kind: 'seam',
    points: places.map(([h, r]) => vec3(r * c, r * s, h)),
    normals: places.map(([h, r], i) => {
      const [before, after] = [
        places[Math.max(0, i - 1)] ?? [h, r],
        places[Math.min(STEPS, i + 1)] ?? [h, r],
      ];
      const [up, out] = [after[0] - before[0], after[1] - before[1]];
      return unit3(vec3(up * c, up * s, -out));
    }),
  };
};

const roots = (count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count);

/** A pipe closed by arms: its head and height, from the side. */
const closedPipe = (
  pipe: Pipe,
  title: string,
  {
    name,
    shape,
    lines,
    tip,
  }: {
    readonly name: string;
    readonly shape: Shape;
    readonly lines: readonly SurfaceLine[];
    readonly tip: number;
  },
  setting: Setting,
): Scene => {
  const r = pipe.od / 2;
  const foot = -STUB * r;
  const notes: readonly Note[] = [
    { kind: 'center', points: [vec3(0, 0, foot), vec3(0, 0, tip)] },
    lengthNote(vec3(r, 0, 0), vec3(0, 0, tip), writeShort(tip, setting), vec3(1, 0, 0), vec3(0, 0, 1)),
    lengthNote(vec3(-r, 0, foot), vec3(r, 0, foot), `⌀${writeShort(pipe.od, setting)}`, vec3(0, 0, -1)),
  ];
  return {
    parts: [{ id: 'head', name, role: 'work', shape, lines }],
    views: [{ title, sight: { right: vec3(1, 0, 0), up: vec3(0, 0, 1) }, width: 40, height: 44, notes }],
  };
};

/** One finished plug, its point `rise` high at mid-wall. */
export const plugScene = (pipe: Pipe, rise: number, count: number, setting: Setting): Scene => {
  const [r, bore] = [pipe.od / 2, pipe.od / 2 - pipe.wall];
  const steep = rise / (r - pipe.wall / 2);
  const [tip, inner] = [steep * r, steep * bore];
  return closedPipe(
    pipe,
    say`A finished plug, from the side`,
    {
      name: 'bull plug',
      tip,
      shape: turned(pipe, [
        { kind: 'line', from: [0, r], to: [tip, 0], bent: true },
        { kind: 'line', from: [tip, 0], to: [inner, 0] },
        { kind: 'line', from: [inner, 0], to: [0, bore] },
      ]),
      lines: roots(count).map((station) => seamLine(station, (t) => [tip * t, r * (1 - t)])),
    },
    setting,
  );
};

/** The finished head. */
export const domeScene = (pipe: Pipe, dome: Dome, count: number, setting: Setting): Scene => {
  const [r, bore] = [pipe.od / 2, pipe.od / 2 - pipe.wall];
  const [tip, inner] = [dome.rise + pipe.wall / 2, dome.rise - pipe.wall / 2];
  const quarter = Math.PI / 2;
  return closedPipe(
    pipe,
    say`The finished head, from the side`,
    {
      name: say`orange-peel head`,
      tip,
      shape: turned(pipe, [
        { kind: 'ellipse', center: [0, 0], half: [tip, r], from: 0, to: quarter, bent: true },
        { kind: 'line', from: [tip, 0], to: [inner, 0] },
        { kind: 'ellipse', center: [0, 0], half: [inner, bore], from: quarter, to: 0 },
      ]),
      lines: roots(count).map((station) =>
        seamLine(station, (t) => [tip * Math.sin(t * quarter), r * Math.cos(t * quarter)]),
      ),
    },
    setting,
  );
};

/** A pipe's end with what closes it, which runs from the outside at the bend line to the bore there. */
const turned = (pipe: Pipe, closing: readonly ProfileRun[]): Shape => {
  const [r, bore] = [pipe.od / 2, pipe.od / 2 - pipe.wall];
  const foot = -STUB * r;
  return {
    kind: 'turned',
    pose: SCENE_POSE,
    profile: [
      { kind: 'line', from: [foot, r], to: [0, r] },
      ...closing,
      { kind: 'line', from: [0, bore], to: [foot, bore] },
      { kind: 'line', from: [foot, bore], to: [foot, r] },
    ],
  };
};

/** The finished reducer from station 90, station 180 at the right; and its welds, facing the small end. */
export const taperScene = (pipe: Pipe, taper: Taper, count: number, setting: Setting): Scene => {
  const half = pipe.wall / 2;
  const [r, small] = [pipe.od / 2, taper.small + half];
  const foot = -STUB * r;
  const circle = (at: Vec3, radius: number) => ({ at, radius, bore: radius - pipe.wall });
  const tip = vec3(-taper.shift, 0, taper.length);
  /** Distance from the pipe's axis of the outside at a station, `t` of the way up. */
  const out = (station: number, t: number): number => {
    const [shift, radius] = [taper.shift * t, r + (small - r) * t];
    return -shift * Math.cos(station) + Math.sqrt(radius ** 2 - (shift * Math.sin(station)) ** 2);
  };
  const welds = solveTongues(taper, count).map(({ to }) =>
    seamLine(to, (t) => [taper.length * t, out(to, t)]),
  );
  const [top, bottom] = [smallEnd(taper, 0) + half, smallEnd(taper, Math.PI) + half];
  const at = (x: number, z: number): Vec3 => vec3(x, 0, z);
  const side: View = {
    title: say`The finished reducer, seen from station 90`,
    sight: { right: vec3(-1, 0, 0), up: vec3(0, 0, 1) },
    width: 38,
    height: 44,
    notes: [
      { kind: 'center', points: [at(0, foot), at(0, 0)] },
      { kind: 'center', points: [at(-taper.shift, 0), at(-taper.shift, taper.length)] },
      lengthNote(
        at(-r, 0),
        at(-bottom, taper.length),
        writeShort(taper.length, setting),
        vec3(-1, 0, 0),
        vec3(0, 0, 1),
      ),
      length(at(r, foot), at(-r, foot), `⌀${writeShort(pipe.od, setting)}`, -1),
      length(at(top, taper.length), at(-bottom, taper.length), `⌀${writeShort(top + bottom, setting)}`, 1),
      station(at(r, foot / 2), at(r, 0), '0°', true),
      station(at(-r, foot / 2), at(-r, 0), '180°', false),
    ],
  };
  const names = [say`0° TDC`, '90°', '180°', '270°'];
  const eccentric = [say`0° top`, '90°', say`180° flat`, '270°'];
  const end: View = {
    title: say`Facing the small end: the welds`,
    sight: { right: vec3(0, -1, 0), up: vec3(1, 0, 0) },
    width: 34,
    height: 34,
    notes: [
      { kind: 'center', points: [vec3(r, 0, 0), vec3(-r, 0, 0)] },
      { kind: 'center', points: [vec3(0, r, 0), vec3(0, -r, 0)] },
      ...(taper.shift > 0 ? eccentric : names).map((text, quarter): Note => {
        const a = (quarter * Math.PI) / 2;
        const spoke = vec3(Math.cos(a), Math.sin(a), 0);
        return labelNote(vec3(spoke.x * r, spoke.y * r, 0), text, { toward: spoke, bold: quarter === 0 });
      }),
    ],
  };
  return {
    parts: [
      {
        id: 'reducer',
        name: 'reducer',
        role: 'work',
        shape: {
          kind: 'cone',
          pose: SCENE_POSE,
          circles: [circle(at(0, foot), r), circle(at(0, 0), r), circle(tip, small)],
        },
        lines: welds,
      },
    ],
    views: [side, end],
  };
};

const length = (from: Vec3, to: Vec3, text: string, up: 1 | -1): Note =>
  lengthNote(from, to, text, vec3(0, 0, up));

const station = (at: Vec3, along: Vec3, text: string, bold: boolean): Note =>
  labelNote(at, text, { along, toward: vec3(at.x, 0, 0), bold });
