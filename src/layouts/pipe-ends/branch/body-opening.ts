import type { Solid } from '../../../joint/solid.ts';
import type { Picture, Sheet } from '../../../drawing/model.ts';
import type { Cubic } from '../../../geometry/cubic.ts';
import { traceOpening, type Opening } from '../../../geometry/opening.ts';
import { dot3, length3, scale3, sub3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { formatMm } from '../../../units/format.ts';
import type { OpeningGround, QuarterWords } from '../../../joint/bodies/body.ts';
import { describeOpening, OPENING_CAUTIONS } from './header-opening.ts';
import type { Setting } from '../../../units/setting.ts';
import { drawOpening, openingTable } from '../../../sheets/opening-marks.ts';
import { solidMate } from '../../../joint/solid-mate.ts';
import { moveSolid } from '../../../joint/move-solid.ts';
import { describePaper } from '../../../sheets/band-paper.ts';
import { writeBoth } from '../../../units/writing.ts';

/** How the branch goes into the opening. */
export interface OpeningAsk {
  readonly branch: Pipe;
  readonly set: 'on' | 'in';
  readonly gap: number;
  /** Where the branch's axis meets the outside, in the branch's frame. */
  readonly pierce: Vec3;
  readonly words: QuarterWords;
}

/** The position on a skin whose line passes nearest to a point. */
const positionOf = ({ skin, facing }: OpeningGround, p: Vec3): number => {
  const gap = (s: number): number => {
    const { origin, direction } = skin.layers(s).line(0);
    const from = sub3(p, origin);
    return length3(sub3(from, scale3(direction, dot3(from, direction))));
  };
  const STEPS = 400;
  const step = (facing[1] - facing[0]) / STEPS;
  let best = facing[0];
  for (let i = 1; i <= STEPS; i++) if (gap(facing[0] + i * step) < gap(best)) best = facing[0] + i * step;
  let [low, high] = [best - step, best + step];
  for (let i = 0; i < 40; i++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (gap(a) < gap(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
};

/** What the opening follows, in the branch's frame: its bore, or its outside with the gap. */
const branchSolid = ({ branch, set, gap }: OpeningAsk): Solid => ({
  kind: 'cylinder',
  through: vec3(0, 0, 0),
  along: vec3(0, 0, 1),
  radius: set === 'on' ? branch.od / 2 - branch.wall : branch.od / 2 + gap,
});

const fitOpening = ({ back, skin }: OpeningGround, ask: OpeningAsk): Pick<Sheet, 'fit'> =>
  back === undefined
    ? {}
    : {
        fit: {
          lay: back.lay,
          wall: skin.wall,
          lines: [
            {
              which: 'closed',
              contact: ask.set === 'in' ? 'wall' : 'od',
              gap: 0,
              solids: [moveSolid(branchSolid(ask), back.local)],
            },
          ],
        },
      };

/** The opening on a body's ground, its line already as it lies on the paper. */
export const traceBodyOpening = (ground: OpeningGround, ask: OpeningAsk): Opening => {
  const { set, pierce } = ask;
  const { local, skin, facing, place } = ground;
  const body = solidMate(moveSolid(branchSolid(ask), local));
  const centre = positionOf(ground, local.point(pierce));
  const opening = traceOpening({ ...skin, flat: place }, body, set === 'in', centre, facing);
  if (!opening) throw new Error('the branch axis misses the body it was placed on');
  const tip = Math.max(
    ...[opening.from, opening.to].map((s) => Math.abs(opening.upper(s) - opening.lower(s))),
  );
  if (tip > 0.01)
    throw jointError(
      'branch',
      'opening-past-side',
      `the opening runs ${formatMm(tip, 2)} wide past the side of ${ground.name}`,
      'choose a smaller branch or a smaller offset',
    );
  return opening;
};

/** The sheet of an opening in a body that lies flat. */
export const bodyOpening = (
  ground: OpeningGround,
  ask: OpeningAsk,
  setting: Setting,
  subject: readonly string[],
  pictures: readonly Picture[],
): Sheet => {
  const opening = traceBodyOpening(ground, ask);
  const line: readonly Cubic[] = opening.line;
  const name = ground.name.replace('the ', '');
  const { marks, bounds, inner, reference, lines } = drawOpening(
    opening,
    line,
    ground,
    ask.words,
    name,
    setting,
  );
  const lap = opening.upper(ground.middle) - opening.lower(ground.middle);
  return {
    name: 'opening',
    heading: `Opening in ${ground.name}`,
    subject: [...subject, describeOpening(ask.set, ground.name), describePaper(setting)],
    marks,
    bounds,
    ...fitOpening(ground, ask),
    steps: [
      'Check the print: every 100 mm rule is 100 mm long, every 4 in rule 4 in.',
      ...(ground.girth === undefined
        ? []
        : [`Check ${ground.name}: a tape round it reads ${writeBoth(ground.girth, setting)}.`]),
      ground.strike,
      'Lay the sheet printed side out, 0° line on the struck line, square line on the square line, the end marked ▲ 0° toward station 0 of the branch. Tape it down.',
      'Mark along the cut line and punch it. Try the cut branch end over the mark before you cut.',
      'Cut square to the surface, inside the line, then bevel as the joint asks.',
    ],
    facts: [
      ...(ground.girth === undefined ? [] : [['Girth to tape', writeBoth(ground.girth, setting)] as const]),
      ...ground.facts.map(([label, value]) => [label, writeBoth(value, setting)] as const),
      ...(ground.parallel
        ? [
            [`Opening along ${ground.name}`, writeBoth(inner.maxY - inner.minY, setting)] as const,
            [`Opening across ${ground.name}`, writeBoth(opening.to - opening.from, setting)] as const,
          ]
        : Number.isFinite(lap)
          ? [['Opening along the 0° line', writeBoth(lap, setting)] as const]
          : []),
      ['Reference edge to square line', writeBoth(-reference, setting)],
    ],
    tables: [openingTable(lines, ground, setting)],
    pictures,
    cautions: OPENING_CAUTIONS(ground.name),
  };
};
