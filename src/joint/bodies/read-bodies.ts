import { requestError } from '../../issue.ts';
import { isOvalPipe } from '../../stock/pipe.ts';
import { plainText } from '../../units/notation.ts';
import type { Reading } from '../../units/reading.ts';
import { checkIsText } from '../../words/wrong-type.ts';
import { say } from '../../words/say.ts';
import { readBendBody } from './bend.ts';
import type { BodySpec } from './body.ts';
import { readConeBody } from './cone.ts';
import { readPipeBody } from './pipe.ts';
import { readPlateBody } from './plate.ts';
import { readRoundBody } from './round.ts';
import { readSectionBody } from './section.ts';

interface BodyKind {
  /** First words of its designations. */
  readonly words: readonly string[];
  /** How it lies, for help. */
  readonly lies: string;
  readonly read: (text: string, reading: Reading) => BodySpec;
}

/** Every kind of body. A new one adds its file and one entry here. */
export const bodyKinds = (): readonly BodyKind[] => [
  {
    words: ['pipe'],
    lies: say`angle A, offset L`,
    read: (text, reading) => (isOvalPipe(text) ? readSectionBody : readPipeBody)(text, reading),
  },
  {
    words: ['tube', 'beam', 'channel', 'angle', 'flat', 'oval', 'ellipse', 'half-round'],
    lies: say`angle A, offset L, turned A about its axis`,
    read: readSectionBody,
  },
  { words: ['plate'], lies: say`angle A, offset L`, read: readPlateBody },
  {
    words: ['reducer', 'cone'],
    lies: say`at L from the large end, offset L, angle A or square (to its side), flat A around from the branch if eccentric; station 0 looks to the small end`,
    read: readConeBody,
  },
  {
    words: ['elbow', 'miter'],
    lies: say`heel (back), side or throat or round A from the heel (back), + with the branch’s station 90 to the throat (side is round 90), at A along the turn from leg 1, or angle A from the axis of leg 1 through the corner of the legs, offset L; station 0 looks to leg 2`,
    read: readBendBody,
  },
  {
    words: ['sphere', 'head'],
    lies: say`offset L from its center line, angle A outward or square (to the surface); station 0 looks outward`,
    read: readRoundBody,
  },
];

/** Most bodies that one end may meet. */
const MOST = 6;

/** Reads one body by its designation and how it lies. Throws a `request` UserError where it is not understood. */
export const readBody = (text: string, reading: Reading): BodySpec => {
  const word = /^[a-z]+(?:-round)?/.exec(plainText(text))?.[0] ?? '';
  const kind = bodyKinds().find(({ words }) => words.includes(word));
  if (kind) return kind.read(text, reading);
  throw requestError(
    reading.path,
    'unknown-body',
    text.trim() === '' ? say`a body is missing beside a +` : say`"${text.trim()}" does not begin with a body`,
    say`begin with ${bodyKinds()
      .flatMap(({ words }) => words)
      .join(', ')}`,
  );
};

/** Reads one body, or several joined by ` + `. Throws a `request` UserError where one is not understood. */
export const readBodies = (text: string, reading: Reading): readonly BodySpec[] => {
  checkIsText(text, reading.path, 'pipe NPS 6 sch 40');
  const parts = text.split(/\s\+(?:\s|$)/);
  if (parts.length > MOST)
    throw requestError(
      reading.path,
      'many-bodies',
      say`${parts.length} bodies are given`,
      say`give at most ${MOST}`,
    );
  const bodies = parts.map((part) => readBody(part, reading));
  if (bodies.length === 1 && bodies[0]?.moved)
    throw requestError(
      reading.path,
      'moved-alone',
      say`roll and ahead place a body among several, but there is only one`,
      say`leave them out`,
    );
  return bodies;
};
