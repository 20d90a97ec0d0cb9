import type { Solid } from '../../../joint/solid.ts';
import type { Picture, Sheet } from '../../../drawing/model.ts';
import { developEnd, MissError } from '../../../geometry/development.ts';
import { circleOutline } from '../../../geometry/outline.ts';
import type { Contact } from '../../../geometry/reach.ts';
import { vec3, type Vec3 } from '../../../geometry/vector.ts';
import { jointError, requestError } from '../../../issue.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { formatAngle } from '../../../units/angle.ts';
import { mm, type Body, type BodySpec } from '../../../joint/bodies/body.ts';
import { bodyOpening } from './body-opening.ts';
import type { WrapValues } from '../../../sheets/band-fields.ts';
import { describeContact } from '../../../sheets/contact.ts';
import { drawCutBand } from '../../../sheets/cut-band.ts';
import { fitBand } from '../../../sheets/fit-record.ts';
import { jointPictures } from './joint-picture.ts';
import type { Setting } from '../../../units/setting.ts';
import { scribingBand } from './scribing-band.ts';
import { solidMate, solidsMate } from '../../../joint/solid-mate.ts';
import {
  describePaper,
  describePipe,
  describeSource,
  girthFact,
  laySteps,
  wrapSteps,
} from '../../../sheets/band-paper.ts';
import { writeBoth } from '../../../units/writing.ts';

/** A branch on one body or several. */
export interface BodyJoint {
  readonly branch: Pipe;
  readonly on: readonly BodySpec[];
  readonly angle: number;
  readonly offset: number;
  readonly set: 'on' | 'in';
  readonly gap: number;
  readonly contact: Contact;
}

const buildBodies = ({ branch, on, angle, offset, set, gap }: BodyJoint): readonly Body[] => {
  const radius = branch.od / 2 + (set === 'in' ? gap : 0);
  // Among several bodies one may well reach past another: only the whole must be met everywhere.
  const asked = on.length === 1 ? radius : 1e-6;
  return on.map((spec, i) =>
    spec.build({ radius: asked, drawn: radius, main: i === 0, angle, offset }, spec.frame),
  );
};

/** What the branch's end is drawn to: the outside of every body, or its inside for a set-in branch. */
const seatOf = (bodies: readonly Body[], set: 'on' | 'in'): readonly Solid[] =>
  bodies.map(({ outside, inside, designation }) => {
    if (set === 'on') return outside;
    if (inside) return inside;
    throw requestError(
      'set',
      'no-inside',
      `a set-in branch is drawn to the inside of ${designation}, whose inside is not known`,
      'give the body with its wall or schedule, or set the branch on',
    );
  });

