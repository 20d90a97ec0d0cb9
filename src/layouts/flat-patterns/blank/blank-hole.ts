import { parsedField } from '../../../fields/fields.ts';
import { requestError } from '../../../issue.ts';
import { parseLength } from '../../../units/length.ts';
import { say } from '../../../words/say.ts';

/** A hole in a leg: along from where the leg's length begins, across from the near edge, mm. */
export interface LegHole {
  /** Counted from 1. */
  readonly leg: number;
  readonly along: number;
  readonly across: number;
  readonly diameter: number;
}

const EXAMPLE = '2: 40mm,60mm: 12mm';

/** A hole in a leg, `2: 40mm,60mm: 12mm`: leg, along and across, diameter. */
export const holeField = parsedField(
  'a hole as leg: along,across: diameter; along from where the leg’s length begins, across from the lower edge',
  {
    kind: 'designation',
    symbol: 'N:L,L:D',
    example: EXAMPLE,
    many: true,
    parse: (text, reading): LegHole => {
      const [leg = '', place = '', size = '', ...more] = text.split(':').map((part) => part.trim());
      const [along = '', across = '', ...others] = place.split(',').map((part) => part.trim());
      const number = Number(leg);
      if (
        more.length > 0 ||
        others.length > 0 ||
        across === '' ||
        size === '' ||
        !Number.isInteger(number) ||
        number < 1
      )
        throw requestError(
          reading.path,
          'not-understood',
          say`"${text}" is not a hole in a leg`,
          say`write leg: along,across: diameter, such as ${EXAMPLE}`,
        );
      const diameter = parseLength(size, reading);
      if (diameter <= 0)
        throw requestError(
          reading.path,
          'out-of-range',
          say`the hole has no diameter`,
          say`write it like ${EXAMPLE}`,
        );
      return {
        leg: number,
        along: parseLength(along, reading),
        across: parseLength(across, reading),
        diameter,
      };
    },
  },
);
