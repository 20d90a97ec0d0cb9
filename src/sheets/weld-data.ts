import type { FitLine } from '../drawing/fit-up.ts';
import type { Fact, Said, Table } from '../drawing/model.ts';
import { angleField } from '../fields/fields.ts';
import { DEGREE, TURN } from '../geometry/angle-units.ts';
import type { Mate } from '../geometry/mate.ts';
import { bevelFor, weldAt, weldLength, weldLengthOn, weldOn, type Side } from '../geometry/weld-line.ts';
import { stationNumber, stationOf } from '../stock/station.ts';
import type { Stock } from '../stock/stock.ts';
import { angleOf, lengthOf, type Quantity } from '../units/quantity.ts';
import { say } from '../words/say.ts';
import { bandLines, type BandPaper } from './band-paper.ts';
import { worded } from '../drawing/worded.ts';
import { shown } from './measured.ts';

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

/** Places around a weld at which its extremes are looked for. */
const AROUND = 360;

const tenth = (angle: number) => angleOf(angle, 1);

interface Place {
  /** Angle between the two outsides, and between the stock's and what it is cut to. */
  readonly between: number;
  readonly own: number;
  readonly halved: boolean;
}

/** A weld by shares of the way around: where its stations stand, the angles there, and the line's length, mm. */
interface Weld {
  readonly placeAt: (share: number) => Place | undefined;
  readonly stationAt: (share: number) => Quantity;
  readonly stations: readonly { readonly label: string; readonly share: number }[];
  readonly groove: number | undefined;
  /** Title of the table, and labels of the figures. */
  readonly title: string;
  readonly labels: { readonly least: string; readonly most: string; readonly even: string };
  readonly length: Fact | undefined;
}

/** The bevel from a square edge that leaves the groove; where it would be negative the square edge leaves more already. */
const bevelAt = ({ own, halved }: Place, groove: number): number =>
  bevelFor(own, halved ? groove / 2 : groove);

/** True where the surfaces stand no further apart than the groove: a bevel of 90° takes off the whole edge. */
const isTooTight = (bevel: number): boolean => bevel > 89.95 * DEGREE;

const sayBevel = (bevel: number): Said =>
  bevel < 0.05 * DEGREE ? say`none` : isTooTight(bevel) ? say`no room` : tenth(bevel);

/** The least and the greatest angle, or the one that it has all around. */
const extremes = ({
  placeAt,
  stationAt,
  labels,
  groove,
}: Weld): { facts: readonly Fact[]; isEven: boolean } => {
  const known = Array.from({ length: AROUND }, (_, i) => i / AROUND).flatMap((share) => {
    const place = placeAt(share);
    return place ? [{ share, place, angle: place.between }] : [];
  });
  const [first] = known;
  if (!first) return { facts: [], isEven: false };
  const least = known.reduce((best, one) => (one.angle < best.angle - 1e-9 ? one : best));
  const most = known.reduce((best, one) => (one.angle > best.angle + 1e-9 ? one : best));
  const tell = ({ share, angle }: typeof first): Said =>
    worded((value) => say`${value(tenth(angle))} at ${value(stationAt(share))}`);
  if (known.length === AROUND && most.angle - least.angle < 0.05 * DEGREE)
    return {
      isEven: true,
      facts: [
        [labels.even, tenth(first.angle)],
        ...(groove === undefined
          ? []
          : ([[say`Bevel from square, all around`, sayBevel(bevelAt(first.place, groove))]] as const)),
      ],
    };
  return {
    isEven: false,
    facts: [
      [labels.least, tell(least)],
      [labels.most, tell(most)],
    ],
  };
};

