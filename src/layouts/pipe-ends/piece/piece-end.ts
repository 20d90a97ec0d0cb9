import type { Field } from '../../../fields/field.ts';
import { parsedField } from '../../../fields/fields.ts';
import { QUARTER_TURN } from '../../../geometry/angle-units.ts';
import { requestError } from '../../../issue.ts';
import type { BodySpec } from '../../../joint/bodies/body.ts';
import { readBodies, readBody } from '../../../joint/bodies/read-bodies.ts';
import { readClauses } from '../../../stock/clauses.ts';
import { formatAngle, parseAngle } from '../../../units/angle.ts';
import { parseLength } from '../../../units/length.ts';
import { refusals } from '../../../units/notation.ts';
import type { Reading } from '../../../units/reading.ts';
import { say } from '../../../words/say.ts';

/**
 * What one end of a piece is cut to, given by the piece's own station numbers counted from the joint's station 0: a miter's
 * heel and a saddle's heel lie there, an offset is positive toward 90.
 */
export interface PieceEnd {
  readonly shape:
    | { readonly kind: 'square' }
    | { readonly kind: 'miter'; readonly cut: number }
    | { readonly kind: 'bodies'; readonly on: readonly BodySpec[] };
  /** How far the end backs off along the piece's axis for its root gap, mm. */
  readonly gap: number;
  /** The finished joint's whole gap, where what it meets is cut back as well. */
  readonly joint?: number;
}

type Shape = PieceEnd['shape'];

const HINT = () =>
  say`write square, miter 22.5, saddle NPS 6 sch 40 angle 60 offset 10mm or on elbow NPS 8 LR heel; gap 3mm may follow`;

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
        throw requestError(path, 'not-understood', say`"${body}" after square is not understood`, HINT());
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
        say`a miter of ${formatAngle(cut)} cannot be cut`,
        say`give more than 0° and less than 90° from square`,
      );
    },
  },
  on: {
    words: [],
    read: (_clauses, body, reading) => ({
      kind: 'bodies',
      on: readBodies(body, reading),
    }),
  },
  // A saddle is the short form of a pipe as a body.
  saddle: {
    words: [],
    read: (_clauses, body, reading) => ({ kind: 'bodies', on: [readBody(`pipe ${body}`, reading)] }),
  },
};

const readersByWord = new Map(Object.entries(readers));

/** Reads an end: `square`, `miter 22.5`, `saddle NPS 6 sch 40 angle 60 offset 10mm`, `on` any body; each with `gap 3mm` if wanted. */
export const parseEnd = (text: string, reading: Reading): PieceEnd => {
  const refuse = refusals(reading.path);
  const [, kind = '', rest = ''] = /^\s*([a-z]+)\b(.*)$/is.exec(text) ?? [];
  const reader = readersByWord.get(kind.toLowerCase());
  if (!reader) throw refuse('not-an-end', say`"${text}" is not an end of a piece`, HINT());
  const words = [...reader.words, 'gap'];
  const start = new RegExp(`(?<![a-z])(?:${words.join('|')})(?![a-z])`, 'i').exec(rest)?.index ?? rest.length;
  const clauses: ReadonlyMap<string, string> =
    start === rest.length ? new Map() : readClauses(rest.slice(start), words, refuse, HINT());
  const gap = parseLength(clauses.get('gap') ?? '0', { units: reading.units, path: reading.path });
  if (gap < 0 || gap > 50)
    throw refuse(
      'out-of-range',
      say`a gap of ${clauses.get('gap')} is out of range`,
      say`give a gap of 0 to 50 mm`,
    );
  return { shape: reader.read(clauses, rest.slice(0, start).trim(), reading), gap };
};

/** One end of a piece. */
export const pieceEndField = (help: string, example: string): Field<PieceEnd> =>
  parsedField(help, { kind: 'designation', symbol: 'END', example, parse: parseEnd });
