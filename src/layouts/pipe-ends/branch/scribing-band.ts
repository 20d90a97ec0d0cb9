import type { Picture, Sheet } from '../../../drawing/model.ts';
import { itemAt } from '../../../lists.ts';
import type { Mate } from '../../../geometry/mate.ts';
import { growOutline } from '../../../geometry/outline.ts';
import { reachAt, type Contact } from '../../../geometry/reach.ts';
import type { Body } from '../../../joint/bodies/body.ts';
import { countStations, type BandValues } from '../../../sheets/band-fields.ts';
import { drawBandMarks } from '../../../sheets/band-marks.ts';
import { bandLines, bandPaper, roundBelow, stationLines, WRAPPED } from '../../../sheets/band-paper.ts';
import { bandSheet } from '../../../sheets/band-sheet.ts';
import type { Stock } from '../../../stock/stock.ts';
import { lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

const HEIGHT = 55;
/** Least distance from the band to the body, mm. */
const CLEAR = 5;

/** What the band is for. */
export interface ScribingAsk {
  readonly branch: Stock;
  readonly mate: Mate;
  readonly set: 'on' | 'in';
  readonly gap: number;
  /** Why there is no opening sheet. */
  readonly why: string;
  readonly bodies: readonly Body[];
  readonly about: readonly string[];
}

/**
 * A band for a body that does not lie flat: it wraps around the branch, square, clear of the body, and gives at each
 * station how far on along the branch the body lies, so that the joint and the opening are scribed on the body itself.
 */
export const scribingBand = (
  { branch, mate, set, gap, why, bodies, about }: ScribingAsk,
  making: BandValues,
  pictures: readonly Picture[],
  setting: Setting,
): Sheet => {
  const first = itemAt(bodies, 0);
  // The band is always wrapped, whatever the branch is made from.
  const paper = bandPaper(branch, making.seam, setting);
  const lines = bandLines(branch, countStations(making), paper);
  const reachOn = (contact: Contact, grown: number) => {
    const outline = growOutline(branch.outline, grown);
    return (angle: number): number | undefined =>
      reachAt(outline, mate, contact, (angle / (2 * Math.PI)) * branch.girth)?.z;
  };
  const outside = reachOn('od', 0);
  const hole = set === 'on' ? reachOn('id', 0) : reachOn('od', gap);
  const heights = lines.flatMap(({ angle }) => [outside(angle), hole(angle)].filter((z) => z !== undefined));
  const top = roundBelow(Math.min(...heights), CLEAR, setting);
  const fromTop = (z: number | undefined): number => (z ?? NaN) - top;
  const { marks, bounds } = drawBandMarks({
    from: paper.from,
    to: paper.from + paper.girth,
    reference: top - HEIGHT,
    top,
    sides: paper.sides,
    stations: stationLines(
      paper,
      lines,
      setting,
      (quarter) => first.words[quarter] ?? '',
      (angle) => fromTop(outside(angle)),
    ),
  });
  const holeName = set === 'on' ? say`bore` : say`opening`;
  return bandSheet(
    {
      name: 'scribing band',
      heading: say`Scribing band`,
      stock: branch,
      band: { paper, marks, bounds },
      making: WRAPPED,
      about: [...about, say`${why}: scribe it from the branch`],
      lines: [],
      before: [
        say`Hold the branch, or a square-cut length of it, in place: its axis on the work point and in the direction drawn.`,
      ],
      wrap: say`Wrap the band around it, upper edge toward the body and ${writeBoth(Math.abs(top), setting)} ${top < 0 ? say`short of` : say`past`} the ${first.datum}, 0° on the branch’s top line, until the edge meets itself.`,
      line: say`upper edge`,
      after: [
        say`At each station lay a rule along the branch and mark the body at the distance of the table: first column the joint, second the opening.`,
        say`Join the marks. Cut the opening to the ${holeName} line, then bevel as the joint asks.`,
      ],
      facts: [[say`Upper edge to ${first.datum}`, lengthOf(Math.abs(top))]],
      tables: [
        {
          title: say`From the upper edge along the branch to the body`,
          goesAround: true,
          header: [say`Station`, say`joint`, holeName],
          rows: lines
            .slice(0, -1)
            .map(({ angle, label }) => [
              label,
              lengthOf(fromTop(outside(angle))),
              lengthOf(fromTop(hole(angle))),
            ]),
        },
      ],
      pictures,
      cautions: [
        say`An opening takes strength from what it is cut in: a qualified person checks the reinforcement it needs.`,
        say`Do not open a line or vessel that has held anything that burns until it is purged and tested safe.`,
      ],
    },
    setting,
  );
};