const describeWeld = (weld: Weld): WeldData => {
  const { placeAt, stations, groove, title, length } = weld;
  const { facts, isEven } = extremes(weld);
  const places = stations.map(({ label, share }) => {
    const place = placeAt(share);
    return { label, place, bevel: place && groove !== undefined ? bevelAt(place, groove) : undefined };
  });
  const rows = places.map(({ label, place, bevel }) => [
    label,
    place ? tenth(place.between) : '',
    ...(groove === undefined ? [] : [bevel === undefined ? '' : sayBevel(bevel)]),
  ]);
  const tight = places.some(({ bevel }) => bevel !== undefined && isTooTight(bevel));
  return {
    // A table of one angle says no more than its figure.
    tables: isEven
      ? []
      : [
          {
            title,
            goesAround: true,
            header: [say`Station`, say`surfaces`, ...(groove === undefined ? [] : [say`bevel from square`])],
            rows,
          },
        ],
    facts: [
      ...(length === undefined ? [] : [length]),
      ...facts,
      ...(groove === undefined ? [] : ([[say`Groove`, angleOf(groove)]] as const)),
    ],
    cautions:
      groove === undefined
        ? []
        : [
            say`The groove, and so the bevel, comes from a welding procedure; how the weld is made is decided by the code and by qualified people.`,
            ...(tight
              ? [
                  say`No room: there the outside surfaces stand no further apart than the groove, and no bevel from outside opens it.`,
                ]
              : []),
          ],
  };
};

/**
 * Angles between the two outsides at every station, square to the weld line; the bevels that leave the groove, and the
 * length of the line.
 * @param numbersFall true where the stock's numbers run the other way round
 */
export const weldData = (ask: WeldAsk, paper: BandPaper, count: number, numbersFall = false): WeldData => {
  const { stock, mate, mirrored = false, groove, line } = ask;
  const placeAt = (share: number): Place | undefined => {
    const met = weldAt(stock.outline, mate, share * stock.girth);
    if (!met) return undefined;
    const halved = mirrored && met.face.includes('plane');
    return { between: halved ? 2 * met.angle : met.angle, own: met.angle, halved };
  };
  const length = weldLength(stock.outline, mate);
  return describeWeld({
    placeAt,
    stationAt: (share) => stationOf((numbersFall ? 1 - share : share) * TURN),
    stations: bandLines(stock, count, paper, numbersFall)
      .slice(0, -1)
      .map(({ angle, label }) => ({ label, share: (numbersFall ? -angle : angle) / TURN })),
    groove,
    title: say`For the weld: angle between the outside surfaces, square to the line`,
    labels: {
      least: say`Surfaces, smallest angle`,
      most: say`Surfaces, largest angle`,
      even: say`Surfaces, all around`,
    },
    length:
      length === undefined
        ? undefined
        : [
            say`Weld line, on the outside`,
            // A plate is laid out on its mean diameter: its drawn line is not the outside's.
            shown(
              lengthOf(length),
              line === undefined || paper.sides.kind === 'cut' ? undefined : { kind: 'rolled', line },
            ),
          ],
  });
};

/** An end of a rolled part whose weld is described, by lines along its outside a share of the way around. */
export interface RolledWeldAsk {
  readonly end: 'large' | 'small';
  readonly sideAt: (share: number) => Side;
  readonly mate: Mate;
  /** Stations of the table, radians. */
  readonly stations: readonly number[];
  readonly groove: number | undefined;
}

/** The same for an end of a rolled part, such as a cone cut to a header. */
export const rolledWeldData = ({ end, sideAt, mate, stations, groove }: RolledWeldAsk): WeldData => {
  const length = weldLengthOn(sideAt, mate);
  const isLarge = end === 'large';
  return describeWeld({
    placeAt: (share) => {
      const met = weldOn(sideAt(share), mate);
      return met && { between: met.angle, own: met.angle, halved: false };
    },
    stationAt: (share) => stationOf(share * TURN),
    stations: stations.map((station) => ({ label: stationNumber(station), share: station / TURN })),
    groove,
    title: isLarge
      ? say`For the weld at the large end: angle between the outside surfaces, square to the line`
      : say`For the weld at the small end: angle between the outside surfaces, square to the line`,
    labels: isLarge
      ? {
          least: say`Surfaces at the large end, smallest angle`,
          most: say`Surfaces at the large end, largest angle`,
          even: say`Surfaces at the large end, all around`,
        }
      : {
          least: say`Surfaces at the small end, smallest angle`,
          most: say`Surfaces at the small end, largest angle`,
          even: say`Surfaces at the small end, all around`,
        },
    length:
      length === undefined
        ? undefined
        : [
            isLarge
              ? say`Weld line at the large end, on the outside`
              : say`Weld line at the small end, on the outside`,
            lengthOf(length),
          ],
  });
};
