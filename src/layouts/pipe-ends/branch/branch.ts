import { requestError } from '../../../issue.ts';
import type { Sheet } from '../../../drawing/model.ts';
import { SAME_LENGTH } from '../../../geometry/tolerance.ts';
import { checkJoint, describeJoint, headerMate, headerSolid, type BranchJoint } from './branch-joint.ts';
import { quarterWords } from '../../../joint/quarter-words.ts';
import { branchPictures } from './branch-picture.ts';
import { bodiesField } from '../../../sheets/bodies-field.ts';
import { branchOnBodies } from './body-branch.ts';
import { pickWrap } from '../../../sheets/band-fields.ts';
import { type WrapValues } from '../../../sheets/band-fields.ts';
import { wrapFields } from '../../../sheets/band-fields.ts';
import { contactField, describeContact, gapField } from '../../../sheets/contact.ts';
import { drawCutBand } from '../../../sheets/cut-band.ts';
import { angleField, choiceField, lengthField, optional, pipeField } from '../../../fields/fields.ts';
import { fitBand } from '../../../sheets/fit-record.ts';
import { headerOpening } from './header-opening.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { type Setting } from '../../../units/setting.ts';
import {
  describePaper,
  describePipe,
  describeSource,
  girthFact,
  laySteps,
  wrapSteps,
} from '../../../sheets/band-paper.ts';
import { writeBoth } from '../../../units/writing.ts';

const DEGREE = Math.PI / 180;

/** A branch on a header: the branch's end and the header's opening. */
export const branch = defineLayout({
  id: 'branch',
  summary: 'branch saddle with its opening, on a header or another body, at any angle and offset',
  fields: {
    branch: pipeField({ help: 'the pipe whose end is cut', example: 'NPS 2 sch 40' }),
    header: optional(pipeField({ help: 'the pipe it meets', example: 'NPS 4 sch 40' })),
    on: optional(bodiesField),
    angle: angleField({
      help: 'angle between the axes; 90 is square; with --on, of the straight bodies that give none',
      default: '90',
      example: '60',
      above: 0,
      below: 180 * DEGREE,
    }),
    offset: lengthField({
      help: 'offset of the axes, positive toward station 90',
      default: '0mm',
      example: '30mm',
      min: -10_000,
      max: 10_000,
    }),
    set: choiceField(['on', 'in'], {
      help: 'set-on: the end rests on the outside of what it meets; set-in: it passes through the wall',
      default: 'on',
    }),
    contact: contactField('wall'),
    gap: gapField,
    ...wrapFields,
  },
  examples: [
    'branch --branch "NPS 2 sch 40" --header "NPS 4 sch 40" --angle 60',
    'branch --branch "DN 80 sch 40" --header "DN 150 sch 40" --offset 30mm --paper a4',
    'branch --branch "NPS 4 sch 40" --header "NPS 8 sch 40" --set in --gap 3mm -o tee.pdf -o tee.csv',
    'branch --branch "NPS 4 sch 40" --on "elbow NPS 8 LR extrados"',
    'branch --branch "NPS 2 sch 40" --on "head ellipsoidal OD 1000mm offset 300mm" --paper a4',
    'branch --branch "OD 88.9mm wall 5mm" --on "pipe OD 168.3mm wall 8mm angle 45 + pipe OD 88.9mm wall 5mm angle 135 ahead -60mm"',
  ],
  draw: ({ header, on, contact, ...rest }, setting) => {
    const wrap = pickWrap(rest);
    if (on !== undefined && header === undefined)
      return branchOnBodies({ ...rest, on, contact }, wrap, setting);
    if (header === undefined || on !== undefined)
      throw requestError(
        'header',
        header === undefined ? 'no-body' : 'two-bodies',
        header === undefined ? 'the branch needs something to meet' : 'header and on are both given',
        'give --header with a pipe, or --on with another body such as "elbow NPS 8 LR extrados"',
      );
    const joint = { ...rest, header };
    checkJoint(joint);
    return [
      branchEnd(joint, contact, wrap, setting),
      headerOpening(joint, setting, describeJoint(joint, setting), branchPictures(joint, setting)),
    ];
  },
});

const branchEnd = (
  joint: BranchJoint,
  contact: 'wall' | 'od' | 'id',
  wrap: WrapValues,
  setting: Setting,
): Sheet => {
  const { branch, header, angle, gap, set, offset } = joint;
  const words = quarterWords(angle);
  const band = drawCutBand(branch, { mate: headerMate(joint), contact, gap }, wrap, words, setting);
  const { high, low } = band.development;
  const cautions = [
    ...(angle < 45 * DEGREE - 1e-9 || angle > 135 * DEGREE + 1e-9
      ? [
          'A branch under 45° is hard to weld in the crotch and outside the simple pressure rules: have it designed.',
        ]
      : []),
    ...(Math.abs(offset) > SAME_LENGTH
      ? ['An offset branch is outside the simple pressure rules of the piping codes: have it designed.']
      : []),
  ];
  return {
    name: 'branch end',
    heading: 'Branch end',
    subject: [
      ...describeJoint(joint, setting),
      describePipe(branch, setting),
      `Header: outside ${writeBoth(header.od, setting)}, wall ${writeBoth(header.wall, setting)}`,
      `${describeContact(contact)}${set === 'in' ? '; drawn to the header’s bore' : ''}`,
      `${describeSource(branch)}. ${describePaper(setting, wrap)}`,
    ],
    marks: band.marks,
    bounds: band.bounds,
    fit: fitBand(branch, band.paper, [{ which: 'upper', contact, gap, solids: [headerSolid(joint)] }]),
    steps: [
      ...wrapSteps(branch, setting, wrap),
      ...laySteps(
        branch,
        setting,
        wrap,
        `Wrap it printed side out, station 0 (${(words[0] ?? '').toLowerCase().replace('tdc', 'TDC')}) on the branch’s top line, reference edge toward the part you keep, until that edge meets itself.`,
      ),
      'Cut square to the surface on the line, then bevel outside. Try it on the header before you cut the opening.',
    ],
    facts: [
      girthFact(branch, setting, wrap),
      ['Cutback, long to short', writeBoth(high - low, setting)],
      ['Reference edge to header center', writeBoth(-band.reference, setting)],
      ['Long point to header center', writeBoth(-high, setting)],
      ['Short point to header center', writeBoth(-low, setting)],
    ],
    tables: [band.table],
    pictures: branchPictures(joint, setting),
    cautions,
  };
};
