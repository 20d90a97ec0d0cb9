import type { Sheet, Table } from '../../../drawing/model.ts';
import type { Values } from '../../../fields/field.ts';
import { lengthField, pipeField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { requestError } from '../../../issue.ts';
import { gapField } from '../../../sheets/contact.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { formatInches } from '../../../units/format.ts';
import { lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { makeupMarks } from './makeup-marks.ts';
import { type MadeRun, makeRun } from './makeup-solve.ts';
import { partsField, type PlacedPart } from './read-run.ts';

const fields = {
  run: lengthField(
    'length of the run as the drawing gives it, from the center, face or end of its first part to that of its last',
    { example: '2450mm', above: 0, max: 100_000 },
  ),
  start: partsField('what the run begins with', 'elbow NPS 6 LR'),
  between: partsField(
    'parts along the run in order: a comma where pipe stands between two, + where they are joined straight, at and a length where a part’s center is fixed',
    'tee NPS 6, valve 267mm',
  ),
  finish: partsField('what it ends with', 'flange NPS 6 class 150 weld-neck'),
  parts: partsField(
    'instead of start, between and finish: all parts in order',
    'elbow NPS 6 LR, tee NPS 6 at 48in, flange NPS 6 class 150 weld-neck',
  ),
  gap: { ...gapField, help: 'root gap at each butt weld' },
  gasket: lengthField(
    'thickness of each gasket; a run that begins or ends at a flange is measured to the face it bolts to',
    { default: '0mm', example: '1/8in', max: 50 },
  ),
  pipe: pipeField('the pipe, for the cut list', { example: 'NPS 6 sch 40', optional: true }),
} as const;

type MakeupValues = Values<typeof fields>;

const partsOf = ({ start, between, finish, parts }: MakeupValues): readonly PlacedPart[] => {
  const other = start ?? between ?? finish;
  if (parts !== undefined) {
    if (other !== undefined)
      throw requestError(
        'parts',
        'given-twice',
        say`parts and start, between or finish are both given`,
        say`give one way`,
      );
    return parts;
  }
  if (start === undefined || finish === undefined)
    throw requestError(
      start === undefined ? 'start' : 'finish',
      'missing',
      say`what the run ${start === undefined ? say`begins` : say`ends`} with is not given`,
      say`give start and finish, or all parts in order as parts`,
    );
  return [...start, ...(between ?? []), ...finish];
};

const solve = (values: MakeupValues): { readonly made: MadeRun; readonly parts: readonly PlacedPart[] } => {
  const { run, gap, gasket } = values;
  const parts = partsOf(values);
  return { made: makeRun({ run, parts, gap, gasket }), parts };
};

const POINTS = () =>
  ({ center: say`its center`, face: say`the face it bolts to`, end: say`its end` }) as const;

const sumTable = ({ items }: MadeRun): Table => {
  let part = 0;
  return {
    title: say`Along the run, from its start`,
    header: ['', say`what`, say`from`, say`length`],
    rows: items.map(({ kind, from, to, name }) => {
      if (kind === 'part') part += 1;
      return [
        kind === 'part' ? String(part) : kind === 'pipe' ? `P${name.replace('pipe ', '')}` : '',
        kind === 'pipe' ? say`pipe` : name,
        lengthOf(from),
        lengthOf(to - from),
      ];
    }),
  };
};

const sourceTable = (parts: readonly PlacedPart[]): Table => {
  const seen = new Map(parts.map(({ part }) => [part.designation, part]));
  return {
    title: say`Parts and where their lengths come from`,
    header: [say`part`, say`take-off`, say`from`],
    rows: [...seen.values()].map(({ designation, takeOff, source }) => [
      designation,
      lengthOf(takeOff),
      source === 'given' ? say`given` : source,
    ]),
  };
};

/** Says which lengths stand in no table that was at hand, and how the measured one is given. */
const fromMemory = (parts: readonly PlacedPart[], { units }: Setting): readonly string[] => {
  const names = parts.map(({ part }) => part).filter(({ source }) => source.includes(say`from memory`));
  const [first] = names;
  if (!first) return [];
  const list = [...new Set(names.map(({ designation }) => designation))].join(', ');
  const length =
    units === 'in' ? formatInches(first.takeOff).replace('″', 'in') : `${Math.round(first.takeOff)}mm`;
  return [
    say`From memory, no open table was at hand: ${list}. Measure the part and give what you measure: ${first.designation} length ${length}.`,
  ];
};

const drawSheet = (values: MakeupValues, setting: Setting): Sheet => {
  const { run, gap, gasket, pipe } = values;
  const { made, parts } = solve(values);
  const [first, last] = [parts[0], parts[parts.length - 1]] as [PlacedPart, PlacedPart];
  const total = made.pipes.reduce((sum, length) => sum + length, 0);
  return plateSheet({
    name: 'makeup',
    heading: say`Make-up of a run`,
    subject: [
      say`Run ${writeBoth(run, setting)}, from ${first.part.designation} (${POINTS()[first.part.point]}) to ${last.part.designation} (${POINTS()[last.part.point]})`,
      ...(pipe ? [say`Pipe ${pipe.designation}`] : []),
      gasket > 0
        ? say`Root gap ${writeBoth(gap, setting)} at each butt weld, gasket ${writeBoth(gasket, setting)} between faces`
        : say`Root gap ${writeBoth(gap, setting)} at each butt weld`,
      say`This picture is not to scale`,
    ],
    marks: makeupMarks(made, run, setting),
    steps: [
      say`Check the run on the drawing or by tape, between the points named above.`,
      say`Measure every fitting, flange and valve: write the length in where it differs from the table, and print again.`,
      say`Cut ${made.pipes.length === 1 ? say`one pipe` : say`${made.pipes.length} pipes`}, ends square: ${made.pipes.map((length, i) => `P${i + 1} ${writeBoth(length, setting)}`).join(', ')}.`,
      say`Bevel, set the root gaps, tack, and tape the run again before you weld out.`,
    ],
    facts: [
      [say`Run`, lengthOf(run)],
      ...made.pipes.map((length, i) => [say`P${i + 1}, square ends`, lengthOf(length)] as const),
      [say`Pipe in all`, lengthOf(total)],
    ],
    tables: [sumTable(made), sourceTable(parts)],
    cautions: [
      ...(made.sharesOut
        ? [
            say`No place was given for every part: the pipes between are cut alike. Write at and a length where a part has its place.`,
          ]
        : []),
      say`Measure the fittings: a center to end differs from the table by what its maker’s tolerance allows.`,
      ...fromMemory(parts, setting),
      ...(parts.some(({ part }) => part.kind === 'flange' && part.source.includes('B16.5'))
        ? [
            say`Tables of flanges differ in whether the raised face of 1/16 in (2 mm) is counted: measure the flange.`,
          ]
        : []),
      say`Pressure joints, gaps and welds are decided by the code that rules the line and by qualified people.`,
    ],
  });
};

/** Lengths as a cut list writes them, to 0.01 mm. */
const writeMm = (length: number): string => `${Number(length.toFixed(2))}mm`;

/** Cut lengths from a drawing: a run between two points, less what fittings, flanges, gaps and gaskets take. */
export const makeup = defineLayout({
  id: 'makeup',
  summary:
    'cut lengths of a run from a drawing: take-offs of fittings and flanges, gaps, gaskets, a cut list',
  family: 'measured on the job',
  words: ['cut length', 'take-off', 'take-out', 'center to face', 'spool', 'cut list', 'run'],
  fields,
  examples: [
    'makeup --run 2450mm --start "elbow NPS 6 LR" --finish "flange NPS 6 class 150 weld-neck" --between "tee NPS 6, valve 267mm" --gap 1/8in --gasket 1/8in',
    'makeup --run "12ft 4in" --parts "elbow NPS 4 LR, tee NPS 4 at 6ft, reducer NPS 4 x 3 + elbow NPS 3 LR 45" --gap 1/8in --pipe "NPS 4 sch 40"',
    'makeup --run 900mm --start "flange DN 50 class 150 socket" --finish "cap DN 50" --gap 3mm --gasket 3mm --pipe "DN 50 sch 40" -o run.pdf -o cuts.csv',
  ],
  draw: (values, setting) => [drawSheet(values, setting)],
  results: (values) => {
    const { made } = solve(values);
    return {
      pipes: made.pipes,
      items: made.items.map(({ kind, name, from, to }) => ({ kind, name, from, to })),
    };
  },
  cutList: (values) =>
    solve(values).made.pipes.map((length, i) => ({
      layout: 'piece',
      piece: `P${i + 1}`,
      pipe: values.pipe?.designation ?? '',
      start: 'square',
      finish: 'square',
      length: writeMm(length),
      between: 'overall',
    })),
});
