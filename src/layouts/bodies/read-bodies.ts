import { requestError } from '../../issue.ts';
import { plainText } from '../../units/notation.ts';
import type { Field, Reading } from '../field.ts';
import { parsedField } from '../fields.ts';
import { readBendBody } from './bend-body.ts';
import type { BodySpec } from './body.ts';
import { readConeBody } from './cone-body.ts';
import { readPipeBody } from './pipe-body.ts';
import { readPlateBody } from './plate-body.ts';
import { readRoundBody } from './round-body.ts';
import { readTubeBody } from './tube-body.ts';

/** Every kind of body by its first word. A new body adds its file and one line here. */
const kinds: Readonly<Record<string, (text: string, reading: Reading) => BodySpec>> = {
  pipe: readPipeBody,
  tube: readTubeBody,
  plate: readPlateBody,
  reducer: readConeBody,
  cone: readConeBody,
  elbow: readBendBody,
  miter: readBendBody,
  sphere: readRoundBody,
  head: readRoundBody,
};

const MOST = 6;

const readBody = (text: string, reading: Reading): BodySpec => {
  const word = /^[a-z]+/.exec(plainText(text))?.[0] ?? '';
  const read = kinds[word];
  if (read) return read(text, reading);
  throw requestError(
    reading.path,
    'unknown-body',
    text.trim() === '' ? 'a body is missing beside a +' : `"${text.trim()}" does not begin with a body`,
    `begin with ${Object.keys(kinds).join(', ')}`,
  );
};

/** What a branch meets: one body, or several joined by ` + `, each by its designation and how it lies. */
export const bodiesField: Field<readonly BodySpec[]> = parsedField({
  help:
    'what it meets, in place of a header: pipe, tube, plate, reducer, cone, elbow, miter, sphere or head by its designation, ' +
    'then how it lies; several with + between',
  kind: 'designation',
  symbol: 'BODY',
  example: 'elbow NPS 8 LR extrados',
  parse: (text, reading) => {
    const parts = text.split(/\s\+(?:\s|$)/);
    if (parts.length > MOST)
      throw requestError(
        reading.path,
        'many-bodies',
        `${parts.length} bodies are given`,
        `give at most ${MOST}`,
      );
    const bodies = parts.map((part) => readBody(part, reading));
    const moved = bodies.find((body) => body.moved);
    if (bodies.length === 1 && moved)
      throw requestError(
        reading.path,
        'moved-alone',
        'roll and ahead place a body among several, but there is only one',
        'leave them out',
      );
    return bodies;
  },
});
