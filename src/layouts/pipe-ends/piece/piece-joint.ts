import { modulo, QUARTER_TURN } from '../../../geometry/angle-units.ts';
import { MissError } from '../../../geometry/development.ts';
import type { Mate } from '../../../geometry/mate.ts';
import type { Contact } from '../../../geometry/reach.ts';
import { vec3, type Vec3 } from '../../../geometry/vector.ts';
import { jointError, UserError } from '../../../issue.ts';
import type { Body } from '../../../joint/bodies/body.ts';
import type { Solid } from '../../../joint/solid.ts';
import { stockReach, stockSpan, type Stock } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';

import { moveSolid } from '../../../joint/move-solid.ts';
import { solidsMate } from '../../../joint/solid-mate.ts';
import { describeGap, describeHalfGap } from '../../../sheets/contact.ts';
import type { Setting } from '../../../units/setting.ts';
import { told } from '../../../units/format.ts';
import { say } from '../../../words/say.ts';
import type { PieceEnd } from './piece-end.ts';

/** The line of the wall that an end is drawn by when none is chosen: a saddle seats by first touch, a cut lies in its plane. */
export const usualContact = ({ shape }: PieceEnd): Contact => (shape.kind === 'bodies' ? 'wall' : 'od');

/**
 * The bodies that an end sits on, each in the frame of the joint's own numbers. Throws a `joint` UserError where it does not.
 * @param numbering how the stock lies in that frame; without it what passes beside a body has been looked at already
 */
export const endBodies = ({ shape, gap }: PieceEnd, stock: Stock, numbering?: Numbering): readonly Body[] => {
  if (shape.kind !== 'bodies') return [];
  const { on } = shape;
  // Among several bodies one may well reach past another: only the whole must be met everywhere.
  const alone = on.length === 1;
  return on.map((spec) =>
    spec.build(
      {
        radius: alone ? stockReach(stock) : 1e-6,
        across: alone && numbering ? stockSpan(stock, fromJoint(numbering, vec3(0, 1, 0))) : [0, 0],
        seat: 'outside',
        drawn: stockReach(stock) + gap,
        main: true,
        angle: QUARTER_TURN,
        offset: 0,
      },
      spec.frame,
    ),
  );
};

/** What the end touches, in the frame of its own numbers: x at the joint's station 0, y at 90, z out of the cut end. */
const jointSolids = (end: PieceEnd, stock: Stock, numbering: Numbering): readonly Solid[] => {
  const { shape } = end;
  const origin = vec3(0, 0, 0);
  switch (shape.kind) {
    case 'square':
      return [{ kind: 'plane', through: origin, normal: vec3(0, 0, -1) }];
    case 'miter':
      return [{ kind: 'plane', through: origin, normal: vec3(Math.sin(shape.cut), 0, -Math.cos(shape.cut)) }];
    case 'bodies':
      return endBodies(end, stock, numbering).map(({ outside }) => outside);
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
export const endSolids = (end: PieceEnd, stock: Stock, numbering: Numbering): readonly Solid[] => {
  const turned = (v: Vec3): Vec3 => fromJoint(numbering, v);
  return jointSolids(end, stock, numbering).map((solid) =>
    moveSolid(solid, { point: turned, direction: turned }),
  );
};

/** The same as a mate. */
export const endMate = (end: PieceEnd, stock: Stock, numbering: Numbering): Mate =>
  solidsMate(endSolids(end, stock, numbering));

/** Runs what may refuse a joint, and names the end by its own input. */
export const atEnd = <T>(path: string, run: () => T): T => {
  try {
    return run();
  } catch (error) {
    if (error instanceof MissError)
      throw jointError(
        path,
        'end-misses',
        path === 'start'
          ? say`the pipe misses what its start end is cut to, ${told(error.s, 1)} around from station 0`
          : say`the pipe misses what its finish end is cut to, ${told(error.s, 1)} around from station 0`,
        say`choose a smaller pipe or move the body: every line along the pipe must meet it`,
      );
    const issue = error instanceof UserError && error.failure === 'joint' ? error.issues[0] : undefined;
    if (!issue) throw error;
    throw jointError(path, issue.code, issue.message, issue.hint);
  }
};

/** The end in words; `turn` is the piece's station of the joint's station 0. */
export const describeEnd = (end: PieceEnd, stock: Stock, turn: number, setting: Setting): string => {
  const { shape, gap, joint } = end;
  const besides =
    gap > 0 ? `, ${joint === undefined ? describeGap(gap, setting) : describeHalfGap(joint, setting)}` : '';
  const station = (angle: number): string => say`station ${writeStation(turn + angle)}`;
  switch (shape.kind) {
    case 'square':
      return say`cut square${besides}`;
    case 'miter':
      return say`miter ${formatAngle(shape.cut)} from square, heel at ${station(0)}${besides}`;
    case 'bodies': {
      const built = endBodies(end, stock);
      const bodies = built.map((body) => `${body.designation}, ${body.placing(setting)}`);
      const counted = writeStation(turn) === writeStation(0) ? '' : say`, counted from ${station(0)}`;
      return say`on ${bodies.join(say` and `)}${counted}${besides}; lengths run to ${built[0]?.datum ?? ''}`;
    }
  }
};

/** A station's number in [0, 360), as it stands on the piece. */
export const writeStation = (angle: number): string => {
  const turn = 2 * Math.PI;
  const around = modulo(angle, turn);
  return formatAngle(turn - around < 1e-9 ? 0 : around);
};

/** Names of the piece's quarter lines 0, 90, 180, 270 at this end: the joint's own where it lies on them. */
export const endWords = (
  end: PieceEnd,
  stock: Stock,
  turn: number,
): readonly [string, string, string, string] => {
  const own = jointWords(end, stock).map((word) => word.replace(/( · )?TDC/, ''));
  const quarters = turn / QUARTER_TURN;
  const onQuarter = Math.abs(quarters - Math.round(quarters)) < 1e-9;
  const at = (quarter: number): string =>
    onQuarter ? (own[modulo(quarter - Math.round(quarters), 4)] ?? '') : '';
  return [at(0) === '' ? say`TDC` : say`${at(0)} · TDC`, at(1), at(2), at(3)];
};

const jointWords = (end: PieceEnd, stock: Stock): readonly string[] => {
  const { shape } = end;
  switch (shape.kind) {
    case 'square':
      return ['', '', '', ''];
    case 'miter':
      return [say`HEEL`, say`SIDE`, say`THROAT`, say`SIDE`];
    case 'bodies':
      return endBodies(end, stock)[0]?.words ?? ['', '', '', ''];
  }
};
