import type { Solid } from '../../joint/solid.ts';
import type { Mark, Picture, Sheet } from '../../drawing/model.ts';
import { FINE } from '../../drawing/shape.ts';
import { fitView, makePicture, viewAngle, viewLine, viewText, type Sight } from '../../drawing/view.ts';
import { vec3, type Vec3 } from '../../geometry/vector.ts';
import type { Pipe } from '../../stock/pipe.ts';
import { formatAngle } from '../../units/angle.ts';
import { pickWrap } from '../../sheets/band-fields.ts';
import { wrapFields } from '../../sheets/band-fields.ts';
import { contactField, describeContact, gapField } from '../../sheets/contact.ts';
import { drawCutBand } from '../../sheets/cut-band.ts';
import { endPicture } from '../../sheets/end-picture.ts';
import { angleField, pipeField } from '../../fields/fields.ts';
import { fitBand } from '../../sheets/fit-record.ts';
import { defineLayout } from '../../fields/layout.ts';
import { solidMate } from '../../joint/solid-mate.ts';
import {
  describePaper,
  describePipe,
  describeSource,
  girthFact,
  laySteps,
  wrapSteps,
} from '../../sheets/band-paper.ts';
import { writeBoth } from '../../units/writing.ts';

const DEGREE = Math.PI / 180;
const WORDS = ['HEEL · TDC', 'SIDE', 'THROAT', 'SIDE'] as const;

/** A pipe end cut in one plane, `cut` from square: two of them make a turn of twice the cut. */
export const miter = defineLayout({
  id: 'miter',
  summary: 'miter cut on a pipe end; two such ends make a turn of twice the cut angle',
  fields: {
    pipe: pipeField({ help: 'the pipe to be cut', example: 'NPS 6 sch 40' }),
    cut: angleField({
      help: 'angle of the cut from square; the turn is twice as much',
      example: '22.5',
      above: 0,
      below: 90 * DEGREE,
    }),
    contact: contactField('od'),
    gap: gapField,
    ...wrapFields,
  },
  examples: [
    'miter --pipe "NPS 6 sch 40" --cut 22.5',
    'miter --pipe "DN 200 sch 40" --cut 45 --gap 3mm --paper a3',
    'miter --pipe "OD 168.3mm wall 7.11mm" --cut 1:4 --divisions 16 -o elbow.pdf',
  ],
  draw: ({ pipe, cut, contact, gap, ...rest }, setting) => {
    const wrap = pickWrap(rest);
    const plane: Solid = {
      kind: 'plane',
      through: vec3(0, 0, 0),
      normal: vec3(Math.sin(cut), 0, -Math.cos(cut)),
    };
    const end = {
      mate: solidMate(plane),
      contact,
      gap,
    };
    const band = drawCutBand(pipe, end, wrap, WORDS, setting);
    const { high, low } = band.development;
    const sheet: Sheet = {
      name: 'miter',
      heading: 'Miter cut',
      subject: [
        describePipe(pipe, setting),
        `Cut ${formatAngle(cut)} from square; two such ends turn ${formatAngle(2 * cut)}`,
        `${describeContact(contact)}; ${gap > 0 ? `root gap ${writeBoth(gap, setting)}` : 'no root gap'}`,
        `${describeSource(pipe)}. ${describePaper(setting, wrap)}`,
      ],
      marks: band.marks,
      bounds: band.bounds,
      fit: fitBand(pipe, band.paper, [{ which: 'upper', contact, gap, solids: [plane] }]),
      steps: [
        ...wrapSteps(pipe, setting, wrap),
        ...laySteps(
          pipe,
          setting,
          wrap,
          'Wrap it printed side out, heel line on TDC, reference edge toward the part you keep, until that edge meets itself.',
        ),
        'Cut on the line, then bevel. Turn one piece half round to its mate: heel to heel, throat to throat.',
      ],
      facts: [
        girthFact(pipe, setting, wrap),
        ['Cutback, heel to throat', writeBoth(high - low, setting)],
        ['Each side of the center', writeBoth((high - low) / 2, setting)],
        ['Turn', formatAngle(2 * cut)],
        ['Reference edge to center', writeBoth(-band.reference, setting)],
      ],
      tables: [band.table],
      pictures: [
        turnPicture(pipe, cut),
        endPicture('Facing the cut end', pipe, ['heel, TDC', 'side', 'throat', 'side']),
      ],
      cautions:
        cut > 22.5 * DEGREE + 1e-9
          ? [
              'A miter over 22.5° is outside the simple pressure rules of the piping codes: have it designed by a qualified person.',
            ]
          : [],
    };
    return [sheet];
  },
});

/** Seen from station 90 with this piece upright: heel left, throat right, the other piece leaning right. */
const fromStation90: Sight = { right: vec3(-1, 0, 0), up: vec3(0, 0, 1) };

const turnPicture = (pipe: Pipe, cut: number): Picture => {
  const r = pipe.od / 2;
  const bore = r - pipe.wall;
  const long = r * (1.6 + Math.tan(cut) * 0.4);
  // The other piece is this one mirrored in the plane of the cut.
  const [c, s] = [Math.cos(2 * cut), Math.sin(2 * cut)];
  const mirror = ({ x, y, z }: Vec3): Vec3 => vec3(x * c + z * s, y, x * s - z * c);
  const side = (x: number): readonly Vec3[] => [
    vec3(x, 0, x * Math.tan(cut)),
    vec3(x, 0, -long - r * Math.tan(cut)),
  ];
  const foot = (x: number): Vec3 => vec3(x, 0, -long - r * Math.tan(cut));
  const outline = [side(r), side(-r)].flat();
  const { project, scale } = fitView(fromStation90, [...outline, ...outline.map(mirror)], 46, 50);
  const axis = [vec3(0, 0, -long - r * Math.tan(cut) - 4 / scale), vec3(0, 0, 0)];
  const beyond = [vec3(0, 0, 0), vec3(0, 0, long * 0.9)];
  const piece = (map: (p: Vec3) => Vec3): Mark[] => [
    viewLine(project, side(r).map(map)),
    viewLine(project, side(-r).map(map)),
    viewLine(project, [foot(r), foot(-r)].map(map)),
    viewLine(project, side(bore).map(map), 'dashed'),
    viewLine(project, side(-bore).map(map), 'dashed'),
    viewLine(project, axis.map(map), 'long-dash-dot'),
  ];
  const o = project(vec3(0, 0, 0));
  const radius = Math.min(long * 0.75 * scale, 17);
  const marks: Mark[] = [
    ...piece((p) => p),
    ...piece(mirror),
    viewLine(project, [vec3(r, 0, r * Math.tan(cut)), vec3(-r, 0, -r * Math.tan(cut))], 'continuous', 0.7),
    viewLine(project, beyond, 'long-dash-dot', FINE),
    ...viewAngle(o, radius, Math.PI / 2 - 2 * cut, Math.PI / 2, formatAngle(2 * cut)),
    ...viewText({ x: project(foot(0)).x, y: project(foot(0)).y + 6 }, 'KEEP', 'centre', true),
    ...viewText(
      { x: project(vec3(r, 0, 0)).x - 1.5, y: project(vec3(r, 0, -0.15 * long)).y },
      'heel',
      'right',
    ),
    ...viewText(
      { x: project(vec3(-r, 0, 0)).x + 1.5, y: project(vec3(0, 0, -r * Math.tan(cut) - 0.25 * long)).y },
      'throat',
      'left',
    ),
  ];
  return makePicture('The turn, seen from station 90', marks);
};