/** The sheets of a branch that meets bodies other than a header. */
export const branchOnBodies = (joint: BodyJoint, wrap: WrapValues, setting: Setting): readonly Sheet[] => {
  const { branch, contact, gap, set } = joint;
  const bodies = buildBodies(joint);
  const first = bodies[0] as Body;
  const seat = seatOf(bodies, set);
  const names = bodies.map((body) => body.designation).join(' and ');
  try {
    const band = drawCutBand(branch, { mate: solidsMate(seat), contact, gap }, wrap, first.words, setting);
    const outline = circleOutline(branch.od / 2, branch.wall);
    const outside = developEnd(outline, { mate: solidsMate(seatOf(bodies, 'on')), contact: 'od', gap: 0 });
    const pictures = jointPictures(
      { bodies, branch, end: (station) => outside.ordinate(station * (branch.od / 2)) },
      setting,
    );
    const subject = describeBodies(joint, bodies, setting);
    const { high, low } = band.development;
    const end: Sheet = {
      name: 'branch end',
      heading: 'Branch end',
      subject: [
        ...subject,
        describePipe(branch, setting),
        `${describeContact(contact)}${set === 'in' ? '; drawn to the inside' : ''}`,
        `${describeSource(branch)}. ${describePaper(setting, wrap)}`,
      ],
      marks: band.marks,
      bounds: band.bounds,
      fit: fitBand(branch, band.paper, [{ which: 'upper', contact, gap, solids: seat }]),
      steps: [
        ...wrapSteps(branch, setting, wrap),
        ...laySteps(
          branch,
          setting,
          wrap,
          `Wrap it printed side out, station 0 (${stationZero(first)}) on the branch’s top line, reference edge toward the part you keep, until that edge meets itself.`,
        ),
        'Cut square to the surface on the line, then bevel outside. Try it in place before you cut any opening.',
      ],
      facts: [
        girthFact(branch, setting, wrap),
        ['Cutback, long to short', writeBoth(high - low, setting)],
        [`Reference edge to ${first.datum}`, writeBoth(-band.reference, setting)],
        [`Long point to ${first.datum}`, writeSigned(-high, setting)],
        [`Short point to ${first.datum}`, writeSigned(-low, setting)],
      ],
      tables: [band.table],
      pictures,
      cautions: bodies.flatMap((body) => body.cautions),
    };
    return [end, ...secondSheet(joint, bodies, wrap, setting, subject, pictures)];
  } catch (error) {
    if (!(error instanceof MissError)) throw error;
    const station = formatAngle(Math.round((error.s / (branch.girth / 360)) * 10) / 10 / (180 / Math.PI));
    throw jointError(
      'on',
      'branch-misses',
      `the branch, ${mm(branch.od)} across, misses ${names} at station ${station}`,
      'choose a smaller branch or move the body: every line along the branch must meet it',
    );
  }
};

const stationZero = ({ words }: Body): string => words[0].toLowerCase().replace('tdc', 'TDC');

const writeSigned = (length: number, setting: Setting): string =>
  length < -1e-9 ? `${writeBoth(-length, setting)} past it` : writeBoth(length, setting);

const describeBodies = (
  { branch, on, set, gap }: BodyJoint,
  bodies: readonly Body[],
  setting: Setting,
): readonly string[] => [
  `${branch.designation} on ${bodies.map((body) => body.designation).join(' and ')}`,
  ...bodies.map((body, i) =>
    bodies.length > 1
      ? `${body.designation}: ${body.placing(setting)}${describeMove(on[i], setting)}`
      : body.placing(setting),
  ),
  `Set-${set}, ${gap > 0 ? `gap ${writeBoth(gap, setting)}` : 'no gap'}`,
];

const describeMove = (spec: BodySpec | undefined, setting: Setting): string => {
  if (!spec?.moved) return '';
  const { roll, ahead } = spec;
  return [
    roll === 0 ? '' : `, turned ${formatAngle(roll)} about the branch’s axis`,
    ahead === 0
      ? ''
      : `, ${writeBoth(Math.abs(ahead), setting)} ${ahead > 0 ? 'ahead of' : 'short of'} the work point`,
  ].join('');
};

/** The opening, where the body lies flat; else the band to scribe it by, which says why. */
const secondSheet = (
  joint: BodyJoint,
  bodies: readonly Body[],
  wrap: WrapValues,
  setting: Setting,
  subject: readonly string[],
  pictures: readonly Picture[],
): readonly Sheet[] => {
  const { branch, set, gap } = joint;
  const [only, more] = bodies;
  if (only && !more && typeof only.opening !== 'string') {
    const hit = solidMate(only.outside).enter({ origin: vec3(0, 0, 0), direction: vec3(0, 0, 1) });
    const pierce: Vec3 = vec3(0, 0, hit?.t ?? 0);
    const ground = only.opening(setting.paperThickness / 2);
    return [bodyOpening(ground, { branch, set, gap, pierce, words: only.words }, setting, subject, pictures)];
  }
  const why =
    only && !more && typeof only.opening === 'string'
      ? only.opening
      : 'Several bodies do not lie flat in one piece, so no opening sheet would be true on them';
  const mate = solidsMate(bodies.map((body) => body.outside));
  return [scribingBand({ branch, mate, set, gap, why, bodies }, wrap, setting, subject, pictures)];
};
