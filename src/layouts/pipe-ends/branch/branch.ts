import { angleField, choiceField, lengthField, shortForm, stockField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { requestError } from '../../../issue.ts';
import type { BodySpec } from '../../../joint/bodies/body.ts';
import { bandFields, pickBand } from '../../../sheets/band-fields.ts';
import { bodiesField } from '../../../sheets/bodies-field.ts';
import { contactField, gapField } from '../../../sheets/contact.ts';
import { grooveField } from '../../../sheets/weld-data.ts';
import { say } from '../../../words/say.ts';
import { branchInSpace, drawBranch } from './branch-end.ts';

/** A branch on a header: the branch's end and the header's opening. */
export const branch = defineLayout({
  id: 'branch',
  summary: 'branch saddle with its opening, on a header or another body, at any angle and offset',
  family: 'pipe ends',
  words: [
    'tee',
    'lateral',
    'saddle',
    'fishmouth',
    'fish mouth',
    'cope',
    'nozzle',
    'stub-on',
    'stub-in',
    'set-on',
    'set-in',
    'header',
    'opening',
    'hole',
    'dummy leg',
    'trunnion',
    'elbow',
    'hillside',
    'offset',
    'intersection',
  ],
  fields: {
    branch: stockField('the pipe or other stock whose end is cut', { example: 'NPS 2 sch 40' }),
    header: shortForm(
      'the pipe it meets: the short form of --on "pipe P"',
      'NPS 4 sch 40',
      'on',
      (pipe) => `pipe ${pipe}`,
    ),
    on: bodiesField('what it meets, in place of a header', 'elbow NPS 8 LR heel'),
    angle: angleField(
      'angle between the axes; 90 is square; with --on, of the straight bodies that give none',
      { default: '90', example: '60', above: 0, below: 180 * DEGREE },
    ),
    offset: lengthField('offset of the axes, positive toward station 90', {
      default: '0mm',
      example: '30mm',
      min: -10_000,
      max: 10_000,
    }),
    set: choiceField(
      'set-on: the end rests on the outside of what it meets; set-in: it passes through the wall',
      ['on', 'in'],
      { default: 'on' },
    ),
    opening: choiceField(
      'whether a hole is cut in what it meets; left out, none on an elbow and on several bodies, which take legs and braces, else yes',
      ['yes', 'none'],
      { optional: true },
    ),
    contact: contactField('wall'),
    gap: gapField,
    groove: grooveField,
    ...bandFields,
  },
  sheets: ['branch end', 'header opening', 'opening', 'scribing band'],
  examples: [
    'branch --branch "NPS 2 sch 40" --header "NPS 4 sch 40" --angle 60',
    'branch --branch "DN 80 sch 40" --header "DN 150 sch 40" --offset 30mm --paper a4',
    'branch --branch "NPS 4 sch 40" --header "NPS 8 sch 40" --set in --gap 3mm -o tee.pdf -o tee.csv',
    'branch --branch "NPS 4 sch 40" --on "elbow NPS 8 LR angle 0"',
    'branch --branch "NPS 2 sch 40" --on "elbow NPS 8 LR heel" --opening yes',
    'branch --branch "NPS 2 sch 40" --on "head ellipsoidal OD 1000mm offset 300mm" --paper a4',
    'branch --branch "OD 88.9mm wall 5mm" --on "pipe OD 168.3mm wall 8mm angle 45 + pipe OD 88.9mm wall 5mm angle 135 ahead -60mm"',
  ],
  draw: ({ on, header: _short, ...rest }, setting) =>
    drawBranch({ ...rest, on: meet(on) }, pickBand(rest), setting),
  scene: ({ on, header: _short, ...rest }, setting) => branchInSpace({ ...rest, on: meet(on) }, setting),
});

const meet = (on: readonly BodySpec[] | undefined): readonly BodySpec[] => {
  if (on !== undefined) return on;
  throw requestError(
    'on',
    'no-body',
    say`the branch needs something to meet`,
    say`give --header with a pipe, or --on with another body such as "elbow NPS 8 LR angle 0"`,
  );
};
