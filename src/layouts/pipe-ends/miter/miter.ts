import type { Fact } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { angleField, stockField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import type { End } from '../../../geometry/development.ts';
import type { Contact } from '../../../geometry/reach.ts';
import { halfGap } from '../../../geometry/turn.ts';
import { unit3, vec3 } from '../../../geometry/vector.ts';
import { solidMate } from '../../../joint/solid-mate.ts';
import type { Solid } from '../../../joint/solid.ts';
import { bandFields, countStations, pickBand } from '../../../sheets/band-fields.ts';
import { bandSheet } from '../../../sheets/band-sheet.ts';
import { contactField, describeHalfGap, gapField } from '../../../sheets/contact.ts';
import { drawCutBand } from '../../../sheets/cut-band.ts';
import { endPicture } from '../../../sheets/end-picture.ts';
import { insideSheets } from '../../../sheets/inside-faces.ts';
import { below, fromReference, rise, shown, taken } from '../../../sheets/measured.ts';
import { sawSettings } from '../../../sheets/saw-settings.ts';
import { grooveField, weldData } from '../../../sheets/weld-data.ts';
import { formatAngle } from '../../../units/angle.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import { say } from '../../../words/say.ts';
import { miterScene } from './miter-scene.ts';
const WORDS = () => [say`HEEL · TDC`, say`SIDE`, say`THROAT`, say`SIDE`] as const;

/** A pipe end cut in one plane, `cut` from square: two of them make a turn of twice the cut. */
export const miter = defineLayout({
  id: 'miter',
  summary: 'miter cut on a pipe end; two such ends make a turn of twice the cut angle',
  family: 'pipe ends',
  words: ['mitre', 'bevel', 'cutback', 'angle cut', 'two-piece elbow', 'bend'],
  fields: {
    stock: stockField('the pipe or other stock to be cut', { example: 'NPS 6 sch 40', aliases: ['pipe'] }),
    cut: angleField('angle of the cut from square; the turn is twice as much', {
      example: '22.5',
      above: 0,
      below: 90 * DEGREE,
    }),
    lean: angleField(
      'lean of the cut square to that, toward station 90: the plane is z = x tan(cut) + y tan(lean)',
      { default: '0', example: '15', above: -90 * DEGREE, below: 90 * DEGREE },
    ),
    contact: contactField('od'),
    gap: gapField,
    groove: grooveField,
    ...bandFields,
  },
  examples: [
    'miter --stock "NPS 6 sch 40" --cut 22.5',
    'miter --stock "DN 200 sch 40" --cut 45 --gap 3mm --paper a3',
    'miter --stock "tube 100x100x6mm" --cut 45',
    'miter --stock "L 3x3x1/4" --cut 30 --lean 15',
    'miter --stock "OD 168.3mm wall 7.11mm" --cut 1:4 --divisions 16 -o elbow.pdf',
  ],
  draw: ({ stock, cut, lean, contact, gap, groove, ...rest }, setting) => {
    const making = pickBand(rest);
    const plane = planeOf(cut, lean);
    const end = endOf({ cut, lean, contact, gap });
    const band = drawCutBand(stock, end, making, WORDS(), setting);
    const { high, low } = band.development;
    const shaped = stock.kind !== 'pipe';
    const saw = sawSettings(stock, { x: Math.tan(cut), y: Math.tan(lean) });
    const about = [
      say`Cut ${formatAngle(cut)} from square${lean === 0 ? say`; two such ends turn ${formatAngle(2 * cut)}` : say`, and ${formatAngle(Math.abs(lean))} toward station ${lean > 0 ? 90 : 270}`}`,
    ];
    const weld = shaped
      ? undefined
      : weldData(
          {
            stock,
            mate: solidMate(plane),
            mirrored: true,
            groove,
            ...(contact === 'od' && { line: 'upper' }),
          },
          band.paper,
          countStations(making),
        );
    return [
      bandSheet(
        {
          name: 'miter',
          heading: say`Miter cut`,
          stock,
          band,
          making,
          about,
          contact,
          cut: describeHalfGap(gap, setting),
          lines: [{ which: 'upper', contact, gap: end.gap, solids: [plane] }],
          wrap: shaped
            ? say`Wrap it printed side out, folds on the corners, middle lines on the middles of the faces, reference edge toward the part you keep.`
            : say`Wrap it printed side out, heel line on TDC, reference edge toward the part you keep, until that edge meets itself.`,
          after: [
            shaped
              ? say`Cut on the line, or on a saw set by the table, then bevel. Its mate is cut with this sheet too, and turned end for end.`
              : say`Cut on the line, then bevel. Rotate one piece 180° to its mate: heel to heel, throat to throat.`,
          ],
          facts: [
            ...cutFacts({ shaped, high, low, cut, lean, contact }),
            [say`Reference edge to center`, shown(lengthOf(-band.reference), fromReference(band))],
            ...(weld?.facts ?? []),
            ...saw.facts,
          ],
          tables: [band.table, ...saw.tables, ...(weld?.tables ?? [])],
          pictures: [
            ...(lean === 0 ? scenePictures(miterScene({ stock, cut, end })) : []),
            endPicture(say`Facing the cut end`, stock, [say`heel, TDC`, say`side`, say`throat`, say`side`]),
          ],
          cautions: [
            ...(!shaped && cut > 22.5 * DEGREE + 1e-9
              ? [
                  say`A miter over 22.5° is outside the simple pressure rules of the piping codes: have it designed by a qualified person.`,
                ]
              : []),
            ...(weld?.cautions ?? []),
          ],
        },
        setting,
      ),
      ...insideSheets(stock, end, [plane], about, setting),
    ];
  },
  scene: ({ stock, cut, lean, contact, gap }) =>
    miterScene({ stock, cut, end: endOf({ cut, lean, contact, gap }) }),
});

const endOf = ({
  cut,
  lean,
  contact,
  gap,
}: {
  readonly cut: number;
  readonly lean: number;
  readonly contact: Contact;
  readonly gap: number;
}): End => ({
  mate: solidMate(planeOf(cut, lean)),
  contact,
  gap: halfGap(gap, Math.atan(Math.hypot(Math.tan(cut), Math.tan(lean)))),
});

/** The plane of the cut; station 0 is the long side, and station 90 too where it leans. */
const planeOf = (cut: number, lean: number): Solid => ({
  kind: 'plane',
  through: vec3(0, 0, 0),
  normal: unit3(vec3(Math.tan(cut), Math.tan(lean), -1)),
});

/** Heights along the stock that differ by less than this print alike, mm. */
const ALIKE = 0.05;

/** Where heel and throat lie from the center: a gap, or a contact that is not the outside, moves the line off the middle. */
const centerFacts = (high: number, low: number): readonly Fact[] =>
  Math.abs(high + low) < ALIKE
    ? [[say`Each side of the center`, shown(lengthOf((high - low) / 2), taken(rise('upper'), 0.5))]]
    : [
        high >= 0
          ? [say`Heel past the center`, shown(lengthOf(high), taken(below('high', 'upper'), -1))]
          : [say`Heel short of the center`, shown(lengthOf(-high), below('high', 'upper'))],
        [say`Throat short of the center`, shown(lengthOf(-low), below('low', 'upper'))],
      ];

/** How long the cut is along the stock, and what two such ends turn. */
const cutFacts = ({
  shaped,
  high,
  low,
  cut,
  lean,
  contact,
}: {
  readonly shaped: boolean;
  /** The highest and the lowest point of the line, from the center, mm. */
  readonly high: number;
  readonly low: number;
  readonly cut: number;
  readonly lean: number;
  readonly contact: Contact;
}): readonly Fact[] => [
  ...(shaped
    ? ([[say`Long point to short point`, shown(lengthOf(high - low), rise('upper'))]] as const)
    : [
        [say`Cutback, heel to throat`, shown(lengthOf(high - low), rise('upper'))] as const,
        ...centerFacts(high, low),
      ]),
  ...(lean === 0
    ? ([
        [
          say`Turn`,
          // Lines through the wall do not lie in the plane of the cut.
          shown(angleOf(2 * cut), contact === 'od' ? taken({ kind: 'tilt', line: 'upper' }, 2) : undefined),
        ],
      ] as const)
    : []),
];
