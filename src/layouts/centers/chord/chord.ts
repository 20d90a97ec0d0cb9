import type { Measured } from '../../../drawing/measured.ts';
import type { Sheet, Table } from '../../../drawing/model.ts';
import { mustBeAtMost, mustBeLess, needed, onlyOne } from '../../../fields/among.ts';
import { lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { pointsField } from '../../../fields/points.ts';
import {
  angleOfChord,
  chordOfRise,
  circumradius,
  radiusOfChord,
  riseAt,
  riseOfChord,
} from '../../../geometry/chord.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { jointError, requestError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { apart, endAt, ends, ofArc, shown, taken, uprightAt } from '../../../sheets/measured.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeDecimal, writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { type Arc, chordFigures, chordMarks, shownHalf } from './chord-marks.ts';
import { chordPicture, trianglePicture } from './chord-picture.ts';
import { angleOf, decimalOf, fineOf, lengthOf } from '../../../units/quantity.ts';
import { worded } from '../../../drawing/worded.ts';
import { circleOfPoints, pointsSheet } from './chord-points.ts';

const sizeField = (help: string, example: string) =>
  lengthField(help, { example, above: 0, max: 100_000, optional: true });

/** The circle an arc belongs to: from chord and rise, from either with the diameter, or from three points on its edge. */
export const chord = defineLayout({
  id: 'chord',
  summary: 'diameter and center of a circle from chord and rise, or from points on its edge',
  family: 'centers',
  words: [
    'diameter',
    'radius',
    'three points',
    'points on a circle',
    'rise',
    'broken part',
    'measure a circle',
  ],
  fields: {
    chord: sizeField('straight across the arc from end to end', '16in'),
    rise: sizeField('from the chord’s middle square up to the arc', '6in'),
    diameter: sizeField('diameter, instead of the chord or the rise', '300mm'),
    sides: lengthField('instead of all these, the distances between three punch marks on the edge', {
      example: '300mm,250mm,200mm',
      above: 0,
      list: 3,
      optional: true,
    }),
    points: pointsField(
      'instead of all these, three or more points measured on the edge from one corner, or a CSV file of them',
      { example: '0mm,0mm; 250mm,60mm; 500mm,0mm; 120mm,41mm', least: 3, optional: true },
    ),
    shown: sizeField(
      'width of the piece of arc drawn about its middle; left out, all of an arc up to 600 mm, else 250 mm',
      '250mm',
    ),
  },
  examples: [
    'chord --chord 16in --rise 6in',
    'chord --diameter 1200mm --rise 80mm',
    'chord --points "0mm,0mm; 120mm,41mm; 250mm,60mm; 380mm,42mm; 500mm,0mm"',
    'chord --sides 300mm,250mm,200mm -o circle.pdf',
  ],
  draw: ({ chord, rise, diameter, sides, points, shown }, setting) => {
    const given = { chord, rise, diameter };
    if (points !== undefined) {
      onlyOne({ points, ...given, sides }, HINT());
      return [pointsSheet(points, shown, setting)];
    }
    const triangle = sides === undefined ? undefined : readSides(sides, given, setting);
    const arc = triangle ? triangleArc(triangle) : readArc(given, setting);
    return [drawSheet(arc, triangle, diameter !== undefined, shown, setting)];
  },
  results: ({ points }) => {
    if (points === undefined) return {};
    const { fit, spanned, errors } = circleOfPoints(points);
    const { center, radius, residuals, squares } = fit;
    return { circle: { center: [center.x, center.y], radius, residuals, squares, spanned, errors } };
  },
});

interface Given {
  readonly chord?: number;
  readonly rise?: number;
  readonly diameter?: number;
}

const HINT = () => say`give chord and rise, or one of them and the diameter, or three sides, or points`;

/** The arc of two of chord, rise and diameter. Throws where they cannot go together. */
const readArc = ({ chord, rise, diameter }: Given, setting: Setting): Arc => {
  if (chord !== undefined && rise !== undefined) {
    onlyOne({ rise, diameter }, HINT());
    return { chord, rise, radius: radiusOfChord(chord, rise) };
  }
  const across = needed(chord === undefined ? 'chord' : 'rise', diameter, HINT());
  const radius = across / 2;
  if (chord !== undefined) {
    mustBeAtMost('chord', chord, diameter, say`does not fit in the circle`, setting);
    return { chord, rise: riseOfChord(radius, chord), radius };
  }
  const up = needed('rise', rise, HINT());
  mustBeLess('rise', up, across, say`does not fit in the circle`, setting);
  return { chord: chordOfRise(radius, up), rise: up, radius };
};

type Triangle = readonly [number, number, number];

const readSides = (sides: readonly number[], given: Given, setting: Setting): Triangle => {
  onlyOne({ sides, ...given }, HINT());
  const [a, b, c] = sides;
  if (a === undefined || b === undefined || c === undefined || sides.length > 3)
    throw requestError(
      'sides',
      'not-three',
      say`${sides.length} sides are given`,
      say`three points have three distances: 300mm,250mm,200mm`,
    );
  const longest = Math.max(a, b, c);
  const rest = a + b + c - longest;
  // Nearer to a straight line than this, a tape's own error decides the answer.
  if (longest >= rest * (1 - 1e-6))
    throw jointError(
      'sides',
      'not-a-triangle',
      say`the longest side, ${writeBoth(longest, setting)}, is not less than the other two together, ${writeBoth(rest, setting)}`,
      say`the three marks stand on a curve: measure again, the marks further around`,
    );
  return [a, b, c];
};

/** The arc over the longest side that holds the third mark. */
const triangleArc = (sides: Triangle): Arc => {
  const [long, b, c] = [...sides].sort((p, q) => q - p) as [number, number, number];
  const radius = circumradius(long, b, c);
  const low = riseOfChord(radius, long);
  const isObtuse = b * b + c * c < long * long;
  const x = (b * b - c * c) / (2 * long);
  return { chord: long, rise: isObtuse ? low : 2 * radius - low, radius, third: x };
};

/** How a whole arc on its chord shows its figures; a piece of one is too flat to tell them. */
const arcShows = (arc: Arc, half: number | undefined) => {
  const [curve] = half === undefined ? (chordFigures(arc, half).arcs ?? []) : [];
  const [left, right] = [-1, 1].map((side) => ({ x: (side * arc.chord) / 2, y: 0 })) as [Vec2, Vec2];
  const show = (measured: Measured): Measured | undefined => curve && measured;
  const by = (give: 'radius' | 'length' | 'angle', factor = 1): Measured | undefined =>
    curve && taken(ofArc(give, curve), factor);
  return {
    diameter: by('radius', 2),
    radius: by('radius'),
    angle: by('angle'),
    length: by('length'),
    chord: show(ends(left, right)),
    halfChord: show(taken(ends(left, right), 0.5)),
    rise: show(apart(endAt('cut', right.x, right.y), uprightAt('cut', 0, arc.rise), 'y')),
  };
};

const drawSheet = (
  arc: Arc,
  triangle: Triangle | undefined,
  /** True where the circle's size was given, and only chord or rise was worked out. */
  isSized: boolean,
  width: number | undefined,
  setting: Setting,
): Sheet => {
  const { chord, rise, radius } = arc;
  const both = (length: number): string => writeBoth(length, setting);
  const down = radius - rise;
  const half = shownHalf(arc, width);
  const shows = arcShows(arc, half);
  const turn = rise > radius ? 2 * Math.PI - angleOfChord(radius, chord) : angleOfChord(radius, chord);
  const where =
    Math.abs(down) < 0.05
      ? say`the chord’s middle is the center`
      : down > 0
        ? say`away from the arc`
        : say`toward the arc`;
  return plateSheet({
    name: 'chord',
    heading: triangle
      ? say`Circle through three points`
      : isSized
        ? say`Chord and rise of a circle`
        : say`Circle from chord and rise`,
    subject: [
      triangle
        ? say`Three marks ${triangle.map((side) => writeGiven(side, setting)).join(', ')} apart`
        : say`Chord ${both(chord)}, rise ${both(rise)}`,
      say`Diameter ${writeDecimal(2 * radius, setting)}, radius ${writeDecimal(radius, setting)}`,
      half === undefined
        ? say`Drawn: the whole arc on its chord`
        : say`Drawn: the middle ${both(2 * half)} of the arc, to try on the edge`,
    ],
    marks: chordMarks(arc, half, setting),
    fit: fitFlat(chordFigures(arc, half)),
    steps: [
      CHECK_PRINT(),
      ...(triangle
        ? [
            say`Punch three marks on the edge, as far around as you can, and tape the three distances again.`,
            say`From the middle of any side go square off it by the distance in the table: that is the center.`,
          ]
        : [
            ...(isSized
              ? []
              : [
                  say`Measure the rise again: a small error in it is a large one in the diameter; the table says how large.`,
                ]),
            say`Halve the chord: ${both(chord / 2)}. Strike a line square to it through the middle.`,
            say`On that line go ${both(Math.abs(down))} from the chord, ${where}: the center.`,
          ]),
      say`Prove it: from the center to the edge is ${both(radius)} everywhere.`,
      say`Cut along the arc and try it before you trust the figures: the piece inside it fits a ring or hole, the paper outside it a disc.`,
    ],
    facts: [
      [say`Diameter`, shown(decimalOf(2 * radius), shows.diameter)],
      [say`Radius`, shown(decimalOf(radius), shows.radius)],
      [say`Chord`, shown(lengthOf(chord), shows.chord)],
      [say`Half the chord`, shown(lengthOf(chord / 2), shows.halfChord)],
      [say`Rise`, shown(lengthOf(rise), shows.rise)],
      [
        say`Chord’s middle to center`,
        worded((value) => `${value(lengthOf(Math.abs(down)))}${Math.abs(down) < 0.05 ? '' : `, ${where}`}`),
      ],
      [say`Angle at the center`, shown(angleOf(turn), shows.angle)],
      [say`Along the arc`, shown(lengthOf(radius * turn), shows.length)],
    ],
    tables: [
      ...(triangle ? [sideTable(triangle, radius)] : isSized ? [] : [errorTable(arc, setting)]),
      ordinates(arc),
    ],
    pictures: [triangle ? trianglePicture(triangle) : chordPicture(arc)],
  });
};

/** Ordinates of the arc over its chord, for laying it out with a tape. */
const ordinates = ({ chord, rise, radius }: Arc): Table => ({
  title: say`Arc by tape: along from the chord’s middle, both ways, and square up`,
  header: [say`along`, say`up`],
  rows: Array.from({ length: 9 }, (_, i) => {
    const x = (chord / 2) * (i / 8);
    return [lengthOf(x), lengthOf(riseAt(radius, rise, x))];
  }),
});

/** What a misread rise does to the diameter. */
const errorTable = ({ chord, rise }: Arc, { units }: Setting): Table => {
  const steps = (units === 'in' ? [-25.4 / 16, -25.4 / 32, 25.4 / 32, 25.4 / 16] : [-1, -0.5, 0.5, 1]).filter(
    (step) => rise + step > 0,
  );
  return {
    title: say`If the rise is really`,
    header: [say`rise`, say`diameter`],
    rows: steps.map((step) => [
      fineOf(rise + step, 1, 32),
      fineOf(2 * radiusOfChord(chord, rise + step), 1, 32),
    ]),
  };
};

/** The center from the middle of each side; beyond the side, seen from the third mark, where the angle there is obtuse. */
const sideTable = (sides: Triangle, radius: number): Table => ({
  title: say`Center, square off the middle of each side`,
  header: [say`Side`, say`half`, say`off`, say`which way`],
  rows: sides.map((side, i) => {
    const [b, c] = sides.filter((_, j) => j !== i) as [number, number];
    const off = Math.sqrt(Math.max(0, radius * radius - (side * side) / 4));
    const isObtuse = b * b + c * c < side * side;
    return [
      lengthOf(side),
      lengthOf(side / 2),
      lengthOf(off),
      isObtuse ? say`away from the third mark` : say`toward the third mark`,
    ];
  }),
});
