import type { Fact, Picture, Sheet } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { stockField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { modulo } from '../../../geometry/angle-units.ts';
import type { Contact } from '../../../geometry/reach.ts';
import { requestError } from '../../../issue.ts';
import { bandFields, countStations, pickBand, type BandValues } from '../../../sheets/band-fields.ts';
import { describeGap, describeHalfGap, gapField, usualContactField } from '../../../sheets/contact.ts';
import { drawCutBand, type CutBand } from '../../../sheets/cut-band.ts';
import { endPicture } from '../../../sheets/end-picture.ts';
import { grooveField, weldData } from '../../../sheets/weld-data.ts';
import { closedKinds, stockReach, type Stock } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';

import { angleBetween } from '../../../geometry/vector.ts';
import { bandSheet } from '../../../sheets/band-sheet.ts';
import {
  apart,
  below,
  fromReference,
  ORIGIN,
  rise,
  shown,
  taken,
  uprightAt,
} from '../../../sheets/measured.ts';
import { lengthOf } from '../../../units/quantity.ts';
import { say } from '../../../words/say.ts';
import {
  checkWye,
  endGap,
  HEADER_AXIS,
  isPlanar,
  legMate,
  legSolids,
  usualContact,
  type WyeJoint,
} from './wye-joint.ts';
import { facingPosition, legField, placeLeg, type Leg, type LegRequest } from './wye-leg.ts';
import { wyeOpening } from './wye-opening.ts';
import { wyeScene } from './wye-scene.ts';
import { rolledTwin, sameLeg, sameOpening } from './wye-twins.ts';
import { legWords, nameLeg } from './wye-words.ts';

const MOST_LEGS = 8;

/** Legs whose axes cross in one point: turns, wyes and crosses, on a header or closing on each other alone. */
export const wye = defineLayout({
  id: 'wye',
  summary: 'wye or cross: legs at any angles, each trimmed against its neighbors, on a header or without one',
  family: 'pipe ends',
  words: ['y-branch', 'true wye', 'cross', 'crotch', 'three-way', 'fork'],
  fields: {
    stock: stockField('the pipe or other closed stock of every leg that names none of its own', {
      example: 'NPS 6 sch 40',
      aliases: ['pipe'],
      kinds: closedKinds,
    }),
    leg: legField(
      'a leg’s direction on the plan, counter-clockwise seen from above; up: its rise; its own stock, if it has one',
    ),
    header: stockField(
      'a pipe or other closed stock that runs through whole along direction 0, its position 0 on top, for the legs to sit on',
      { example: 'NPS 8 sch 40', kinds: closedKinds, optional: true },
    ),
    contact: usualContactField('od where legs of one size meet in planes, else wall'),
    gap: gapField,
    groove: grooveField,
    ...bandFields,
  },
  sheets: ['leg N', 'header opening N'],
  examples: [
    'wye --stock "NPS 6 sch 40" --leg 0 --leg 120 --leg 240',
    'wye --stock "NPS 4 sch 40" --leg 0 --leg 90 --leg 180 --leg 270',
    'wye --stock "DN 80 sch 40" --header "DN 150 sch 40" --leg 45 --leg 135 --gap 2mm --paper a4',
    'wye --stock "NPS 6 sch 40" --leg 0 --leg 180 --leg "100 up 30 NPS 3 sch 40" -o cross.pdf',
  ],
  draw: ({ contact, gap, groove, ...rest }, setting) => {
    const joint = readWye(rest);
    const making = pickBand(rest);
    const pictures = scenePictures(wyeScene(joint, { contact, gap }, setting));
    const { legs, header } = joint;
    // A seam is where the plate's edges meet: rolled over, it would lie on the other side.
    const twins = legs.map((leg) =>
      making.madeFrom === 'pipe' ? rolledTwin(joint, leg, contact) : undefined,
    );
    return [
      ...legs.map((leg, i) => ({
        ...legSheet(
          joint,
          leg,
          contact ?? usualContact(joint, leg),
          { gap, groove },
          making,
          pictures,
          setting,
        ),
        ...sameLeg(twins[i]),
      })),
      ...(header
        ? legs.map((leg, i) => ({
            ...wyeOpening(leg, header, pictures, setting),
            ...sameOpening(leg, twins[i], header),
          }))
        : []),
    ];
  },
  scene: ({ contact, gap, ...rest }, setting) => wyeScene(readWye(rest), { contact, gap }, setting),
});

/** The joint as it is asked for. Throws where the legs do not close. */
const readWye = ({
  stock,
  leg: requests,
  header,
}: {
  readonly stock: Stock;
  readonly leg: readonly LegRequest[];
  readonly header: Stock | undefined;
}): WyeJoint => {
  if (requests.length < 2 || requests.length > MOST_LEGS)
    throw requestError(
      'leg',
      'number-of-legs',
      say`${requests.length === 0 ? say`no legs are` : requests.length === 1 ? say`one leg is` : say`${requests.length} legs are`} given`,
      say`give 2 to ${MOST_LEGS} legs, such as --leg 0 --leg 120 --leg 240`,
    );
  const legs = requests.map((request, i) => placeLeg(request, request.stock ?? stock, i + 1));
  const joint: WyeJoint = { legs, header };
  checkWye(joint);
  return joint;
};

const directionText = ({ heading, rise }: Leg): string =>
  `${formatAngle(heading)}${Math.abs(rise) < 1e-9 ? '' : `, ${rise > 0 ? say`up` : say`down`} ${formatAngle(Math.abs(rise))}`}`;

const legSheet = (
  joint: WyeJoint,
  leg: Leg,
  contact: Contact,
  { gap, groove }: { readonly gap: number; readonly groove: number | undefined },
  wrap: BandValues,
  pictures: readonly Picture[],
  setting: Setting,
): Sheet => {
  const { legs, header } = joint;
  const { stock } = leg;
  const words = legWords(joint, leg);
  const off = endGap(joint, leg, gap);
  const end = { mate: legMate(joint, leg, gap), contact, gap: off };
  const band = drawCutBand(stock, end, wrap, words, setting);
  const { high, low } = band.development;
  const weld = weldData(
    { stock, mate: legMate(joint, leg, 0), mirrored: true, groove },
    band.paper,
    countStations(wrap),
  );
  const others = legs.filter((other) => other !== leg);
  const smaller = legs.filter((other) => stockReach(other.stock) < stockReach(stock) - 1e-9);
  const onTop = Math.abs(Math.abs(leg.rise) - Math.PI / 2) < 1e-9 ? say`as the picture shows` : say`on top`;
  return bandSheet(
    {
      name: `leg ${leg.number}`,
      heading: say`Wye, leg ${leg.number}`,
      stock,
      band,
      making: wrap,
      about: [
        say`Leg ${leg.number} of ${legs.length} at ${directionText(leg)}: ${stock.designation}${header ? say`, on ${header.designation} along 0°` : ''}`,
      ],
      aboutMore: [
        say`With ${others
          .map((other) => say`leg ${other.number} at ${directionText(other)} (${other.stock.designation})`)
          .join(', ')}`,
      ],
      contact,
      cut: off > 0 || gap === 0 ? describeGap(gap, setting) : describeHalfGap(gap, setting),
      lines: [{ which: 'upper', contact, gap: off, solids: legSolids(joint, leg, gap) }],
      wrap: say`Wrap it printed side out, station 0 ${onTop} when the leg lies as on the plan, reference edge toward the part you keep, until that edge meets itself.`,
      after: [
        isPlanar(joint, leg)
          ? say`Cut on the line; each stretch lies in one plane. Bevel, and try it against its neighbors before you tack.`
          : say`Cut square to the surface on the line, then bevel outside. Try it in place before you tack.`,
        ...(smaller.length > 0
          ? [
              say`Tack the larger ${header ? say`parts` : say`legs`} first. Stand ${smaller.map(({ number }) => nameLeg(number)).join(say` and `)} in place, scribe the bore on them, and open them inside that line.`,
            ]
          : []),
      ],
      facts: [
        ...neighbourFacts(joint, leg, band),
        [say`Cutback, long to short`, shown(lengthOf(high - low), rise('upper'))],
        longPointFact(high),
        [say`Short point to the crossing`, shown(lengthOf(-low), below('low', 'upper'))],
        [say`Reference edge to the crossing`, shown(lengthOf(-band.reference), fromReference(band))],
        ...weld.facts,
      ],
      tables: [band.table, ...weld.tables],
      pictures: [
        ...pictures,
        endPicture(
          say`Facing the cut end of leg ${leg.number}`,
          stock,
          words.map((word) => word.replace(' · TDC', '').toLowerCase()),
        ),
      ],
      cautions: [
        say`A wye is outside the simple pressure rules of the piping codes: have it designed by a qualified person.`,
        ...weld.cautions,
      ],
    },
    setting,
  );
};

/** Where the long point lies: short of the crossing, or past it where a neighbor lies under a wide angle. */
const longPointFact = (high: number): Fact =>
  high > 0
    ? [say`Long point past the crossing`, shown(lengthOf(high), taken(below('high', 'upper'), -1))]
    : [say`Long point to the crossing`, shown(lengthOf(-high), below('high', 'upper'))];

/** For each neighbour: the angle between the axes, and the distance from the crossing to the cut on the line that faces it. */
const neighbourFacts = (
  { legs, header }: WyeJoint,
  leg: Leg,
  { paper, development: { ordinate } }: CutBand,
): readonly Fact[] => {
  const neighbours = [
    ...legs.filter((other) => other !== leg).map(({ number, out }) => ({ name: nameLeg(number), out })),
    ...(header ? [{ name: say`the header`, out: HEADER_AXIS }] : []),
  ];
  return neighbours.flatMap(({ name, out }) => {
    const angle = angleBetween(leg.out, out);
    if (Math.PI - angle < 1e-9) return [];
    const { from, girth, xAt, positionAt } = paper;
    // The line that faces it, in the turn that the paper shows.
    const turned = modulo(xAt((facingPosition(leg, out) / leg.stock.girth) * 2 * Math.PI) - from, girth);
    const x = from + turned;
    const height = ordinate(positionAt(x));
    return [
      [
        say`Cutback to ${name}, ${formatAngle(angle, 2)} apart`,
        shown(lengthOf(-height), apart(uprightAt('cut', x, height), ORIGIN, 'y')),
      ] as const,
    ];
  });
};
