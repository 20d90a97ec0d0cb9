import type { FitLine } from '../drawing/fit-up.ts';
import type { Fact, Table } from '../drawing/model.ts';
import { angleField } from '../fields/fields.ts';
import type { Mate } from '../geometry/mate.ts';
import { bevelFor, weldAt, weldLength } from '../geometry/weld-line.ts';
import { stationNumber } from '../stock/station.ts';
import type { Stock } from '../stock/stock.ts';
import { formatAngle } from '../units/angle.ts';
import { lengthOf } from '../units/quantity.ts';
import { bandLines, type BandPaper } from './band-paper.ts';
import { shown } from './measured.ts';
import { say } from '../words/say.ts';

const TURN = 2 * Math.PI;
const DEGREE = Math.PI / 180;

/** The groove a joint is to have, asked by every joint of two outsides. */
export const grooveField = angleField(
  'groove angle the weld is to have: adds the bevel from square at every station; it comes from a welding procedure',
  { example: '45deg', above: 0, below: 90 * DEGREE, optional: true },
);

/** A cut end whose weld is described. */
export interface WeldAsk {
  readonly stock: Stock;
  /** What the outside of the stock meets. */
  readonly mate: Mate;
  /** True where the planes it meets stand midway between two like ends: each takes half of angle and groove. */
  readonly mirrored?: boolean;
  readonly groove: number | undefined;
  /** The line that is drawn, where it is the outside's own. */
  readonly line?: FitLine['which'];
}

/** What is said of a weld: a table of angles, and figures. */
export interface WeldData {
  readonly tables: readonly Table[];
  readonly facts: readonly Fact[];
  readonly cautions: readonly string[];
}

const tenth = (angle: number): string => formatAngle(angle, 1);

interface Place {
  /** Angle between the two outsides, and between the stock's and what it is cut to. */
  readonly between: number;
  readonly own: number;
  readonly halved: boolean;
}

const placeAt = ({ stock, mate, mirrored = false }: WeldAsk, s: number): Place | undefined => {
  const met = weldAt(stock.outline, mate, s);
  if (!met) return undefined;
  const halved = mirrored && met.face.includes('plane');
  return { between: halved ? 2 * met.angle : met.angle, own: met.angle, halved };
};

/** The bevel from a square edge that leaves the groove; where it would be negative the square edge leaves more already. */
const bevelAt = ({ own, halved }: Place, groove: number): number =>
  bevelFor(own, halved ? groove / 2 : groove);

const extremes = (ask: WeldAsk, numbersFall: boolean): readonly Fact[] => {
  const { girth } = ask.stock;
  const places = Array.from({ length: 360 }, (_, i) => ({ i, place: placeAt(ask, (i * girth) / 360) }));
  const known = places.flatMap(({ i, place }) => (place ? [{ i, angle: place.between }] : []));
  const [first] = known;
  if (!first) return [];
  const least = known.reduce((best, one) => (one.angle < best.angle - 1e-9 ? one : best));
  const most = known.reduce((best, one) => (one.angle > best.angle + 1e-9 ? one : best));
  const tell = ({ i, angle }: typeof first): string =>
    say`${tenth(angle)} at ${stationNumber((((numbersFall ? 360 - i : i) % 360) * TURN) / 360)}`;
  return [
    [say`Surfaces, acute side`, tell(least)],
    [say`Surfaces, obtuse side`, tell(most)],
  ];
};

/**
 * Angles between the two outsides at every station, square to the weld line; the bevels that leave the groove, and the
 * length of the line.
 * @param numbersFall true where the stock's numbers run the other way round
 */
export const weldData = (ask: WeldAsk, paper: BandPaper, count: number, numbersFall = false): WeldData => {
  const { stock, mate, groove, line } = ask;
  const lines = bandLines(stock, count, paper, numbersFall).slice(0, -1);
  const length = weldLength(stock.outline, mate);
  const rows = lines.map(({ angle, label }) => {
    const place = placeAt(ask, ((numbersFall ? -angle : angle) / TURN) * stock.girth);
    const bevel = place && groove !== undefined ? bevelAt(place, groove) : undefined;
    return [
      label,
      place ? tenth(place.between) : '',
      ...(groove === undefined
        ? []
        : [bevel === undefined ? '' : bevel < 0.05 * DEGREE ? say`none` : tenth(bevel)]),
    ];
  });
  return {
    tables: [
      {
        title: say`For the weld: angle between the outside surfaces, square to the line`,
        goesAround: true,
        header: [say`Station`, say`surfaces`, ...(groove === undefined ? [] : [say`bevel from square`])],
        rows,
      },
    ],
    facts: [
      ...(length === undefined
        ? []
        : ([
            [
              say`Weld line, on the outside`,
              // A plate is laid out on its mean diameter: its drawn line is not the outside's.
              shown(
                lengthOf(length),
                line === undefined || paper.sides.kind === 'cut' ? undefined : { kind: 'rolled', line },
              ),
            ],
          ] as const)),
      ...extremes(ask, numbersFall),
      ...(groove === undefined ? [] : ([[say`Groove`, formatAngle(groove)]] as const)),
    ],
    cautions:
      groove === undefined
        ? []
        : [
            say`The groove, and so the bevel, comes from a welding procedure; how the weld is made is decided by the code and by qualified people.`,
          ],
  };
};
