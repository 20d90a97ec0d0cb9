import type { Field } from '../fields/field.ts';
import { parsedField } from '../fields/fields.ts';
import { requestError } from '../issue.ts';
import type { BodySpec } from '../joint/bodies/body.ts';
import { kinds, MOST, readBody } from '../joint/bodies/read-bodies.ts';

/** What a branch meets: one body, or several joined by ` + `, each by its designation and how it lies. */
export const bodiesField: Field<readonly BodySpec[]> = parsedField({
  help: [
    'what it meets, in place of a header: a body by its designation, then how it lies; several with + between, then each with roll A about the branch’s axis and ahead L along it',
    ...kinds.map(({ words, lies }) => `${words.join(', ')}: ${lies}`),
  ].join('. '),
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
