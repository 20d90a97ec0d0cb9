import type { Solid } from '../../../joint/solid.ts';
import { MissError } from '../../../geometry/development.ts';
import type { Mate } from '../../../geometry/mate.ts';
import type { Contact } from '../../../geometry/reach.ts';
import { vec3, type Vec3 } from '../../../geometry/vector.ts';
import { jointError, UserError } from '../../../issue.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Body } from '../../../joint/bodies/body.ts';
import { checkJoint } from '../branch/branch-joint.ts';
import { quarterWords } from '../../../joint/quarter-words.ts';
import type { Setting } from '../../../units/setting.ts';
import type { PieceEnd } from './piece-end.ts';
import { solidsMate } from '../../../joint/solid-mate.ts';
import { moveSolid } from '../../../joint/move-solid.ts';
import { writeBoth } from '../../../units/writing.ts';

const QUARTER_TURN = Math.PI / 2;

/** The line of the wall that an end is drawn by when none is chosen: a saddle seats by first touch, a cut lies in its plane. */
export const usualContact = ({ shape }: PieceEnd): Contact =>
  shape.kind === 'saddle' || shape.kind === 'bodies' ? 'wall' : 'od';

/** The bodies that an end sits on, each in the frame of the joint's own numbers. Throws a `joint` UserError where it does not. */
export const endBodies = ({ shape, gap }: PieceEnd, pipe: Pipe): readonly Body[] => {
  if (shape.kind !== 'bodies') return [];
  const { on } = shape;
  // Among several bodies one may well reach past another: only the whole must be met everywhere.
  const radius = on.length === 1 ? pipe.od / 2 : 1e-6;
  return on.map((spec) =>
    spec.build({ radius, drawn: pipe.od / 2 + gap, main: true, angle: QUARTER_TURN, offset: 0 }, spec.frame),
  );
};

/** What the end touches, in the frame of its own numbers: x at the joint's station 0, y at 90, z out of the cut end. */
const jointSolids = (end: PieceEnd, pipe: Pipe): readonly Solid[] => {
  const { shape } = end;
  const origin = vec3(0, 0, 0);
  switch (shape.kind) {
    case 'square':
      return [{ kind: 'plane', through: origin, normal: vec3(0, 0, -1) }];
    case 'miter':
      return [{ kind: 'plane', through: origin, normal: vec3(Math.sin(shape.cut), 0, -Math.cos(shape.cut)) }];
    case 'saddle':
      return [
        {
          kind: 'cylinder',
          through: vec3(0, shape.offset, 0),
          along: vec3(Math.sin(shape.angle), 0, Math.cos(shape.angle)),
          radius: shape.header.od / 2,
        },
      ];
    case 'bodies':
      return endBodies(end, pipe).map(({ outside }) => outside);
  }
};

/**
 * Where the numbers of an end lie in its stock frame: station φ of the piece stands at angle `sense` × φ, and the joint's
 * station 0 at station `turn`. At the start the numbers rise with the frame. Seen from the finish end the same lines
 * come in the other order, so there the sense is −1.
 */
export interface Numbering {
  readonly sense: 1 | -1;
  readonly turn: number;
}

/** A vector of the joint's own numbers in the end's stock frame. */
export const fromJoint = ({ sense, turn }: Numbering, { x, y, z }: Vec3): Vec3 => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return vec3(x * c - y * s, sense * (x * s + y * c), z);
};

/** What an end's cut line must touch, in its stock frame. */
export const endSolids = (end: PieceEnd, pipe: Pipe, numbering: Numbering): readonly Solid[] => {
  const turned = (v: Vec3): Vec3 => fromJoint(numbering, v);
  return jointSolids(end, pipe).map((solid) => moveSolid(solid, { point: turned, direction: turned }));
};

/** The same as a mate. */
export const endMate = (end: PieceEnd, pipe: Pipe, numbering: Numbering): Mate =>
  solidsMate(endSolids(end, pipe, numbering));

