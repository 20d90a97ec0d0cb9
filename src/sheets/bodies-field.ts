import type { Field } from '../fields/field.ts';
import { parsedField } from '../fields/fields.ts';
import type { BodySpec } from '../joint/bodies/body.ts';
import { bodyKinds, readBodies } from '../joint/bodies/read-bodies.ts';

/** What a branch meets: one body, or several joined by ` + `, each by its designation and how it lies. */
export const bodiesField: Field<readonly BodySpec[]> = parsedField({
  help: [
    'what it meets, in place of a header: a body by its designation, then how it lies; several with + between, then each with roll A about the branch’s axis and ahead L along it',
    ...bodyKinds.map(({ words, lies }) => `${words.join(', ')}: ${lies}`),
  ].join('. '),
  kind: 'designation',
  symbol: 'BODY',
  example: 'elbow NPS 8 LR extrados',
  parse: readBodies,
});
