import type { SheetFigures } from '../../../drawing/fit-up.ts';
import type { Sheet } from '../../../drawing/model.ts';
import { unionBox } from '../../../drawing/paths.ts';
import { mustBeLess } from '../../../fields/among.ts';
import { countField, flagField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { riseOfChord } from '../../../geometry/chord.ts';
import { areaOf, contourPoints } from '../../../geometry/contour.ts';
import {
  nestPitch,
  type Ring,
  segmentContour,
  segmentCorners,
  widestGap,
} from '../../../geometry/ring-segment.ts';
import { distance2 } from '../../../geometry/vector.ts';
import { ordinateTable, roundStep } from '../../../sheets/arcs.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { contourFigures, fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import {
  apart,
  type DrawnArc,
  ends,
  levelAt,
  ofArc,
  rise,
  shown,
  taken,
  widthOf,
} from '../../../sheets/measured.ts';
import { type MassAsked, massFacts, massFields } from '../../../sheets/plate-mass.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { segmentMarks, showsCenter, wholeMarks } from './ring-marks.ts';
import { angleOf, countOf, givenOf, lengthOf } from '../../../units/quantity.ts';
import { worded } from '../../../drawing/worded.ts';
import { ringPicture } from './ring-picture.ts';

const diameterField = (help: string, example: string) =>
  lengthField(help, { example, above: 0, max: 50_000 });

/** A flat ring in one piece or in segments; the sheet's origin is the ring's center. */
export const ring = defineLayout({
  id: 'ring',
  summary: 'flat ring, in one piece or in equal segments with their joint lines',
  family: 'curves',
  words: ['flange ring', 'gasket', 'segments', 'stiffener', 'washer', 'backing ring', 'disc'],
  fields: {
    outside: diameterField('outside diameter', '600mm'),
    inside: diameterField('inside diameter', '400mm'),
    segments: countField('number of equal pieces the ring is welded together from', {
      default: '1',
      example: '6',
      min: 1,
      max: 360,
    }),
    gap: lengthField('root gap of each joint, half of it off each piece', {
      default: '0mm',
      example: '2mm',
      max: 100,
    }),
    whole: flagField('the whole ring with its joint lines besides the segment, for fitting up'),
    ...massFields,
  },
  sheets: ['ring', 'ring segment'],
  examples: [
    'ring --outside 400mm --inside 325mm --thickness 12mm',
    'ring --outside 2000mm --inside 1700mm --segments 8 --gap 3mm --thickness 20mm',
    'ring --outside 30in --inside 24in --segments 4 --whole -o ring.pdf',
  ],
  draw: (asked, setting) => {
    checkRing(asked, setting);
    if (asked.segments === 1) return [drawWhole(asked, asked, setting)];
    const segment = drawSegment(asked, asked, setting);
    return asked.whole ? [segment, drawWhole(asked, asked, setting)] : [segment];
  },
});

const checkRing = (asked: Ring, setting: Setting): void => {
  const { outside, inside, gap } = asked;
  mustBeLess('inside', inside, outside, say`is not smaller than the outside`, setting);
  mustBeLess('gap', gap, widestGap(asked), say`leaves nothing of the inside of a segment`, setting);
};

const describe = ({ outside, inside, segments, gap }: Ring, setting: Setting): readonly string[] => [
  say`Outside ⌀ ${writeGiven(outside, setting)}, inside ⌀ ${writeGiven(inside, setting)}`,
  segments === 1
    ? gap === 0
      ? say`In one piece`
      : say`In one piece with one joint, gap ${writeGiven(gap, setting)}`
    : say`One of ${segments} equal segments of ${formatAngle((2 * Math.PI) / segments)}; ${
        gap === 0 ? say`no gap at the joints` : say`gap ${writeGiven(gap, setting)}, half off each piece`
      }`,
];

const ORIGIN = { x: 0, y: 0 };

/** Both circles, or the outline of a ring with one joint. */
const wholeFigures = (ring: Ring): Partial<SheetFigures> =>
  ring.segments === 1 && ring.gap > 0
    ? contourFigures(segmentContour(ring))
    : { circles: [ring.outside, ring.inside].map((diameter) => ({ centre: ORIGIN, radius: diameter / 2 })) };

/** Both arcs about the ring's own center and the two straight joints. */
const segmentFigures = (ring: Ring): Partial<SheetFigures> => {
  const { outRight, outLeft, inLeft, inRight } = segmentCorners(ring);
  const { outside, inside, segments, gap } = ring;
  const arcs = [outside, inside].map((diameter) => {
    const half = Math.PI / segments - Math.asin(gap / diameter);
    return { centre: ORIGIN, radius: diameter / 2, from: Math.PI / 2 - half, sweep: 2 * half };
  });
  return {
    arcs,
    lines: [
      { from: outRight, to: inRight },
      { from: outLeft, to: inLeft },
    ],
  };
};