/** Runs what may refuse a joint, and tells the end by its own input. */
export const atEnd = <T>(path: string, run: () => T): T => {
  try {
    return run();
  } catch (error) {
    if (error instanceof MissError)
      throw jointError(
        path,
        'end-misses',
        `the pipe misses what its ${path} end is cut to, ${Number(error.s.toFixed(1))} mm round from station 0`,
        'choose a smaller pipe or move the body: every line along the pipe must meet it',
      );
    const issue = error instanceof UserError && error.failure === 'joint' ? error.issues[0] : undefined;
    if (!issue) throw error;
    throw jointError(path, issue.code, issue.message, issue.hint);
  }
};

/** Throws a `joint` UserError where the pipe does not sit wholly on the pipe its end is cut to. */
export const checkEnd = (pipe: Pipe, { shape, gap }: PieceEnd): void => {
  if (shape.kind !== 'saddle') return;
  const { header, angle, offset } = shape;
  checkJoint({ branch: pipe, header, angle, offset, set: 'on', gap });
};

/** The end in words; `turn` is the piece's station of the joint's station 0. */
export const describeEnd = (end: PieceEnd, pipe: Pipe, turn: number, setting: Setting): string => {
  const { shape, gap } = end;
  const besides = gap > 0 ? `, root gap ${writeBoth(gap, setting)}` : '';
  const station = (angle: number): string => `station ${writeStation(turn + angle)}`;
  switch (shape.kind) {
    case 'square':
      return `cut square${besides}`;
    case 'miter':
      return `miter ${formatAngle(shape.cut)} from square, heel at ${station(0)}${besides}`;
    case 'saddle': {
      const { header, angle, offset } = shape;
      const aside =
        Math.abs(offset) < 1e-9
          ? ''
          : `, offset ${writeBoth(Math.abs(offset), setting)} toward ${station(offset > 0 ? QUARTER_TURN : -QUARTER_TURN)}`;
      const lean =
        Math.abs(angle - QUARTER_TURN) < 1e-9
          ? `square, its pipe along stations ${writeStation(turn)} and ${writeStation(turn + 2 * QUARTER_TURN)}`
          : `${formatAngle(angle)} between the axes, ${angle < QUARTER_TURN ? 'heel' : 'crotch'} at ${station(0)}`;
      return `saddle on ${header.designation}, ${lean}${aside}${besides}`;
    }
    case 'bodies': {
      const built = endBodies(end, pipe);
      const bodies = built.map((body) => `${body.designation}, ${body.placing(setting)}`);
      const counted = writeStation(turn) === writeStation(0) ? '' : `, counted from ${station(0)}`;
      return `on ${bodies.join(' and ')}${counted}${besides}; lengths run to ${built[0]?.datum ?? ''}`;
    }
  }
};

/** A station's number in [0, 360), as it stands on the piece. */
export const writeStation = (angle: number): string => {
  const turn = 2 * Math.PI;
  const around = ((angle % turn) + turn) % turn;
  return formatAngle(turn - around < 1e-9 ? 0 : around);
};

/** Names of the piece's quarter lines 0, 90, 180, 270 at this end: the joint's own where it lies on them. */
export const endWords = (
  end: PieceEnd,
  pipe: Pipe,
  turn: number,
): readonly [string, string, string, string] => {
  const own = jointWords(end, pipe).map((word) => word.replace(/( · )?TDC/, ''));
  const quarters = turn / QUARTER_TURN;
  const onQuarter = Math.abs(quarters - Math.round(quarters)) < 1e-9;
  const at = (quarter: number): string =>
    onQuarter ? (own[(((quarter - Math.round(quarters)) % 4) + 4) % 4] ?? '') : '';
  return [at(0) === '' ? 'TDC' : `${at(0)} · TDC`, at(1), at(2), at(3)];
};

const jointWords = (end: PieceEnd, pipe: Pipe): readonly string[] => {
  const { shape } = end;
  switch (shape.kind) {
    case 'square':
      return ['', '', '', ''];
    case 'miter':
      return ['HEEL', 'SIDE', 'THROAT', 'SIDE'];
    case 'saddle':
      return quarterWords(shape.angle);
    case 'bodies':
      return endBodies(end, pipe)[0]?.words ?? ['', '', '', ''];
  }
};
