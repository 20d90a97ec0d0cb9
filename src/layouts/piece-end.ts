import { jointError, requestError, UserError } from '../issue.ts';
import type { Line, Mate } from '../geometry/mate.ts';
import { cylinderMate } from '../geometry/mates/cylinder.ts';
import { planeMate } from '../geometry/mates/plane.ts';
import type { Contact } from '../geometry/reach.ts';
import { vec3, type Vec3 } from '../geometry/vector.ts';
import { readClauses } from '../stock/clauses.ts';
import { parsePipe, type Pipe } from '../stock/pipe.ts';
import { formatAngle, parseAngle } from '../units/angle.ts';
import { parseLength } from '../units/length.ts';
import { refusals } from '../units/notation.ts';
import { checkJoint, quarterWords } from './branch-joint.ts';
import type { Field, Reading } from './field.ts';
import { parsedField } from './fields.ts';
import type { Setting } from './layout.ts';
import { writeBoth } from './wrap-parts.ts';

/**
 * What one end of a piece is cut to, told by the piece's own station numbers counted from the joint's station 0: a miter's
 * heel and a saddle's heel lie there, an offset is positive toward 90.
 */
export interface PieceEnd {
  readonly shape:
    | { readonly kind: 'square' }
    | { readonly kind: 'miter'; readonly cut: number }
    | { readonly kind: 'saddle'; readonly header: Pipe; readonly angle: number; readonly offset: number };
  /** Root gap along the piece's axis, mm. */
  readonly gap: number;
}

type Shape = PieceEnd['shape'];

const HINT = 'write square, miter 22.5 or saddle NPS 6 sch 40 angle 60 offset 10mm; gap 3mm may follow';
const QUARTER_TURN = Math.PI / 2;

/** How each kind of end is read, by its first word: the words that may follow it, and the reader. A new kind is one more row. */
const readers: Readonly<
  Record<
    string,
    {
      readonly words: readonly string[];
      readonly read: (clauses: ReadonlyMap<string, string>, body: string, reading: Reading) => Shape;
    }
  >
> = {
  square: {
    words: [],
    read: (_clauses, body, { path }) => {
      if (body !== '')
        throw requestError(path, 'not-understood', `"${body}" after square is not understood`, HINT);
      return { kind: 'square' };
    },
  },
  miter: {
    words: [],
    read: (_clauses, body, { path }) => {
      const cut = parseAngle(body, { path });
      if (cut > 0 && cut < QUARTER_TURN) return { kind: 'miter', cut };
      throw requestError(
        path,
        'out-of-range',
        `a miter of ${formatAngle(cut)} cannot be cut`,
        'give more than 0° and less than 90° from square',
      );
    },
  },
  saddle: {
    words: ['angle', 'offset'],
    read: (clauses, body, { units, path }) => {
      const header = parsePipe(body, { units, path });
      const angle = parseAngle(clauses.get('angle') ?? '90', { path });
      if (!(angle > 0 && angle < Math.PI))
        throw requestError(
          path,
          'out-of-range',
          `a saddle at ${formatAngle(angle)} never meets its pipe`,
          'give an angle of more than 0° and less than 180°',
        );
      return {
        kind: 'saddle',
        header,
        angle,
        offset: parseLength(clauses.get('offset') ?? '0', { units, path }),
      };
    },
  },
};

/** Reads an end: `square`, `miter 22.5`, `saddle NPS 6 sch 40 angle 60 offset 10mm`, each with `gap 3mm` if wanted. */
export const parseEnd = (text: string, reading: Reading): PieceEnd => {
  const refuse = refusals(reading.path);
  const [, kind = '', rest = ''] = /^\s*([a-z]+)\b(.*)$/is.exec(text) ?? [];
  const reader = readers[kind.toLowerCase()];
  if (!reader) throw refuse('not-an-end', `"${text}" is not an end of a piece`, HINT);
  const words = [...reader.words, 'gap'];
  const start = new RegExp(`(?<![a-z])(?:${words.join('|')})(?![a-z])`, 'i').exec(rest)?.index ?? rest.length;
  const clauses: ReadonlyMap<string, string> =
    start === rest.length ? new Map() : readClauses(rest.slice(start), words, refuse, HINT);
  const gap = parseLength(clauses.get('gap') ?? '0', { units: reading.units, path: reading.path });
  if (gap < 0 || gap > 50)
    throw refuse(
      'out-of-range',
      `a gap of ${clauses.get('gap')} is out of range`,
      'give a gap of 0 to 50 mm',
    );
  return { shape: reader.read(clauses, rest.slice(0, start).trim(), reading), gap };
};