const drawWhole = (asked: Ring, mass: MassAsked, setting: Setting): Sheet => {
  const { outside, inside, segments, gap } = asked;
  const both = (length: number): string => writeBoth(length, setting);
  const area = segments * areaOf(segmentContour(asked));
  const joined = segments > 1;
  const [outer, inner] = [outside, inside].map((diameter) => Math.PI * diameter - (joined ? 0 : gap)) as [
    number,
    number,
  ];
  const [rim, bore] = [outside, inside].map((diameter) => ({
    centre: ORIGIN,
    radius: diameter / 2,
    // Clear of the bottom, where a single joint lies.
    from: -Math.PI / 4,
    sweep: 1.5 * Math.PI,
  })) as [DrawnArc, DrawnArc];
  return plateSheet({
    name: 'ring',
    heading: joined ? say`Ring to fit up` : say`Ring`,
    subject: [
      ...describe(asked, setting).slice(0, 1),
      joined ? say`${segments} segments with their joint lines` : (describe(asked, setting)[1] ?? ''),
    ],
    marks: wholeMarks(asked, setting),
    fit: fitFlat(wholeFigures(asked)),
    steps: joined
      ? [
          CHECK_PRINT(),
          say`Tape the sheet down flat where the ring is fitted up. Prick both circles through onto the floor or bench.`,
          say`Set the segments between the circles, each joint on its line. Tack them in turn on opposite sides.`,
          say`Tape across in four directions: ${both(outside)} every time. Then weld, opposite joints after one another.`,
        ]
      : [
          CHECK_PRINT(),
          showsCenter(asked)
            ? say`Lay the sheet on the plate, tape it down. Prick the lines through and punch the center.`
            : say`Lay the sheet on the plate, tape it down. Prick the lines through. Strike the center lines across the plate and punch where they cross.`,
          say`Strike both circles from the center with dividers or trammel: ${both(outside / 2)} and ${both(inside / 2)}.`,
          say`Cut the inside first, while the plate around it holds it flat; then the outside.`,
          say`Check: ${both((outside - inside) / 2)} wide all around, ${both(outside)} across in two directions.`,
        ],
    facts: [
      [say`Outside diameter`, shown(givenOf(outside), taken(ofArc('radius', rim), 2))],
      [say`Inside diameter`, shown(givenOf(inside), taken(ofArc('radius', bore), 2))],
      [
        say`Width`,
        shown(
          lengthOf((outside - inside) / 2),
          apart(levelAt('cut', -outside / 2, 0), levelAt('cut', -inside / 2, 0), 'x'),
        ),
      ],
      // Less the gap, where the ring has one joint.
      [
        say`Around the outside, by tape`,
        shown(lengthOf(outer), taken(ofArc('radius', rim), 2 * Math.PI, outer - Math.PI * outside)),
      ],
      [
        say`Around the inside, by tape`,
        shown(lengthOf(inner), taken(ofArc('radius', bore), 2 * Math.PI, inner - Math.PI * inside)),
      ],
      ...massFacts(area, mass),
    ],
    pictures: [ringPicture(asked, setting)],
  });
};

const drawSegment = (asked: Ring, mass: MassAsked, setting: Setting): Sheet => {
  const { outside, inside, segments } = asked;
  const both = (length: number): string => writeBoth(length, setting);
  const contour = segmentContour(asked);
  const { outRight, outLeft, inLeft, inRight } = segmentCorners(asked);
  const [outChord, inChord] = [distance2(outRight, outLeft), distance2(inRight, inLeft)];
  const box = unionBox(contourPoints(contour).map(({ x, y }) => ({ minX: x, maxX: x, minY: y, maxY: y })));
  const diagonal = distance2(outRight, inLeft);
  const pitch = segments > 2 ? nestPitch(asked) : undefined;
  const ordinates = (diameter: number, chord: number, name: string, foot: number) =>
    ordinateTable(
      { radius: diameter / 2, chord, rise: riseOfChord(diameter / 2, chord) },
      roundStep(chord / 2, setting, 8),
      say`${name} arc, ordinates from its chord`,
      { x: 0, y: foot },
    );
  return plateSheet({
    name: 'ring segment',
    heading: say`Ring segment`,
    subject: describe(asked, setting),
    marks: segmentMarks(asked, setting),
    fit: fitFlat(segmentFigures(asked)),
    steps: [
      CHECK_PRINT(),
      say`Check the sheet: both diagonals from corner to corner ${both(diagonal)}.`,
      pitch === undefined
        ? say`Lay the template on the plate and mark around it, once for each segment.`
        : say`Lay the template along a strip ${both(box.maxX - box.minX)} wide, mark around it, move it on by ${both(pitch)} and the width of the cut, mark again.`,
      say`Punch the middle line at both arcs on every piece and number the pieces.`,
      say`Cut out. Lay one piece on another: they must match both ways up.`,
      say`Bevel the joints, set the pieces to the middle lines on a struck circle, tack opposite joints in turn.`,
    ],
    facts: [
      [
        say`Segments`,
        worded((value) => `${value(countOf(segments))} × ${value(angleOf((2 * Math.PI) / segments))}`),
      ],
      [say`Width, along a joint`, shown(lengthOf(distance2(outRight, inRight)), ends(outRight, inRight))],
      [say`Outside corner to corner`, shown(lengthOf(outChord), ends(outRight, outLeft))],
      [say`Inside corner to corner`, shown(lengthOf(inChord), ends(inRight, inLeft))],
      [say`Both diagonals`, shown(lengthOf(diagonal), ends(outRight, inLeft))],
      [
        say`Plate for one`,
        worded(
          (value) =>
            say`${value(shown(lengthOf(box.maxX - box.minX), widthOf('x')))} by ${value(shown(lengthOf(box.maxY - box.minY), rise()))}`,
        ),
      ],
      ...(pitch === undefined
        ? []
        : ([
            [
              say`Each next one, nested`,
              worded((value) => say`${value(lengthOf(pitch))} more, and the width of the cut`),
            ],
          ] as const)),
      ...massFacts(areaOf(contour), mass, say`Mass of one`),
    ],
    tables: [
      ordinates(outside, outChord, say`Outside`, outRight.y),
      ordinates(inside, inChord, say`Inside`, inRight.y),
    ],
    pictures: [ringPicture(asked, setting)],
  });
};
