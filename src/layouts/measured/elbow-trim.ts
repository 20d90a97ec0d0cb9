import { angleField, parsedField, pipeField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { DEGREE } from '../../geometry/angle-units.ts';
import { requestError } from '../../issue.ts';
import { bandFields, pickBand } from '../../sheets/band-fields.ts';
import { elbowArc, elbowTrimSheet } from '../../sheets/elbow-trim.ts';
import { type Elbow, nameElbow, parseElbow } from '../../stock/elbow.ts';
import { parsePipe, type Pipe } from '../../stock/pipe.ts';
import { say } from '../../words/say.ts';

/** The pipe an elbow is for: as given, or of its own size and wall. */
const pipeOf = (elbow: Elbow, given: Pipe | undefined): Pipe => {
  if (given !== undefined) {
    if (Math.abs(given.od - elbow.od) > 0.02 * elbow.od)
      throw requestError(
        'pipe',
        'other-size',
        say`${given.designation} is not the size of the ${nameElbow(elbow)}`,
        say`give the elbow’s own size, measured or with its schedule`,
      );
    return given;
  }
  const own = elbow.designation.replace(/^elbow /, '').replace(/ (LR|SR)/, '');
  // A sheet that follows the outside alone needs no wall: any that the elbow could have will do.
  return parsePipe(elbow.wall === undefined ? `${own} STD` : own, { path: 'elbow' });
};

/** A 90° elbow cut to an odd turn. */
export const elbowTrim = defineLayout({
  id: 'elbow-trim',
  summary: 'a 90° elbow trimmed to any smaller turn: heel, throat and side arcs, the cut, its new take-off',
  family: 'measured on the job',
  words: ['cut elbow', 'trimmed elbow', 'odd angle', 'take-off', 'take-out', 'heel', 'throat', 'elbow'],
  fields: {
    elbow: parsedField(
      'the elbow by ASME B16.9, long or short radius, with its schedule if its wall is to be printed',
      {
        kind: 'designation',
        symbol: 'ELBOW',
        example: 'NPS 8 LR',
        parse: (text, { units, path }) => parseElbow(text, { units, path }),
      },
    ),
    turn: angleField('change of direction it is to make', { example: '37', above: 0, below: 90 * DEGREE }),
    pipe: pipeField('the elbow as measured, where its girth differs from the table', {
      example: 'girth 690mm wall 8mm',
      optional: true,
    }),
    ...bandFields,
  },
  examples: [
    'elbow-trim --elbow "NPS 8 LR" --turn 37',
    'elbow-trim --elbow "DN 150 SR sch 40" --turn 22.5 --paper a4 -o trim.pdf',
  ],
  draw: ({ elbow, turn, pipe: given, ...rest }, setting) => {
    const pipe = pipeOf(elbow, given);
    const takeOff = elbow.bendRadius * Math.tan(turn / 2);
    return [elbowTrimSheet({ pipe, elbow, turn, takeOff, needed: 1, making: pickBand(rest) }, setting)];
  },
  results: ({ elbow, turn, pipe: given }) => {
    const radius = pipeOf(elbow, given).od / 2;
    const arc = (station: number): number => elbowArc(elbow.bendRadius, radius, turn, station);
    return {
      takeOff: elbow.bendRadius * Math.tan(turn / 2),
      heel: arc(0),
      side: arc(Math.PI / 2),
      throat: arc(Math.PI),
    };
  },
});
