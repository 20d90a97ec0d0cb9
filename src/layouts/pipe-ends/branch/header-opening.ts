import type { Solid } from '../../../joint/solid.ts';
import { fitRound } from '../../../sheets/fit-record.ts';
import type { Picture, Sheet } from '../../../drawing/model.ts';
import { developOpening, type Opening } from '../../../geometry/opening.ts';
import { circleOutline } from '../../../geometry/outline.ts';
import { stockSkin } from '../../../geometry/skin.ts';
import { vec3 } from '../../../geometry/vector.ts';
import { HERE, type OpeningGround } from '../../../joint/bodies/body.ts';
import { type BranchJoint } from './branch-joint.ts';
import { quarterWords } from '../../../joint/quarter-words.ts';
import { stretchCubics } from '../../../sheets/cut-band.ts';
import type { Setting } from '../../../units/setting.ts';
import { drawOpening, openingTable } from '../../../sheets/opening-marks.ts';
import { solidMate } from '../../../joint/solid-mate.ts';
import {
  describePaper,
  describePipe,
  describeSource,
  girthFact,
  paperGirth,
  wrapSteps,
} from '../../../sheets/band-paper.ts';
import { writeBoth } from '../../../units/writing.ts';

/** What every opening's sheet warns of. */
export const OPENING_CAUTIONS = (name: string): readonly string[] => [
  `An opening takes strength from ${name}: a qualified person checks the reinforcement it needs.`,
  'Do not open a line or vessel that has held anything that burns until it is purged and tested safe.',
];

/** What is drawn, in words. */
export const describeOpening = (set: 'on' | 'in', name: string): string =>
  set === 'on'
    ? `Opening: the branch’s bore on the outside of ${name}`
    : 'Opening: clears the branch’s outside and the gap through the whole wall';

/** What the opening follows, in the header's frame: the branch's bore, or its outside with the gap. */
export const branchSolid = ({ branch, angle, offset, set, gap }: BranchJoint): Solid => ({
  kind: 'cylinder',
  through: vec3(0, -offset, 0),
  along: vec3(-Math.sin(angle), 0, Math.cos(angle)),
  radius: set === 'on' ? branch.od / 2 - branch.wall : branch.od / 2 + gap,
});

/**
 * The opening in the header's wall, in the header's frame: set-on, the branch's bore traced on the header's outside;
 * set-in, clear of the branch's outside and the gap through the whole header wall, for a cut square to the surface.
 */
export const traceHeaderOpening = (joint: BranchJoint): Opening => {
  const { header, offset, set } = joint;
  const radius = header.girth / (2 * Math.PI);
  const body = solidMate(branchSolid(joint));
  const outline = circleOutline(radius, header.wall);
  const centre = radius * Math.asin(Math.max(-1, Math.min(1, -offset / radius)));
  const opening = developOpening(outline, body, set === 'in', centre);
  if (!opening) throw new Error('the branch axis misses the header');
  return opening;
};

/** A header as the ground its opening is drawn on. `stretch` takes its girth to the paper's. */
export const headerGround = ({ header }: BranchJoint, stretch: number): OpeningGround => {
  const radius = header.girth / (2 * Math.PI);
  return {
    skin: stockSkin(circleOutline(radius, header.wall)),
    local: HERE,
    facing: [-header.girth / 4, header.girth / 4],
    middle: 0,
    level: () => 0,
    place: (s, t) => ({ x: s * stretch, y: t }),
    parallel: true,
    girth: header.girth,
    facts: [],
    strike:
      'Strike the header line that faces the branch, and a square line round the header through the work point.',
    name: 'the header',
  };
};

/** The header opening's sheet. */
export const headerOpening = (
  joint: BranchJoint,
  setting: Setting,
  subject: readonly string[],
  pictures: readonly Picture[],
): Sheet => {
  const { header, set, angle } = joint;
  const opening = traceHeaderOpening(joint);
  const stretch = paperGirth(header.girth, setting.paperThickness) / header.girth;
  const ground = headerGround(joint, stretch);
  const { marks, bounds, inner, reference, lines } = drawOpening(
    opening,
    stretchCubics(opening.line, stretch),
    ground,
    quarterWords(angle),
    'header',
    setting,
  );
  return {
    name: 'header opening',
    heading: 'Header opening',
    subject: [
      ...subject,
      describePipe(header, setting),
      describeOpening(set, 'the header'),
      `${describeSource(header)}. ${describePaper(setting)}`,
    ],
    marks,
    bounds,
    fit: fitRound(header, header.girth * stretch, [
      { which: 'closed', contact: set === 'in' ? 'wall' : 'od', gap: 0, solids: [branchSolid(joint)] },
    ]),
    steps: [
      ...wrapSteps(header, setting),
      ground.strike,
      'Lay the sheet printed side out, 0° line on the header line, square line on the square line, the end marked branch 0° toward station 0 of the branch. Tape it down.',
      'Mark along the cut line and punch it. Try the cut branch end over the mark before you cut.',
      'Cut square to the surface, inside the line, then bevel as the joint asks.',
    ],
    facts: [
      girthFact(header, setting),
      ['Opening along the header', writeBoth(inner.maxY - inner.minY, setting)],
      ['Opening round the header', writeBoth(opening.to - opening.from, setting)],
      ['Reference edge to square line', writeBoth(-reference, setting)],
    ],
    tables: [openingTable(lines, ground, setting)],
    pictures,
    cautions: OPENING_CAUTIONS('the header'),
  };
};
