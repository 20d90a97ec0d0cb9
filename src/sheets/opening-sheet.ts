import type { FitLine } from '../drawing/fit-up.ts';
import type { Fact, Picture, Sheet } from '../drawing/model.ts';
import { lineExtent } from '../geometry/cubic.ts';
import { lowest } from '../geometry/halving.ts';
import { traceOpening, type Opening } from '../geometry/opening.ts';
import { dot3, length3, scale3, sub3, type Vec3 } from '../geometry/vector.ts';
import { jointError } from '../issue.ts';
import type { OpeningGround, QuarterWords } from '../joint/bodies/body.ts';
import { moveSolid } from '../joint/move-solid.ts';
import { solidMate } from '../joint/solid-mate.ts';
import type { Solid } from '../joint/solid.ts';
import { told } from '../units/format.ts';
import { areaOf, lengthOf, massOf } from '../units/quantity.ts';
import type { Setting } from '../units/setting.ts';
import { writeBoth } from '../units/writing.ts';
import { say } from '../words/say.ts';
import { CHECK_PRINT, describePaper } from './band-words.ts';
import { fitFlat } from './fit-record.ts';
import { ORIGIN, apart, rise, shown, uprightAt, widthOf } from './measured.ts';
import { drawOpening, openingTable, type TapeLine } from './opening-marks.ts';
import { STEEL } from './plate-mass.ts';

/** What goes through the opening. */
export interface OpeningAsk {
  /** What the opening follows, in the branch's frame. */
  readonly through: Solid;
  /** True where the whole wall must clear it. */
  readonly clears: boolean;
  /** Where a line along the branch, within its section, meets the outside, in the branch's frame. */
  readonly pierce: Vec3;
}

/** The position on a skin whose line passes nearest to a point. */
export const positionOf = ({ skin, facing }: Pick<OpeningGround, 'skin' | 'facing'>, p: Vec3): number => {
  const gap = (s: number): number => {
    const { outside: origin, direction } = skin.layers(s);
    const from = sub3(p, origin);
    return length3(sub3(from, scale3(direction, dot3(from, direction))));
  };
  const STEPS = 400;
  const step = (facing[1] - facing[0]) / STEPS;
  let best = facing[0];
  for (let i = 1; i <= STEPS; i++) if (gap(facing[0] + i * step) < gap(best)) best = facing[0] + i * step;
  return lowest(gap, best - step, best + step, 40);
};

/** The opening on a body's ground, its line already as it lies on the paper. Throws a `joint` UserError where it runs past the side. */
export const traceOpeningOn = (ground: OpeningGround, ask: OpeningAsk): Opening => {
  const opening = traceBetween(ground, ask, ground.facing);
  // An opening may well end in a straight side, but not where the part that faces the branch does.
  const tip = Math.max(
    0,
    ...[opening.from, opening.to]
      .filter((s) => ground.facing.includes(s))
      .map((s) => Math.abs(opening.upper(s) - opening.lower(s))),
  );
  if (tip > 0.01)
    throw jointError(
      'branch',
      'opening-past-side',
      say`the opening runs ${told(tip)} wide past the side of ${ground.name}`,
      say`choose a smaller branch or a smaller offset`,
    );
  return opening;
};

/** The opening as far as it lies between two positions that face the branch. */
export const traceBetween = (
  { local, skin, facing, place }: OpeningGround,
  { through, clears, pierce }: OpeningAsk,
  between: readonly [number, number],
): Opening => {
  const body = solidMate(moveSolid(through, local));
  const centre = positionOf({ skin, facing }, local.point(pierce));
  const opening = traceOpening({ ...skin, flat: place }, body, clears, centre, between);
  if (!opening) throw new Error('the branch axis misses the body it was placed on');
  return opening;
};

/** What every opening's sheet warns of. */
export const openingCautions = (name: string): readonly string[] => [
  say`An opening takes strength from ${name}: a qualified person checks the reinforcement it needs.`,
  say`Do not open a line or vessel that has held anything that burns until it is purged and tested safe.`,
];

/** What is an opening sheet's own. */
export interface OpeningSheet {
  readonly name: string;
  readonly heading: string;
  readonly ground: OpeningGround;
  readonly ask: OpeningAsk;
  readonly words: QuarterWords;
  /** Stations of the branch toward the top, right, bottom and left of the sheet, where they are not its quarters. */
  readonly numbers?: QuarterWords;
  readonly about: readonly string[];
  /** How the 0° line is found, where that is not as the ground says. */
  readonly strike?: string;
  /** How the sheet is turned: what its upper end looks to. */
  readonly upper: string;
  readonly after: readonly string[];
  readonly facts?: readonly Fact[];
  readonly pictures: readonly Picture[];
}

