import type { Picture, Sheet } from '../../../drawing/model.ts';
import { drawWrap } from '../../../sheets/band-marks.ts';
import type { Mate } from '../../../geometry/mate.ts';
import { circleOutline } from '../../../geometry/outline.ts';
import { reachAt, type Contact } from '../../../geometry/reach.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import type { Body } from '../../../joint/bodies/body.ts';
import { countStations } from '../../../sheets/band-fields.ts';
import { type WrapValues } from '../../../sheets/band-fields.ts';
import { fitBand } from '../../../sheets/fit-record.ts';
import type { Setting } from '../../../units/setting.ts';
import {
  describePaper,
  girthFact,
  roundBelow,
  stationLines,
  wrapPaper,
  wrapSteps,
} from '../../../sheets/band-paper.ts';
import { listStations } from '../../../stock/station.ts';
import { stationNumber } from '../../../stock/station.ts';
import { lengthCells } from '../../../units/writing.ts';
import { lengthColumns } from '../../../units/writing.ts';
import { writeBoth } from '../../../units/writing.ts';

const HEIGHT = 55;

/** Least distance from the band to the body, mm. */
const CLEAR = 5;

/** What the band is for. */
export interface ScribingAsk {
  readonly branch: Pipe;
  readonly mate: Mate;
  readonly set: 'on' | 'in';
  readonly gap: number;
  /** Why there is no opening sheet. */
  readonly why: string;
  readonly bodies: readonly Body[];
}

/**
 * A band for a body that does not lie flat: it wraps round the branch, square, clear of the body, and tells at each
 * station how far on along the branch the body lies, so that the joint and the opening are scribed on the body itself.
 */
export const scribingBand = (
  { branch, mate, set, gap, why, bodies }: ScribingAsk,
  wrap: WrapValues,
  setting: Setting,
  subject: readonly string[],
  pictures: readonly Picture[],
): Sheet => {
  const first = bodies[0] as Body;
  // The band is always wrapped, whatever the branch is made from.
  const paper = wrapPaper(branch, wrap.seam, setting);
  const angles = listStations(countStations(wrap), paper.seam);
  const radius = branch.od / 2;
  const reachOn = (contact: Contact, outside: number) => {
    const outline = circleOutline(outside, branch.wall);
    return (angle: number): number | undefined => reachAt(outline, mate, contact, angle * outside)?.z;
  };
  const outside = reachOn('od', radius);
  const hole = set === 'on' ? reachOn('id', radius) : reachOn('od', radius + gap);
  const heights = angles.flatMap((angle) => [outside(angle), hole(angle)].filter((z) => z !== undefined));
  const top = roundBelow(Math.min(...heights), CLEAR, setting);
  const fromTop = (z: number | undefined): number => (z ?? NaN) - top;
  const { marks, bounds } = drawWrap({
    from: paper.from,
    to: paper.from + paper.girth,
    reference: top - HEIGHT,
    top,
    sides: paper.sides,
    stations: stationLines(
      paper,
      angles,
      setting,
      (quarter) => first.words[quarter],
      (angle) => fromTop(outside(angle)),
    ),
  });
  const holeName = set === 'on' ? 'bore' : 'opening';
  return {
    name: 'scribing band',
    heading: 'Scribing band',
    subject: [...subject, `${why}: scribe it from the branch`, describePaper(setting)],
    marks,
    bounds,
    fit: fitBand(branch, paper, []),
    steps: [
      ...wrapSteps(branch, setting),
      'Hold the branch, or a square-cut length of it, in place: its axis on the work point and in the direction drawn.',
      `Wrap the band round it, upper edge toward the body and ${writeBoth(Math.abs(top), setting)} ${top < 0 ? 'short of' : 'past'} the ${first.datum}, 0° on the branch’s top line, until the edge meets itself.`,
      'At each station lay a rule along the branch and mark the body at the distance of the table: first column the joint, second the opening.',
      `Join the marks. Cut the opening to the ${holeName} line, then bevel as the joint asks.`,
    ],
    facts: [girthFact(branch, setting), [`Upper edge to ${first.datum}`, writeBoth(Math.abs(top), setting)]],
    tables: [
      {
        title: 'From the upper edge along the branch to the body',
        header: ['Station', ...lengthColumns('joint', setting), ...lengthColumns(holeName, setting)],
        rows: angles
          .slice(0, -1)
          .map((angle) => [
            stationNumber(angle),
            ...lengthCells(fromTop(outside(angle)), setting),
            ...lengthCells(fromTop(hole(angle)), setting),
          ]),
      },
    ],
    pictures,
    cautions: [
      'An opening takes strength from what it is cut in: a qualified person checks the reinforcement it needs.',
      'Do not open a line or vessel that has held anything that burns until it is purged and tested safe.',
    ],
  };
};
