import type { Fact, Mark, Picture, Sheet, Table } from '../drawing/model.ts';
import type { ConePattern } from '../geometry/cone-pattern.ts';
import type { Cubic } from '../geometry/cubic.ts';
import { alongFlat } from '../geometry/developable.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import { stationNumber } from '../stock/station.ts';
import { formatAngle } from '../units/angle.ts';
import { lengthOf } from '../units/quantity.ts';
import type { Setting } from '../units/setting.ts';
import { writeBoth } from '../units/writing.ts';
import { say } from '../words/say.ts';
import { CHECK_PRINT } from './band-words.ts';
import { fitFlat, pathFigures } from './fit-record.ts';
import { drawOutline } from './flat-marks.ts';
import { plateSheet } from './flat-sheet.ts';
import { crosses, shown } from './measured.ts';
import {
  blankFacts,
  plateFacts,
  plateMassFacts,
  type PlateValues,
  type SeamValues,
} from './pattern-fields.ts';
import {
  outlineBox,
  patternArea,
  patternCorners,
  patternFigures,
  patternMarks,
  patternPath,
  punchCorners,
  tapeTable,
  type Pattern,
  type PatternLine,
} from './pattern-marks.ts';
import { PLATE_CAUTION, seamStep } from './seam-step.ts';

/** One piece of plate that is rolled to a cone or a cylinder, between two stations. */
export interface RolledPart {
  readonly name: string;
  readonly heading: string;
  readonly subject: readonly string[];
  readonly laid: ConePattern;
  readonly from: number;
  readonly to: number;
  /** Angle between bend lines, and what is bent on each where all are alike. */
  readonly step: number;
  readonly bend?: number;
  readonly plate: PlateValues & SeamValues;
  /** What follows the seam in the order of work. */
  readonly last: readonly string[];
  readonly facts: readonly Fact[];
  /** Tables besides that of the pattern by tape. */
  readonly tables?: readonly Table[];
  /** Lines it is cut on once it is rolled, and what stands between them. */
  readonly across?: {
    readonly lines: readonly (readonly Cubic[])[];
    readonly words: readonly Mark[];
    /** The longest stretch between two of them on the line a share of the way around. */
    readonly clear: (share: number) => readonly [Vec2, Vec2];
  };
  /** Facts about the plate needed, from the pattern's height. */
  readonly nested?: (height: number) => readonly Fact[];
  readonly picture: Picture;
  readonly cautions: readonly string[];
}

/** Bend lines at whole steps from station 0 between two stations. */
const bendLines = ({ laid, from, to, step, across }: RolledPart): readonly PatternLine[] => {
  const first = Math.floor(from / step + 1e-9) + 1;
  const count = Math.ceil(to / step - 1e-9) - first;
  return Array.from({ length: Math.max(0, count) }, (_, i): PatternLine => {
    const station = (first + i) * step;
    const share = (station - from) / (to - from);
    const ruling = laid.flat.flat(share);
    return {
      foot: ruling.foot,
      head: alongFlat(ruling),
      name: stationNumber(station),
      kind: 'bend',
      ...(across && { clear: across.clear(share) }),
    };
  });
};

/** The pattern of a rolled part with its seams and bend lines. */
export const rolledPattern = (part: RolledPart): Pattern => ({
  ends: part.laid.ends,
  apex: alongFlat(part.laid.flat.flat(0.5)),
  lines: bendLines(part),
  seam: part.plate,
  seams: [say`SEAM ${stationNumber(part.from)}`, say`SEAM ${stationNumber(part.to)}`],
});

/** Points of a line across a part, for those who prove it. */
const curvesOf = (line: readonly Cubic[]) => pathFigures(patternPath(line, false)).curves;

/** The sheet of a rolled part: the large end below, seen from outside. */
export const rolledSheet = (part: RolledPart, setting: Setting): Sheet => {
  const { plate, across } = part;
  const both = (length: number): string => writeBoth(length, setting);
  const pattern = rolledPattern(part);
  const punched = punchCorners(pattern);
  const figures = patternFigures(pattern);
  const { left, right } = patternCorners(pattern);
  const box = outlineBox(pattern);
  const [lower, upper] = [distance2(left[0], right[0]), distance2(left[1], right[1])];
  return plateSheet({
    name: part.name,
    heading: part.heading,
    subject: part.subject,
    marks: [
      ...patternMarks(pattern),
      ...(across?.lines.map((line) => drawOutline(patternPath(line, false))) ?? []),
      ...(across?.words ?? []),
      ...punched.marks,
    ],
    fit: fitFlat({
      ...figures,
      curves: [...(figures.curves ?? []), ...(across?.lines.flatMap(curvesOf) ?? [])],
    }),
    steps: [
      CHECK_PRINT(),
      say`Check the pattern: left seam ${both(distance2(...left))}, right seam ${both(distance2(...right))}, lower corners straight across ${both(lower)}.`,
      say`Lay the sheet on the plate, this side up: it shows the outside. Prick the corners and the ends of every bend line through.`,
      say`Cut on the outline. Carry the bend lines across.`,
      say`Pre-bend both seam edges. Roll it with the bend lines along the rolls, or bend on each line${part.bend === undefined ? '' : say` by ${formatAngle(part.bend, 2)}`}, all away from this side.`,
      seamStep(plate, setting),
      ...part.last,
    ],
    facts: [
      ...part.facts,
      [say`Left seam`, shown(lengthOf(distance2(...left)), crosses(...left))],
      [say`Right seam`, shown(lengthOf(distance2(...right)), crosses(...right))],
      [say`Lower end, straight across`, shown(lengthOf(lower), crosses(left[0], right[0]))],
      ...(upper > 1e-6
        ? ([[say`Upper end, straight across`, shown(lengthOf(upper), crosses(left[1], right[1]))]] as const)
        : []),
      [
        say`Lower left to upper right`,
        shown(lengthOf(distance2(left[0], right[1])), crosses(left[0], right[1])),
      ],
      ...blankFacts(box.maxX - box.minX, box.maxY - box.minY),
      ...(part.nested?.(box.maxY - box.minY) ?? []),
      ...(across ? plateMassFacts : plateFacts)(patternArea(pattern), plate),
    ],
    tables: [tapeTable(pattern), ...(part.tables ?? [])],
    pictures: [part.picture],
    cautions: [PLATE_CAUTION(), ...part.cautions],
  });
};