const fitOpening = (
  ground: OpeningGround,
  { through, clears }: OpeningAsk,
  lines: readonly TapeLine[],
): Pick<Sheet, 'fit'> => {
  // Where the sheet cannot be laid back simply, its lines across the opening are measured on the flat.
  if (ground.back === undefined)
    return {
      fit: fitFlat({
        circles: [],
        points: [],
        lines: lines.slice(1, -1).map(({ s, lower, upper }) => ({
          from: ground.place(s, lower),
          to: ground.place(s, upper),
          role: 'station',
        })),
      }),
    };
  const line: FitLine = {
    which: 'closed',
    contact: clears ? 'wall' : 'od',
    gap: 0,
    solids: [moveSolid(through, ground.back.local)],
  };
  return { fit: { lay: ground.back.lay, wall: ground.skin.wall, lines: [line] } };
};

/**
 * Area of the opening on the outside, and the mass of what drops out where it is cut square to the surface: a wall bent to
 * a radius is that much narrower inside.
 */
const dropFacts = ({ skin, girth }: OpeningGround, opening: Opening): readonly Fact[] => {
  const [middle, half] = [(opening.from + opening.to) / 2, (opening.to - opening.from) / 2];
  const COUNT = 240;
  // By the sine of an angle the ends of the opening are as smooth as its middle.
  const area = Array.from({ length: COUNT }, (_, i) => {
    const turn = (Math.PI * (i + 0.5)) / COUNT - Math.PI / 2;
    const s = middle + half * Math.sin(turn);
    return (opening.upper(s) - opening.lower(s)) * half * Math.cos(turn) * (Math.PI / COUNT);
  }).reduce((sum, part) => sum + part, 0);
  const bent = girth === undefined ? 1 : 1 - (Math.PI * skin.wall) / girth;
  return [
    [say`Area of the opening`, shown(areaOf(area), { kind: 'area', line: 'closed' })],
    ...(skin.wall > 0
      ? ([[say`Mass of the drop, in steel`, massOf(area * skin.wall * bent * STEEL)]] as const)
      : []),
  ];
};

/** The lengths an opening is checked by, from the curve itself. */
const openingFacts = (ground: OpeningGround, opening: Opening): readonly Fact[] => {
  if (!ground.parallel) {
    const at = ground.middle;
    // An opening to one side of the 0° line has no length along it.
    if (!(opening.from < at && at < opening.to)) return [];
    return [[say`Opening along the 0° line`, lengthOf(opening.upper(at) - opening.lower(at))]];
  }
  const { minY, maxY } = lineExtent(opening.line);
  const flat = ground.girth === undefined;
  return [
    [say`Opening along ${ground.name}`, shown(lengthOf(maxY - minY), rise('closed'))],
    [
      say`Opening ${flat ? say`across` : say`around`} ${ground.name}`,
      shown(lengthOf(opening.to - opening.from), widthOf(flat ? 'x' : 'around', 'closed')),
    ],
    ...dropFacts(ground, opening),
  ];
};

/** The sheet of an opening in a body that lies flat: what all of them say, and what is this one's own. */
export const openingSheet = (own: OpeningSheet, setting: Setting): Sheet => {
  const { ground, ask } = own;
  const opening = traceOpeningOn(ground, ask);
  const bare = ground.name.replace('the ', '');
  const { marks, bounds, reference, lines } = drawOpening(
    opening,
    opening.line,
    ground,
    own.words,
    bare,
    setting,
    own.numbers,
  );
  const girth: readonly Fact[] =
    ground.girth === undefined ? [] : [[say`Circumference (tape check)`, lengthOf(ground.girth)]];
  return {
    name: own.name,
    heading: own.heading,
    subject: [...own.about, describePaper(setting)],
    marks,
    bounds,
    ...fitOpening(ground, ask, lines),
    steps: [
      CHECK_PRINT(),
      ...(ground.girth === undefined
        ? []
        : [
            say`Check ${ground.name}: a tape around it reads ${writeBoth(ground.girth, setting)}. If not, print again with the girth you read.`,
          ]),
      own.strike ?? ground.strike,
      say`Lay the sheet printed side out, 0° line on the struck line, square line on the square line, ${own.upper}. Tape it down.`,
      say`Mark along the cut line and punch it.`,
      ...own.after,
    ],
    facts: [
      ...girth,
      ...ground.facts.map(([label, value]): Fact => [label, lengthOf(value)]),
      ...openingFacts(ground, opening),
      ...(own.facts ?? []),
      [
        say`Reference edge to square line`,
        shown(lengthOf(-reference), apart(uprightAt('reference', 0, reference), ORIGIN, 'y')),
      ],
    ],
    tables: [openingTable(lines, ground)],
    pictures: own.pictures,
    cautions: openingCautions(ground.name),
  };
};
