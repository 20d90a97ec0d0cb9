import type { Picture, Sheet } from '../../../drawing/model.ts';
import { dot3 } from '../../../geometry/vector.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { BranchJoint } from '../branch/branch-joint.ts';
import { stretchCubics } from '../../../sheets/cut-band.ts';
import { fitRound } from '../../../sheets/fit-record.ts';
import { branchSolid, headerGround, OPENING_CAUTIONS, traceHeaderOpening } from '../branch/header-opening.ts';
import type { Setting } from '../../../units/setting.ts';
import { drawOpening, openingTable } from '../../../sheets/opening-marks.ts';
import {
  describePaper,
  describePipe,
  describeSource,
  girthFact,
  paperGirth,
  wrapSteps,
} from '../../../sheets/band-paper.ts';
import { stationNumber } from '../../../stock/station.ts';
import { writeBoth } from '../../../units/writing.ts';
import { HEADER_AXIS } from './wye-joint.ts';
import { angleBetween, facing, type Leg } from './wye-leg.ts';

const QUARTER_TURN = Math.PI / 2;

/** A leg on a header as a branch: the header's axis runs along heading 0, away from a leg that leans over it. */
const asBranch = (leg: Leg, header: Pipe): BranchJoint => ({
  branch: leg.pipe,
  header,
  angle: angleBetween(leg.z, HEADER_AXIS),
  offset: 0,
  set: 'on',
  gap: 0,
});

/** To a hundredth of a degree, as it is set out. */
const roundAngle = (angle: number): number => (Math.round((angle * 18000) / Math.PI) * Math.PI) / 18000;

/** How far the header line that faces a leg lies from the header's top line, toward heading 90; radians in (-180, 180]. */
const fromTop = ({ out }: Leg): number => Math.atan2(out.y, out.z);

/**
 * The opening for one leg: its bore on the header's outside. Sheet frame: y along heading 0, origin on the header line that
 * faces the leg, abreast of the crossing. Where the openings of two legs run into each other each sheet still shows
 * its own, so that marking both leaves the outline of both.
 */
export const wyeOpening = (leg: Leg, header: Pipe, pictures: readonly Picture[], setting: Setting): Sheet => {
  const joint = asBranch(leg, header);
  const opening = traceHeaderOpening(joint);
  const stretch = paperGirth(header.girth, setting.paperThickness) / header.girth;
  const ground = headerGround(joint, stretch);
  const zero = facing(leg, HEADER_AXIS);
  const number = (quarter: number): string => stationNumber(roundAngle(zero + quarter * QUARTER_TURN));
  const drawing = drawOpening(
    opening,
    stretchCubics(opening.line, stretch),
    ground,
    ['DIRECTION 0°', '', 'DIRECTION 180°', ''],
    'header',
    setting,
    [number(0), number(1), number(2), number(3)],
  );
  const { marks, bounds, inner, reference, lines } = drawing;
  const aside = fromTop(leg);
  const girth = (Math.abs(aside) / (2 * Math.PI)) * header.girth;
  const where =
    Math.abs(aside) < 1e-9
      ? 'its top line'
      : `${formatAngle(roundAngle(Math.abs(aside)))} from its top line toward direction ${aside > 0 ? 90 : 270}°, ${writeBoth(girth, setting)} round`;
  return {
    name: `header opening ${leg.number}`,
    heading: `Header opening, leg ${leg.number}`,
    subject: [
      `Opening for leg ${leg.number}, ${leg.pipe.designation}: its bore on the header’s outside`,
      describePipe(header, setting),
      `${formatAngle(roundAngle(angleBetween(leg.out, HEADER_AXIS)))} between the leg and direction 0°`,
      `${describeSource(header)}. ${describePaper(setting)}`,
    ],
    marks,
    bounds,
    fit: fitRound(header, header.girth * stretch, [
      { which: 'closed', contact: 'od', gap: 0, solids: [branchSolid(joint)] },
    ]),
    steps: [
      ...wrapSteps(header, setting),
      `Strike the header line that faces the leg: ${where}. Strike a square line round the header through the crossing.`,
      'Lay the sheet printed side out, its 0° line on the header line, square line on the square line, the end marked direction 0° that way. Tape it down.',
      'Mark along the cut line and punch it. Openings that run into each other are cut round the outside of both.',
      'Try the cut legs over the marks before you cut. Cut square to the surface, inside the line, then bevel as the joint asks.',
    ],
    facts: [
      girthFact(header, setting),
      ['Opening along the header', writeBoth(inner.maxY - inner.minY, setting)],
      ['Opening round the header', writeBoth(opening.to - opening.from, setting)],
      ['Leg’s axis from the square line', describeShift(axisCrossing(leg, header), setting)],
      ['Reference edge to square line', writeBoth(-reference, setting)],
    ],
    tables: [openingTable(lines, ground, setting)],
    pictures,
    cautions: OPENING_CAUTIONS('the header'),
  };
};

/** Where the leg's axis comes through the header's outside, along heading 0 from the crossing, mm. */
const axisCrossing = ({ out }: Leg, header: Pipe): number =>
  ((header.od / 2) * dot3(out, HEADER_AXIS)) / Math.hypot(out.y, out.z);

const describeShift = (along: number, setting: Setting): string =>
  Math.abs(along) < 1e-9
    ? 'on it'
    : `${writeBoth(Math.abs(along), setting)} toward direction ${along > 0 ? 0 : 180}°`;
