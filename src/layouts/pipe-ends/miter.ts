import { scenePictures } from '../../drawing/scene-picture.ts';
import { angleField, stockField } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { halfGap } from '../../geometry/turn.ts';
import { vec3 } from '../../geometry/vector.ts';
import { solidMate } from '../../joint/solid-mate.ts';
import type { Solid } from '../../joint/solid.ts';
import { bandFields, countStations, pickBand } from '../../sheets/band-fields.ts';
import { grooveField, weldData } from '../../sheets/weld-data.ts';
import { bandSheet } from '../../sheets/band-sheet.ts';
import { contactField, describeHalfGap, gapField } from '../../sheets/contact.ts';
import { drawCutBand } from '../../sheets/cut-band.ts';
import { endPicture } from '../../sheets/end-picture.ts';
import { formatAngle } from '../../units/angle.ts';
import { angleOf, lengthOf } from '../../units/quantity.ts';
import { miterScene } from './miter-scene.ts';

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
    groove: grooveField,
    ...bandFields,
  },
  examples: [
    'miter --stock "NPS 6 sch 40" --cut 22.5',
    'miter --stock "DN 200 sch 40" --cut 45 --gap 3mm --paper a3',
    'miter --stock "OD 168.3mm wall 7.11mm" --cut 1:4 --divisions 16 -o elbow.pdf',
  ],
  draw: ({ stock, cut, contact, gap, groove, ...rest }, setting) => {
    const making = pickBand(rest);
    const plane = planeOf(cut);
    const off = halfGap(gap, cut);
    const band = drawCutBand(stock, { mate: solidMate(plane), contact, gap: off }, making, WORDS, setting);
    const { high, low } = band.development;
    const weld = weldData(
      { stock, mate: solidMate(plane), mirrored: true, groove },
      band.paper,
      countStations(making),
    );
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
            ...weld.facts,
          ],
          tables: [band.table, ...weld.tables],
          pictures: [
            ...scenePictures(miterScene({ stock, cut, end: { mate: solidMate(plane), contact, gap: off } })),
            endPicture('Facing the cut end', stock, ['heel, TDC', 'side', 'throat', 'side']),
          ],
          cautions: [
            ...(cut > 22.5 * DEGREE + 1e-9
              ? [
                  'A miter over 22.5° is outside the simple pressure rules of the piping codes: have it designed by a qualified person.',
                ]
              : []),
            ...weld.cautions,
          ],
        },
        setting,
      ),
    ];
  },
  scene: ({ stock, cut, contact, gap }) =>
    miterScene({ stock, cut, end: { mate: solidMate(planeOf(cut)), contact, gap: halfGap(gap, cut) } }),
});

/** The plane of the cut; station 0 is the long side. */
const planeOf = (cut: number): Solid => ({
  kind: 'plane',
  through: vec3(0, 0, 0),
  normal: vec3(Math.sin(cut), 0, -Math.cos(cut)),
});
