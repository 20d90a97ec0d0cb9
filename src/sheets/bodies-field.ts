import type { Field } from '../fields/field.ts';
import { parsedField } from '../fields/fields.ts';
import type { BodySpec } from '../joint/bodies/body.ts';
import { bodyKinds, readBodies } from '../joint/bodies/read-bodies.ts';
import { say } from '../words/say.ts';

/** How bodies are written: one by its designation and how it lies, or several. */
export const tellBodies = (): string =>
  say`a body by its designation, then how it lies; several with + between, then each with roll A about the branch’s axis and ahead L along it`;

const bodyNotation = (): string =>
  [tellBodies(), ...bodyKinds().map(({ words, lies }) => `${words.join(', ')}: ${lies}`)].join('. ');

/** Bodies that a cut end meets: one, or several joined by ` + `, each by its designation and how it lies. It may be left out. */
export const bodiesField = (help: string, example: string): Field<readonly BodySpec[] | undefined> =>
  parsedField(help, {
    kind: 'designation',
    symbol: 'BODY',
    example,
    optional: true,
    notation: bodyNotation,
    parse: readBodies,
  });