/** One end of a piece. */
export const pieceEndField = (help: string, example: string): Field<PieceEnd> =>
  parsedField({ help, kind: 'designation', symbol: 'END', example, parse: parseEnd });

/** The line of the wall that an end is drawn by when none is chosen: a saddle seats by first touch, a cut lies in its plane. */
export const usualContact = ({ shape }: PieceEnd): Contact => (shape.kind === 'saddle' ? 'wall' : 'od');

/** What the end touches, in the frame of its own numbers: x at the joint's station 0, y at 90, z out of the cut end. */
const jointMate = (shape: Shape): Mate => {
  const origin = vec3(0, 0, 0);
  switch (shape.kind) {
    case 'square':
      return planeMate(origin, vec3(0, 0, -1));
    case 'miter':
      return planeMate(origin, vec3(Math.sin(shape.cut), 0, -Math.cos(shape.cut)));
    case 'saddle':
      return cylinderMate(
        vec3(0, shape.offset, 0),
        vec3(Math.sin(shape.angle), 0, Math.cos(shape.angle)),
        shape.header.od / 2,
      );
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

/** A vector of the joint's own numbers in the end's stock frame, and back. */
export const fromJoint = ({ sense, turn }: Numbering, { x, y, z }: Vec3): Vec3 => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return vec3(x * c - y * s, sense * (x * s + y * c), z);
};

const toJoint = ({ sense, turn }: Numbering, { x, y, z }: Vec3): Vec3 => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return vec3(x * c + sense * y * s, -x * s + sense * y * c, z);
};

/** The end's mate in its stock frame. */
export const endMate = ({ shape }: PieceEnd, numbering: Numbering): Mate => {
  const mate = jointMate(shape);
  const turned = ({ origin, direction }: Line): Line => ({
    origin: toJoint(numbering, origin),
    direction: toJoint(numbering, direction),
  });
  return {
    convex: mate.convex,
    enter: (line) => {
      const hit = mate.enter(turned(line));
      return hit && { ...hit, normal: fromJoint(numbering, hit.normal) };
    },
  };
};

/** Throws a `joint` UserError where the pipe does not sit wholly on what its end is cut to. */
export const checkEnd = (pipe: Pipe, { shape, gap }: PieceEnd, path: string): void => {
  if (shape.kind !== 'saddle') return;
  const { header, angle, offset } = shape;
  try {
    checkJoint({ branch: pipe, header, angle, offset, set: 'on', gap });
  } catch (error) {
    const issue = error instanceof UserError ? error.issues[0] : undefined;
    if (!issue) throw error;
    throw jointError(path, issue.code, issue.message, issue.hint);
  }
};

/** The end in words; `turn` is the piece's station of the joint's station 0. */
export const describeEnd = ({ shape, gap }: PieceEnd, turn: number, setting: Setting): string => {
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
  }
};

/** A station's number in [0, 360), as it stands on the piece. */
export const writeStation = (angle: number): string => {
  const turn = 2 * Math.PI;
  const around = ((angle % turn) + turn) % turn;
  return formatAngle(turn - around < 1e-9 ? 0 : around);
};

/** Names of the piece's quarter lines 0, 90, 180, 270 at this end: the joint's own where it lies on them. */
export const endWords = ({ shape }: PieceEnd, turn: number): readonly [string, string, string, string] => {
  const own: readonly string[] =
    shape.kind === 'miter'
      ? ['HEEL', 'SIDE', 'THROAT', 'SIDE']
      : shape.kind === 'saddle'
        ? quarterWords(shape.angle).map((word) => word.replace(' · TDC', ''))
        : ['', '', '', ''];
  const quarters = turn / QUARTER_TURN;
  const onQuarter = Math.abs(quarters - Math.round(quarters)) < 1e-9;
  const at = (quarter: number): string =>
    onQuarter ? (own[(((quarter - Math.round(quarters)) % 4) + 4) % 4] ?? '') : '';
  return [at(0) === '' ? 'TDC' : `${at(0)} · TDC`, at(1), at(2), at(3)];
};
