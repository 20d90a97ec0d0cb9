import type { Measured } from '../../../drawing/measured.ts';
import type { Fact, Picture, Sheet, Table } from '../../../drawing/model.ts';
import type { Values } from '../../../fields/field.ts';
import { angleField, lengthField, numberField, stockField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { spacePointsField } from '../../../fields/points.ts';
import { DEGREE, modulo, TURN } from '../../../geometry/angle-units.ts';
import { requestError } from '../../../issue.ts';
import { bandFields, countStations, pickBand } from '../../../sheets/band-fields.ts';
import { drawBandMarks } from '../../../sheets/band-marks.ts';
import { bandLines, bandPaper, stationLines } from '../../../sheets/band-paper.ts';
import { bandSheet } from '../../../sheets/band-sheet.ts';
import { CHECK_PRINT, describeStock } from '../../../sheets/band-words.ts';
import { endPicture } from '../../../sheets/end-picture.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { apart, endAt, levelAt, shown, taken } from '../../../sheets/measured.ts';
import { stationNumber } from '../../../stock/station.ts';
import { stockReach } from '../../../stock/stock.ts';
import { writeAngle } from '../../../units/angle.ts';
import { angleOf, countOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { bentPicture, stripFigures, stripMarks } from './bends-marks.ts';
import { solveBends, type SolvedBends } from './bends-solve.ts';

const fields = {
  stock: stockField('the pipe or tube that is bent', {
    example: 'NPS 2 sch 40',
    kinds: ['pipe', 'tube', 'oval'],
    aliases: ['pipe'],
  }),
  points: spacePointsField('the center line: start, corners in order, finish, or a CSV file of them', {
    example: '0mm,0mm,0mm; 0mm,0mm,600mm; 400mm,0mm,600mm; 400mm,300mm,600mm',
    least: 3,
    optional: true,
  }),
  legs: lengthField('instead of points, lengths from corner to corner', {
    example: '600mm,400mm,300mm',
    above: 0,
    list: true,
    optional: true,
  }),
  turns: angleField('with legs, the change of direction at each corner', {
    example: '90,90',
    above: 0,
    below: 180 * DEGREE,
    list: true,
    optional: true,
  }),
  rolls: angleField(
    'with legs, how far each bend is rolled from the one before, clockwise looking along from the start; left out, 0',
    { example: '90', list: true, optional: true },
  ),
  radius: lengthField('bend radius on the center line', { example: '152mm', above: 0, max: 20_000 }),
  stretch: numberField('percent of an arc that the bend draws out of the stock; try your machine', {
    default: '0',
    example: '2',
    min: 0,
    max: 30,
  }),
  springback: numberField('percent of the angle bent to that springs back; try your machine', {
    default: '0',
    example: '3',
    min: 0,
    max: 30,
  }),
  least: lengthField(
    'least straight your machine needs between two bends, and before the first and after the last',
    { default: '0mm', example: '100mm', max: 5000 },
  ),
  ...bandFields,
  // Station 0 is the first bend's own line: it stands in the middle of the band.
  seam: { ...bandFields.seam, default: '180' },
} as const;

type BendsValues = Values<typeof fields>;

const solve = ({ points, legs, turns, rolls, radius, stretch, springback }: BendsValues): SolvedBends =>
  solveBends({ points, legs, turns, rolls, radius, stretch: stretch / 100, springback: springback / 100 });

/** Height of the band of rotations, mm. */
const BAND = 70;

const rollWords = (roll: number): string =>
  Math.abs(roll) < 1e-9
    ? '0°'
    : `${writeAngle(Math.abs(roll))} ${roll > 0 ? say`clockwise` : say`counter-clockwise`}`;

/** The strip's end, and where on it a bend begins or ends. */
const START = endAt('cut', 0, 0);
const onStrip = (x: number) => endAt('bend', x, 0);

/** How the strip shows the bends: from its start, and by the lengths of the arcs; `throats` are shown by the band. */
interface ShownBends {
  readonly along?: (x: number) => Measured;
  readonly turn?: (from: number, to: number) => Measured;
  readonly throat?: (angle: number) => Measured | undefined;
}

const stripShows = ({ radius, stretch }: BendsValues): ShownBends => ({
  along: (x) => apart(START, onStrip(x), 'x'),
  turn: (from, to) => taken(apart(onStrip(from), onStrip(to), 'x'), 1 / (radius * (1 - stretch / 100))),
});

const bendTable = ({ line, layout }: SolvedBends, shows: ShownBends): Table => ({
  title: say`Bends in order, along from the start end`,
  header: [
    say`Bend`,
    say`begins`,
    say`ends`,
    say`turn`,
    say`bend to`,
    ...(layout.marks.length > 1 ? [say`roll from the last`] : []),
    say`throat at`,
  ],
  rows: layout.marks.map(({ from, to, bendTo, throat }, i) => [
    `B${i + 1}`,
    shown(lengthOf(from), shows.along?.(from)),
    shown(lengthOf(to), shows.along?.(to)),
    shown(angleOf(line.bends[i]?.turn ?? 0), shows.turn?.(from, to)),
    writeAngle(bendTo),
    ...(layout.marks.length > 1 ? [i === 0 ? '' : rollWords(line.bends[i]?.roll ?? 0)] : []),
    shown(angleOf(throat), shows.throat?.(throat)),
  ]),
});

const straightTable = ({ line, layout }: SolvedBends, { stretch }: BendsValues): Table => ({
  title: say`Straights and arcs on the center line`,
  header: ['', say`straight before`, say`arc`],
  rows: line.straights.map((straight, i) => {
    const [bend, mark] = [line.bends[i], layout.marks[i]];
    const before = layout.marks[i - 1];
    const from = before ? onStrip(before.to) : START;
    const to = mark ? onStrip(mark.from) : endAt('cut', layout.cutLength, 0);
    const arc = mark && taken(apart(onStrip(mark.from), onStrip(mark.to), 'x'), 1 / (1 - stretch / 100));
    return [
      bend ? `B${i + 1}` : say`finish`,
      shown(lengthOf(straight), apart(from, to, 'x')),
      bend ? shown(lengthOf(bend.arc), arc) : '',
    ];
  }),
});

/** Straights shorter than the machine needs, in words. */
const shortStraights = ({ line }: SolvedBends, least: number, setting: Setting): readonly string[] =>
  line.straights.flatMap((straight, i) => {
    if (straight >= least - 1e-9) return [];
    const where =
      i === 0
        ? say`before B1`
        : i === line.bends.length
          ? say`after B${i}`
          : say`between B${i} and B${i + 1}`;
    return [
      say`The straight ${where} is ${writeBoth(straight, setting)}, less than the ${writeBoth(least, setting)} your machine needs: move the corners, or bend it in another way.`,
    ];
  });

/** Figures of both sheets; `cut` measures the cut length where it is drawn. */
const sharedFacts = ({ line, layout }: SolvedBends, radius: number, cut?: Measured): readonly Fact[] => [
  [say`Cut length`, shown(lengthOf(layout.cutLength), cut)],
  [
    say`Center line, start to finish`,
    shown(lengthOf(line.length), Math.abs(line.length - layout.cutLength) < 1e-9 ? cut : undefined),
  ],
  [say`Bend radius on the center line`, lengthOf(radius)],
  [say`Bends`, countOf(line.bends.length)],
];

/** How the stock is turned from bend to bend: by the band around a pipe, by the table where there is none. */
const turnSteps = ({ stock }: BendsValues, { line }: SolvedBends): readonly string[] => {
  if (line.bends.length === 1) return [];
  return [
    stock.kind === 'pipe'
      ? say`Turn the stock for each bend by the bend rotations sheet: the throat stands at its line.`
      : say`Turn the stock for each bend by the table: roll it so far from the bend before.`,
  ];
};

const stripSheet = (values: BendsValues, solved: SolvedBends, setting: Setting): Sheet => {
  const { stock, radius, least, stretch, springback } = values;
  const tight = radius < 1.5 * 2 * stockReach(stock);
  return plateSheet({
    name: 'bend strip',
    heading: say`Bends along the stock`,
    subject: [
      solved.line.bends.length === 1
        ? say`One bend of ${writeBoth(radius, setting)} radius, cut ${writeBoth(solved.layout.cutLength, setting)}`
        : say`${solved.line.bends.length} bends of ${writeBoth(radius, setting)} radius, cut ${writeBoth(solved.layout.cutLength, setting)}`,
      describeStock(stock, setting),
      say`Stretch ${stretch} %, springback ${springback} %`,
    ],
    marks: stripMarks(solved, setting),
    fit: fitFlat(stripFigures(solved)),
    steps: [
      CHECK_PRINT(),
      say`Cut the stock ${writeBoth(solved.layout.cutLength, setting)} long, ends square${stretch === 0 ? say`; leave some over until you know your machine’s stretch` : ''}.`,
      say`Strike one line along it: the throat of bend B1. Lay the strip along it, START at the start end.`,
      say`Mark where each bend begins and ends. Carry the marks around.`,
      ...turnSteps(values, solved),
      solved.line.bends.length === 1
        ? say`Bend it to the angle in the table; check the angle after it has sprung back.`
        : say`Bend from the start end, each to the angle in the table; check the angle after it has sprung back.`,
    ],
    facts: sharedFacts(solved, radius, apart(START, endAt('cut', solved.layout.cutLength, 0))),
    tables: [bendTable(solved, stripShows(values)), straightTable(solved, values)],
    pictures: [bentPicture(solved)],
    cautions: [
      ...shortStraights(solved, least, setting),
      ...(tight
        ? [
            say`The radius is under one and a half outside diameters: bend a trial piece, and look for wrinkles and a thin back.`,
          ]
        : []),
      say`Stretch and springback come from your own machine and stock: bend a trial piece first.`,
      say`How thin or oval a bend of pressure piping may become is decided by the code and by qualified people.`,
    ],
  });
};

/** The start end with the bends whose throats stand at each place around it. */
const throatPicture = (stock: BendsValues['stock'], { layout }: SolvedBends): Picture => {
  const near = 8 * DEGREE;
  const quarterOf = (throat: number): number | undefined => {
    const quarter = Math.round(throat / (TURN / 4));
    return Math.abs(throat - (quarter * TURN) / 4) < near ? quarter % 4 : undefined;
  };
  const named = layout.marks.map(({ throat }, i) => ({
    throat,
    name: `B${i + 1}`,
    quarter: quarterOf(throat),
  }));
  const words = [0, 1, 2, 3].map((quarter) =>
    named
      .filter((bend) => bend.quarter === quarter)
      .map(({ name }) => name)
      .join(' '),
  );
  // Bends close to one another share a label.
  const others = named.filter(({ quarter }) => quarter === undefined);
  const shared = others.filter(({ throat }, i) =>
    others.slice(0, i).every((before) => Math.abs(before.throat - throat) > near),
  );
  return endPicture(
    say`Facing the start end: throats`,
    stock,
    words,
    shared.map(({ throat }) => ({
      angle: throat,
      text: others
        .filter((bend) => Math.abs(bend.throat - throat) <= near)
        .map(({ name }) => name)
        .join(' '),
    })),
  );
};

const rotationSheet = (values: BendsValues, solved: SolvedBends, setting: Setting): Sheet => {
  const { stock, radius } = values;
  const making = pickBand(values);
  const paper = bandPaper(stock, making.seam, setting, making);
  const lines = bandLines(stock, countStations(making), paper);
  const place = (angle: number): number => making.seam + modulo(angle - making.seam, TURN);
  const labels = solved.layout.marks.map(({ throat }, i) => ({
    x: paper.xAt(place(throat)),
    text: `B${i + 1} ${stationNumber(Math.round(throat / DEGREE / 0.01) * 0.01 * DEGREE)}`,
  }));
  /** From the line of station 0 around to a throat's, by the band's top where no number stands. */
  const throat = (angle: number): Measured | undefined =>
    stock.kind !== 'pipe'
      ? undefined
      : taken(
          apart(
            levelAt('station', paper.xAt(place(0)), BAND - 4),
            levelAt('station', paper.xAt(place(angle)), BAND - 4),
            'onward',
          ),
          TURN / stock.girth,
        );
  const { marks, bounds } = drawBandMarks({
    from: paper.from,
    to: paper.from + paper.girth,
    reference: 0,
    top: BAND,
    sides: paper.sides,
    stations: stationLines(paper, lines, setting, () => ''),
    labels,
  });
  return bandSheet(
    {
      name: 'bend rotations',
      heading: say`Bend rotations`,
      stock,
      band: { paper, marks, bounds },
      making,
      about: [say`Where the throat of each bend stands around the stock`],
      cut: say`Stations rise counter-clockwise seen facing the start end; B1 stands at 0`,
      lines: [],
      wrap: say`Wrap it around the start end printed side out, numbers toward that end, 0 on the line you struck, until each long edge meets itself.`,
      line: say`bend lines`,
      after: [
        say`Leave it on: turn the stock in the machine until the line of the bend stands at the throat.`,
      ],
      facts: sharedFacts(solved, radius),
      tables: [bendTable(solved, { throat })],
      pictures: [bentPicture(solved), throatPicture(stock, solved)],
    },
    setting,
  );
};

/** Pipe and tube bent on a machine or by hand, from the corners of its center line. */
export const bends = defineLayout({
  id: 'bends',
  summary: 'cut length, bend marks and rotations for bent pipe and tube, from the corners of its center line',
  family: 'measured on the job',
  words: [
    'bend',
    'bent pipe',
    'tube bending',
    'conduit',
    'rotation',
    'springback',
    'saddle bend',
    'offset bend',
  ],
  fields,
  sheets: ['bend strip', 'bend rotations'],
  examples: [
    'bends --stock "NPS 2 sch 40" --points "0in,0in,0in; 0in,0in,24in; 16in,0in,24in; 16in,12in,24in" --radius 6in',
    'bends --stock "DN 50 sch 40" --legs 600mm,400mm,300mm --turns 90,45 --rolls 90 --radius 152mm --springback 3',
    'bends --stock "tube 40x40x3mm" --legs 500mm,500mm --turns 60 --radius 120mm -o bent.pdf',
  ],
  draw: (values, setting) => {
    if (values.madeFrom === 'plate')
      throw requestError('made-from', 'not-plate', say`a pipe is bent, not plate`, say`leave made-from out`);
    const solved = solve(values);
    const strip = stripSheet(values, solved, setting);
    return values.stock.kind === 'pipe' ? [strip, rotationSheet(values, solved, setting)] : [strip];
  },
  results: (values) => {
    const { line, layout } = solve(values);
    return {
      cutLength: layout.cutLength,
      bends: layout.marks.map((mark, i) => ({
        ...mark,
        turn: line.bends[i]?.turn,
        roll: line.bends[i]?.roll,
        arc: line.bends[i]?.arc,
      })),
      straights: line.straights,
    };
  },
});
