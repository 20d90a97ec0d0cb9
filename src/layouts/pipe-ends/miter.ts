import type { Mark, Picture } from '../../drawing/model.ts';
import { FINE } from '../../drawing/shape.ts';
import { fitView, makePicture, viewAngle, viewLine, viewText, type Sight } from '../../drawing/view.ts';
import { angleField, stockField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { halfGap } from '../../geometry/turn.ts';
import { vec3, type Vec3 } from '../../geometry/vector.ts';
import { solidMate } from '../../joint/solid-mate.ts';
import type { Solid } from '../../joint/solid.ts';
import { bandFields, pickBand } from '../../sheets/band-fields.ts';
import { bandSheet } from '../../sheets/band-sheet.ts';
import { contactField, describeHalfGap, gapField } from '../../sheets/contact.ts';
import { drawCutBand } from '../../sheets/cut-band.ts';
import { endPicture } from '../../sheets/end-picture.ts';
import { stockReach, type Stock } from '../../stock/stock.ts';
import { formatAngle } from '../../units/angle.ts';
import { angleOf, lengthOf } from '../../units/quantity.ts';

const DEGREE = Math.PI / 180;
const WORDS = ['HEEL · TDC', 'SIDE', 'THROAT', 'SIDE'] as const;

/** A pipe end cut in one plane, `cut` from square: two of them make a turn of twice the cut. */
export const miter = defineLayout({
  id: 'miter',
  summary: 'miter cut on a pipe end; two such ends make a turn of twice the cut angle',
  family: 'pipe ends',
  words: ['mitre', 'bevel', 'cutback', 'angle cut', 'two-piece elbow', 'bend'],
  fields: {
    stock: stockField({
      help: 'the pipe or other stock to be cut',
      example: 'NPS 6 sch 40',
      aliases: ['pipe'],
    }),
    cut: angleField({
      help: 'angle of the cut from square; the turn is twice as much',
      example: '22.5',
      above: 0,
      below: 90 * DEGREE,
    }),
    contact: contactField('od'),
    gap: gapField,
    ...bandFields,
  },
  examples: [
    'miter --stock "NPS 6 sch 40" --cut 22.5',
    'miter --stock "DN 200 sch 40" --cut 45 --gap 3mm --paper a3',
    'miter --stock "OD 168.3mm wall 7.11mm" --cut 1:4 --divisions 16 -o elbow.pdf',
  ],
  draw: ({ stock, cut, contact, gap, ...rest }, setting) => {
    const making = pickBand(rest);
    const plane: Solid = {
      kind: 'plane',
      through: vec3(0, 0, 0),
      normal: vec3(Math.sin(cut), 0, -Math.cos(cut)),
    };
    const off = halfGap(gap, cut);
    const band = drawCutBand(stock, { mate: solidMate(plane), contact, gap: off }, making, WORDS, setting);
    const { high, low } = band.development;
    return [
      bandSheet(
        {
          name: 'miter',
          heading: 'Miter cut',
          stock,
          band,
          making,
          about: [`Cut ${formatAngle(cut)} from square; two such ends turn ${formatAngle(2 * cut)}`],
          contact,
          cut: describeHalfGap(gap, setting),
          lines: [{ which: 'upper', contact, gap: off, solids: [plane] }],
          wrap: 'Wrap it printed side out, heel line on TDC, reference edge toward the part you keep, until that edge meets itself.',
          after: [
            'Cut on the line, then bevel. Rotate one piece 180° to its mate: heel to heel, throat to throat.',
          ],
          facts: [
            ['Cutback, heel to throat', lengthOf(high - low)],
            ['Each side of the center', lengthOf((high - low) / 2)],
            ['Turn', angleOf(2 * cut)],
            ['Reference edge to center', lengthOf(-band.reference)],
          ],
          tables: [band.table],
          pictures: [
            turnPicture(stock, cut),
            endPicture('Facing the cut end', stock, ['heel, TDC', 'side', 'throat', 'side']),
          ],
          cautions:
            cut > 22.5 * DEGREE + 1e-9
              ? [
                  'A miter over 22.5° is outside the simple pressure rules of the piping codes: have it designed by a qualified person.',
                ]
              : [],
        },
        setting,
      ),
    ];
  },
});

/** Seen from station 90 with this piece upright: heel left, throat right, the other piece leaning right. */
const fromStation90: Sight = { right: vec3(-1, 0, 0), up: vec3(0, 0, 1) };

const turnPicture = (stock: Stock, cut: number): Picture => {
  const r = stockReach(stock);
  const bore = r - stock.wall;
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
