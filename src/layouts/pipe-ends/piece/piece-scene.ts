import { add3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import { nameBody, type DrawnBody } from '../../../joint/bodies/body.ts';
import { moveSolid, type Motion } from '../../../joint/move-solid.ts';
import type { Note, Part, Scene } from '../../../scene/scene.ts';
import { labelNote, lengthNote } from '../../../scene/scene.ts';
import { SCENE_POSE } from '../../../scene/shape.ts';
import type { Sight } from '../../../scene/sight.ts';
import { bodyShape } from '../../../scene/solid-shape.ts';
import { cutAgainst, stockShape, type FittedCut } from '../../../scene/stock-shape.ts';
import { stockReach } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { PieceEnd } from './piece-end.ts';
import { endBodies, fromJoint } from './piece-joint.ts';
import type { Piece, SolvedEnd } from './piece-solve.ts';

/** Start on the left, station 0 on top: the eye looks at station 270. */
const SIGHT: Sight = { right: vec3(0, 0, 1), up: vec3(1, 0, 0) };
/** A piece longer than so many diameters is drawn broken. */
const LONGEST = 5;

/** The piece in its own frame, with what its ends are cut to. */
export const pieceScene = (piece: Piece, setting: Setting): Scene => sceneOf(piece, 0, setting);

/** The same for a picture: a long piece is drawn shorter than it is, with a break. */
export const brokenPieceScene = (piece: Piece, setting: Setting): Scene => {
  const width = 2 * stockReach(piece.request.stock);
  return sceneOf(piece, Math.max(0, piece.shortest.length - LONGEST * width), setting);
};

/** `taken` mm are left out of the middle. */
const sceneOf = (piece: Piece, taken: number, setting: Setting): Scene => {
  const { start, finish } = piece;
  const centers = piece.centers - taken;
  const own = (end: SolvedEnd): FittedCut => cutAgainst(end.development.ordinate, end.end.mate, end.end.gap);
  const [first, last] = [own(start), own(finish)];
  // The start's own frame looks the other way, so that there y and the positions along the girth are reversed.
  const lower: FittedCut = {
    around: (s) => -first.around(-s),
    over: ({ x, y }) => -first.over({ x, y: -y }),
  };
  const upper: FittedCut = { around: (s) => centers + last.around(s), over: (p) => centers + last.over(p) };
  const motionOf = (end: SolvedEnd): Motion => {
    const direction = (v: Vec3): Vec3 => {
      const p = fromJoint(end.numbering, v);
      return end === start ? vec3(p.x, -p.y, -p.z) : p;
    };
    const from = end === start ? vec3(0, 0, 0) : vec3(0, 0, centers);
    return { direction, point: (p) => add3(direction(p), from) };
  };
  const mates = ([start, finish] as const).flatMap((end) => {
    const motion = motionOf(end);
    const name = end === start ? say`start` : say`finish`;
    return endBodies(end.joint, end.stock).map(
      (body, i): { readonly part: Part; readonly centers: readonly Note[] } => {
        const { drawn } = body.view;
        const moved: DrawnBody = {
          ...drawn,
          outside: moveSolid(drawn.outside, motion),
          inside: drawn.inside && moveSolid(drawn.inside, motion),
        };
        return {
          part: {
            id: `${name} body ${i + 1}`,
            name: body.designation,
            role: 'next',
            shape: bodyShape(moved),
          },
          centers: body.view.centers.map((points) => ({ kind: 'center', points: points.map(motion.point) })),
        };
      },
    );
  });
  const work: Part = {
    id: 'piece',
    name: say`piece`,
    role: 'work',
    shape: stockShape(
      { outline: finish.stock.outline, section: finish.stock.section },
      SCENE_POSE,
      lower,
      upper,
    ),
  };
  return {
    parts: [work, ...mates.map(({ part }) => part)],
    views: [
      {
        title: say`The piece seen from its 270° side, TDC up`,
        sight: SIGHT,
        width: 90,
        height: 44,
        notes: [...mates.flatMap((mate) => mate.centers), ...pieceNotes(piece, taken, setting)],
      },
    ],
  };
};

const pieceNotes = (piece: Piece, taken: number, setting: Setting): readonly Note[] => {
  const { start, finish } = piece;
  const centers = piece.centers - taken;
  const [low, high] = [-start.development.high, centers + finish.development.high];
  const r = stockReach(piece.request.stock);
  const at = (z: number): Vec3 => vec3(0, 0, z);
  const [startZ, finishZ] = [Math.min(0, low), Math.max(centers, high)];
  const name = ({ shape }: PieceEnd): string =>
    shape.kind === 'miter'
      ? say`miter ${formatAngle(shape.cut)}`
      : shape.kind === 'bodies'
        ? say`on ${shape.on.map(({ designation }) => nameBody(designation)).join(', ')}`
        : say`square`;
  const label = (which: 'START' | 'FINISH', end: SolvedEnd, z: number): Note =>
    labelNote(at(z), `${which === 'START' ? say`START` : say`FINISH`}: ${name(end.joint)}`, {
      toward: vec3(0, 0, which === 'START' ? -1 : 1),
      bold: true,
    });
  return [
    { kind: 'center', points: [at(startZ), at(finishZ)] },
    lengthNote(
      vec3(r, 0, 0),
      vec3(r, 0, centers),
      say`centers ${writeShort(piece.centers, setting)}`,
      vec3(1, 0, 0),
    ),
    lengthNote(
      vec3(-r, 0, low),
      vec3(-r, 0, high),
      say`long points ${writeShort(piece.overall, setting)}`,
      vec3(-1, 0, 0),
    ),
    label('START', start, startZ),
    label('FINISH', finish, finishZ),
    ...(taken > 0
      ? [
          {
            kind: 'break' as const,
            at: at((centers + finish.development.low - start.development.low) / 2),
            along: at(1),
            half: r,
          },
        ]
      : []),
  ];
};
