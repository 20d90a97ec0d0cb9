import { boxesMeet } from '../../../drawing/clear.ts';
import { markBounds } from '../../../drawing/extent.ts';
import type { FitLine } from '../../../drawing/fit-up.ts';
import { textWidth } from '../../../drawing/lettering.ts';
import type { Measured } from '../../../drawing/measured.ts';
import type { Fact, Mark, Picture, Sheet } from '../../../drawing/model.ts';
import { bigWord } from '../../../drawing/scrap.ts';
import { cubicPath, MEDIUM, NARROW, ruleLine, stroke, WIDE } from '../../../drawing/paths.ts';
import { modulo, TURN } from '../../../geometry/angle-units.ts';
import { moveLine } from '../../../geometry/line.ts';
import { checkSize } from '../../../geometry/size-limit.ts';
import { developGore, goreLengths } from '../../../geometry/turn.ts';
import { add3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import { moveSolid } from '../../../joint/move-solid.ts';
import { type CutEdge, edgeRange, type Strip } from '../../../sheets/band-edges.ts';
import { countStations } from '../../../sheets/band-fields.ts';
import { bandBounds, drawPaper, type FlatBand } from '../../../sheets/band-marks.ts';
import { bandLines, bandPaper, type BandPaper, stationLines, WRAPPED } from '../../../sheets/band-paper.ts';
import { bandSheet } from '../../../sheets/band-sheet.ts';
import { paperEdge } from '../../../sheets/cut-band.ts';
import { apart, ORIGIN, shown, taken, uprightAt } from '../../../sheets/measured.ts';
import { drawStations } from '../../../sheets/station-marks.ts';
import { stationNumber } from '../../../stock/station.ts';
import type { Stock } from '../../../stock/stock.ts';
import { lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say, translateName } from '../../../words/say.ts';
import { type Nested, nestGores, nestPicture, sawCuts } from './nest-plan.ts';
import { GORE_WORDS, goreLines } from './turn-gore.ts';
import { adviceTables, describeTurn, goreTable, turnCautions, type TurnRequest } from './turn-request.ts';

const raise = (edge: CutEdge, by: number): CutEdge => ({
  line: moveLine(edge.line, 0, by),
  at: (x) => edge.at(x) + by,
});

/** Whether two gores share the line between them: without a kerf, unless each keeps clear of the cut where its inside touches. */
const sharesLines = ({ kerf, contact }: Pick<TurnRequest, 'kerf' | 'contact'>): boolean =>
  kerf === 0 && contact !== 'wall';

/** Every line across the pipe, from the top, and what it must touch. */
const nestLines = (request: TurnRequest, places: readonly Nested[]): readonly FitLine[] =>
  [...places]
    .reverse()
    .flatMap(({ gore, turned, middle }) => {
      const direction = ({ x, y, z }: Vec3): Vec3 => (turned ? vec3(-x, -y, z) : vec3(x, y, z));
      const point = (p: Vec3): Vec3 => add3(direction(p), vec3(0, 0, middle));
      const lines = goreLines(request, gore).map((line) => ({
        ...line,
        solids: line.solids.map((solid) => moveSolid(solid, { point, direction })),
      }));
      return sharesLines(request) && gore.number > 1 ? lines.slice(0, 1) : lines;
    })
    .map((line, i) => ({ ...line, which: i + 1 }));

/** The sheet of all gores on one straight pipe. Sheet y = 0 at the pipe's square end, x = 0 at the first gore's throat. */
export const nestSheet = (request: TurnRequest, inPlace: Picture | undefined, setting: Setting): Sheet => {
  const { stock, gores, kerf, contact, gap, making } = request;
  const { places, length } = nestGores(request);
  const shares = sharesLines(request);
  const paper = bandPaper(stock, making.seam, setting);
  const [from, to] = [paper.from, paper.from + paper.girth];
  const stationsOf = bandLines(stock, countStations(making), paper);
  /** What a line is called on a gore, whose own station 0 is its throat. */
  const ownLabel = (angle: number): string =>
    stock.kind === 'pipe'
      ? stationNumber(angle)
      : (stationsOf.find((line) => Math.abs(Math.sin((line.angle - angle) / 2)) < 1e-9)?.label ?? '');
  const strips = places.map(({ gore, turned, middle }): Strip => {
    const shift = turned ? Math.PI : 0;
    const seam = ((paper.seam - shift) / (2 * Math.PI)) * stock.girth;
    const lines = developGore(stock.outline, gore, contact, gap, seam);
    const edge = (which: 'upper' | 'lower'): CutEdge => {
      const own = paperEdge(lines[which], paper);
      const half = turned ? paper.girth / 2 : 0;
      return raise({ line: moveLine(own.line, half, 0), at: (x) => own.at(x - half) }, middle);
    };
    const [upper, lower] = [edge('upper'), edge('lower')];
    const stations = stationLines(
      paper,
      stationsOf,
      setting,
      (quarter) => GORE_WORDS()[turned ? (quarter + 2) % 4 : quarter] ?? '',
      (angle) => upper.at(paper.xAt(angle)) - middle,
      (angle) => middle - lower.at(paper.xAt(angle)),
    ).map((station, i) => ({ ...station, label: ownLabel((stationsOf[i]?.angle ?? 0) - shift) }));
    return { from, to, reference: middle, upper, lower, shared: true, stations };
  });
  const whole: FlatBand = { from, to, reference: 0, top: length, sides: paper.sides, stations: [] };
  checkSize(bandBounds(whole));
  const marks: Mark[] = [
    ...drawPaper(whole),
    ruleLine('reference', { x: from, y: 0 }, { x: to, y: 0 }, MEDIUM),
    ...strips.flatMap((strip, i) => drawStrip(strip, i, shares)),
  ];
  return bandSheet(
    {
      name: 'nested gores',
      heading: say`Gores nested on one ${stock.kind === 'pipe' ? say`pipe` : say`length`}`,
      stock,
      band: { paper, marks, bounds: bandBounds(whole) },
      making: WRAPPED,
      ...describeTurn(request, setting),
      contact,
      lines: nestLines(request, places),
      before: [
        say`Take a straight ${stock.kind === 'pipe' ? say`pipe` : say`length`}, ${writeBoth(length, setting)} at least, its lower end cut square.`,
      ],
      wrap: say`Wrap it printed side out, lower edge on the square end, until that edge meets itself. Number the gores on the steel with an arrow up, mark the throat and heel lines.`,
      line: shares ? say`cut lines` : say`two lines of each cut`,
      after: [say`${howToCut(request)}, then rotate every other gore 180°: throat to throat, heel to heel.`],
      facts: [
        [
          stock.kind === 'pipe' ? say`Pipe it takes` : say`Length it takes`,
          shown(lengthOf(length), contact === 'od' ? { kind: 'height', end: 'high' } : undefined),
        ],
        [
          say`Center lines in all`,
          lengthOf(gores.reduce((sum, gore) => sum + goreLengths(gore, gap).centre, 0)),
        ],
        [say`Saw kerf, square to the blade`, lengthOf(kerf)],
        weldFact(stock, [TURN / 4, (3 * TURN) / 4].map(ownLabel)),
      ],
      tables: [
        // A saw cuts a plane, and only the outside's lines lie in one.
        ...(contact === 'od' ? [sawCuts(request, onQuarter(paper))] : []),
        goreTable(request),
        ...adviceTables(request, setting),
      ],
      pictures: [nestPicture(request, setting), ...(inPlace ? [inPlace] : [])],
      cautions: turnCautions(request, setting),
    },
    setting,
  );
};

/** How two gores are parted. A saw cuts a plane: lines that lie in none are cut one by one. */
const howToCut = (request: TurnRequest): string => {
  if (sharesLines(request)) return say`Cut`;
  return request.contact === 'od'
    ? say`Saw between the two lines of each cut`
    : say`Cut on both lines of each cut, square to the surface`;
};

/** Where a weld along one side of the stock comes to lie on the gores, every other one of which is rotated. */
const weldFact = ({ kind }: Stock, [one = '', other = '']: readonly string[]): Fact =>
  kind === 'pipe'
    ? [say`A weld along the pipe at station 90`, say`falls on 90 and 270 in turn`]
    : [
        say`A weld along the length at ${translateName(one)}`,
        say`falls on ${translateName(one)} and ${translateName(other)} in turn`,
      ];

/** How a height above the square end, so far over a cut line, is measured on a quarter line. */
const onQuarter =
  (paper: BandPaper) =>
  (quarter: 0 | 1 | 2, height: number, under: number): Measured => {
    const x = paper.from + modulo(paper.xAt((quarter * Math.PI) / 2) - paper.from, paper.girth);
    return taken(apart(ORIGIN, uprightAt('cut', x, height), 'y'), 1, under);
  };

/** A gore's name beside its heel, where there is most room, clear of the quarter lines and the seams, as large as goes in. */
const nameGore = (strip: Strip, text: string): readonly Mark[] => {
  const { from, to, reference, upper, lower, stations } = strip;
  const heel = stations.find(({ word }) => word === GORE_WORDS()[2])?.x ?? (from + to) / 2;
  const apart = (to - from) / 16;
  const half = (height: number): number => textWidth(text, height, true) / 2 + 1;
  const spots = [heel + apart, heel - apart, heel];
  const heights = to - from < 400 ? [3.5, 2.5] : [5, 3.5, 2.5];
  const tried = heights.flatMap((height) =>
    spots
      .filter((x) => x - half(height) > from && x + half(height) < to)
      .flatMap((x) => {
        const ground = lower ? edgeRange(strip, lower, x, half(height))[1] : 0;
        const ceiling = upper ? edgeRange(strip, upper, x, half(height))[0] : Infinity;
        return [
          { at: { x, y: (reference + ground) / 2 }, room: reference - ground, height },
          { at: { x, y: (reference + ceiling) / 2 }, room: ceiling - reference, height },
        ];
      }),
  );
  const found = tried.find(({ room, height }) => room > height + 3);
  return found ? bigWord(found.at, text, found.height) : [];
};

const drawStrip = (strip: Strip, i: number, shares: boolean): Mark[] => {
  const { from, to, reference, upper, lower } = strip;
  const cuts: Mark[] = [];
  if (lower && (i === 0 || !shares)) cuts.push(stroke('cut', cubicPath(lower.line), WIDE));
  if (upper) cuts.push(stroke('cut', cubicPath(upper.line), WIDE));
  const word = nameGore(strip, say`▲ GORE ${i + 1}`);
  // On a short gore the name wins over an ordinate, which the gore's own sheet has too.
  const clear = (mark: Mark): boolean =>
    mark.kind !== 'text' || !word.some((other) => boxesMeet(markBounds(mark), markBounds(other)));
  return [
    ruleLine('reference', { x: from, y: reference }, { x: to, y: reference }, NARROW),
    ...drawStations(strip, reference).filter(clear),
    ...cuts,
    ...word,
  ];
};
