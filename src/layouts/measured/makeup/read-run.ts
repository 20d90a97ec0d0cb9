import type { Field } from '../../../fields/field.ts';
import { parsedField } from '../../../fields/fields.ts';
import { parseRunPart, type RunPart } from '../../../stock/run-part.ts';
import { parseLength } from '../../../units/length.ts';
import { quoted, refusals } from '../../../units/notation.ts';
import type { Reading } from '../../../units/reading.ts';
import { say } from '../../../words/say.ts';

/** A part in the run: where its center (or middle) is, if that is given, and whether it joins the part before it with no pipe between. */
export interface PlacedPart {
  readonly part: RunPart;
  /** From the start of the run, mm. */
  readonly at: number | undefined;
  readonly direct: boolean;
}

/** Longest list of parts one run may have. */
const MOST = 60;

/**
 * Reads parts in order along a run: commas where pipe stands between them, `+` where one is joined straight to the next,
 * `at` and a length where a part's place is fixed: `tee NPS 6 at 1200mm, reducer NPS 6 x 4 + flange NPS 4 class 150 weld-neck`.
 */
export const parseParts = (text: string, { units, path }: Reading): readonly PlacedPart[] => {
  const refuse = refusals(path);
  const placed = text.split(',').flatMap((stretch) =>
    stretch.split('+').map((word, i): PlacedPart => {
      const [, body = '', place] = /^(.*?)(?: +at +(.+))?$/is.exec(word.trim()) ?? [];
      if (body.trim() === '')
        throw refuse(
          'empty',
          say`a part is missing in "${quoted(text)}"`,
          say`write one part between two commas`,
        );
      return {
        part: parseRunPart(body, { path }),
        at: place === undefined ? undefined : parseLength(place, { units, path }),
        direct: i > 0,
      };
    }),
  );
  if (placed.length > MOST)
    throw refuse(
      'too-many',
      say`${placed.length} parts are given`,
      say`give at most ${MOST}, or divide the run`,
    );
  return placed;
};

/** A list of parts, which may be left out. */
export const partsField = (help: string, example: string): Field<readonly PlacedPart[] | undefined> =>
  parsedField(help, { kind: 'designation', symbol: 'PARTS', example, optional: true, parse: parseParts });
