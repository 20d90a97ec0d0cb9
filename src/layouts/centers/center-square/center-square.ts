import { turnMark } from '../../../drawing/extent.ts';
import type { Fact, Mark, Sheet } from '../../../drawing/model.ts';
import { FINE, letter, NARROW, polylinePath, ruleLine } from '../../../drawing/paths.ts';
import { mustBeAtMost } from '../../../fields/among.ts';
import { lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { riseOfChord } from '../../../geometry/chord.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat, sideFigures } from '../../../sheets/fit-record.ts';
import { drawOutline, drawPunch } from '../../../sheets/flat-marks.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { drawScaleEdge } from '../../../sheets/scale-edge.ts';
import { fineOf, givenOf, lengthOf, writeOnce } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { chordsPicture, cornerPicture } from './center-square-picture.ts';

/** Two cards that find the center of a circle of any size from its edge: by chords, and by a right angle. */
export const centerSquare = defineLayout({
  id: 'center-square',
  summary: 'cards that find the center of a circle larger than the paper: chord and square, and right angle',
  family: 'centers',
  words: ['centerpoint', 'middle', 'center head', 'large disc', 'tank', 'vessel'],
  fields: {
    diameter: lengthField('diameter of the circle, if it is known; then the readings are printed too', {
      example: '900mm',
      above: 0,
      optional: true,
    }),
    chord: lengthField(
      'length of the chord card’s edge; left out, 160 mm, or a quarter of a large diameter, up to 215 mm',
      { example: '10in', min: 60, max: 3000, optional: true },
    ),
    leg: lengthField(
      'length of the right angle’s legs; left out, 160 mm, or as long as a diameter up to 980 mm asks',
      { example: '12in', min: 60, max: 3000, optional: true },
    ),
  },
  sheets: ['chord square', 'corner square'],
  examples: ['center-square --diameter 900mm', 'center-square --chord 10in --leg 12in'],
  draw: ({ diameter, chord: asked, leg }, setting) => {
    const chord = asked ?? usualChord(diameter, setting);
    mustBeAtMost('chord', chord, diameter, say`does not fit in the circle`, setting);
    const equal = (diameter ?? 0) * Math.SQRT1_2 + 8;
    const reach = leg ?? (diameter === undefined || equal > LONGEST_LEG ? 160 : equal);
    return [chordSquare(chord, diameter, setting), cornerSquare(reach, diameter, setting)];
  },
});

/** Longest legs of a paper right angle, 24 in as a framing square's body has; taped from more pages it is less true, mm. */
const LONGEST_LEG = 609.6;
/** A card this tall still lies on one page, held upright or across, mm. */
const [TALLEST, TALLEST_ACROSS] = [170, 145];
/** Longer edges do not lie across an upright page; from this to that they stand on it, mm. */
const [LEVEL, UPRIGHT] = [180, 215];
/** A quarter of the diameter, as far as the card goes on a page, in whole steps of the reader's units, mm. */
const usualChord = (diameter = 0, { units }: Setting): number => {
  const step = units === 'in' ? 12.7 : 10;
  return Math.floor(Math.min(UPRIGHT, Math.max(160, diameter / 4)) / step) * step;
};

/** How well a prick is set: 1/64 in, mm. */
const PRICK = 25.4 / 64;

/** Width of the cards' arms, mm. */
const ARM = 30;

/** What a card shows on a circle of a known diameter; `off` is how far a prick that is off moves the center. */
const chordFacts = (chord: number, diameter: number, off: number, setting: Setting): readonly Fact[] => {
  const rise = riseOfChord(diameter / 2, chord);
  return [
    [say`Chord from end to end`, givenOf(chord)],
    [say`Half of it, each reading`, lengthOf(chord / 2)],
    [say`From the chord’s middle to the center`, lengthOf(diameter / 2 - rise)],
    [say`From the chord’s middle to the edge`, lengthOf(rise)],
    [say`A prick ${writeOnce(fineOf(PRICK), setting)} off moves the center by`, lengthOf(off)],
  ];
};

const chordSquare = (chord: number, diameter: number | undefined, setting: Setting): Sheet => {
  const half = chord / 2;
  const known = diameter === undefined ? undefined : diameter / 2 - riseOfChord(diameter / 2, chord);
  const tallest = chord > UPRIGHT ? TALLEST_ACROSS : TALLEST;
  const height = Math.max(80, Math.min(known === undefined ? half : known + 12, chord, tallest));
  const stands = chord > LEVEL && chord <= UPRIGHT;
  const turned = (p: Vec2): Vec2 => (stands ? { x: p.y, y: -p.x } : p);
  const on = known !== undefined && known > 6 && known < height - 2;
  const stem = ARM / 2;
  const outline = [
    { x: -half, y: 0 },
    { x: half, y: 0 },
    { x: half, y: ARM },
    { x: stem, y: ARM },
    { x: stem, y: height },
    { x: -stem, y: height },
    { x: -stem, y: ARM },
    { x: -half, y: ARM },
  ];
  const marks: Mark[] = [
    drawOutline(polylinePath(outline, true)),
    ...([1, -1] as const).flatMap((way) =>
      drawScaleEdge({
        zero: { x: 0, y: 0 },
        along: way === 1 ? 0 : Math.PI,
        length: half,
        side: way,
        units: setting.units,
      }),
    ),
    ruleLine('centre', { x: 0, y: 0 }, { x: 0, y: height }, NARROW, 'long-dash-dot'),
    ruleLine('station', { x: 0, y: 0 }, { x: 0, y: 8 }, NARROW),
    ...drawPunch({ x: 0, y: ARM - 6 }, 2.5),
    ...(on ? [] : drawPunch({ x: 0, y: height - 6 }, 2.5)),
    letter('text', { x: half - 4, y: ARM - 7 }, say`equal readings here`, 2.5, { align: 'right' }),
    letter('text', { x: 4 - half, y: ARM - 7 }, say`and here`, 2.5),
    letter('text', { x: stem - 3.6, y: ARM + 3 }, say`this line runs to the center`, 2.5, {
      angle: Math.PI / 2,
    }),
    ...(on
      ? [
          ...drawPunch({ x: 0, y: known }, 4),
          letter('text', { x: 3, y: known + 2 }, say`center`, 2.5, { bold: true }),
        ]
      : []),
  ];
  const prick = on ? known : height - 6;
  return plateSheet({
    name: 'chord square',
    heading: say`Center by chords`,
    subject: [
      say`Chord and square, ${writeGiven(chord, setting)} along the edge`,
      diameter === undefined ? say`For a circle of any size` : say`For ⌀ ${writeGiven(diameter, setting)}`,
    ],
    marks: stands ? marks.map((mark) => turnMark(mark, -Math.PI / 2)) : marks,
    fit: fitFlat({
      ...sideFigures(outline.map(turned)),
      points: [turned({ x: 0, y: ARM - 6 }), turned({ x: 0, y: prick })],
    }),
    steps: [
      CHECK_PRINT(),
      say`Cut the card out on its outline, its long edge along a straightedge.`,
      say`Lay the card on the face, long edge toward you, so that the circle’s edge crosses it at both ends. Move it until both readings are equal: its zero is then the chord’s middle.`,
      say`Prick the crosses on the middle line. Draw the line through the pricks, with a straightedge past the center.`,
      say`Do the same about a quarter of the way around. The two lines cross at the center; a third line proves it.`,
      say`No face to draw on? Wedge a bar across first, flush with the face.`,
    ],
    facts:
      known === undefined || diameter === undefined
        ? []
        : chordFacts(chord, diameter, (PRICK * known) / (height - ARM), setting),
    pictures: [chordsPicture()],
  });
};

const cornerSquare = (leg: number, diameter: number | undefined, setting: Setting): Sheet => {
  const equal = diameter === undefined ? undefined : diameter * Math.SQRT1_2;
  const on = equal !== undefined && equal <= leg;
  const outline = [
    { x: 0, y: 0 },
    { x: leg, y: 0 },
    { x: leg, y: ARM },
    { x: ARM, y: ARM },
    { x: ARM, y: leg },
    { x: 0, y: leg },
  ];
  const marks: Mark[] = [
    drawOutline(polylinePath(outline, true)),
    ...drawScaleEdge({
      zero: { x: 0, y: 0 },
      along: 0,
      length: leg,
      side: 1,
      units: setting.units,
      from: 12,
    }),
    ...drawScaleEdge({
      zero: { x: 0, y: 0 },
      along: Math.PI / 2,
      length: leg,
      side: -1,
      units: setting.units,
      from: 12,
    }),
    letter('text', { x: 10, y: 9.2 }, say`corner on edge`, 2.5, { angle: Math.PI / 4 }),
    ...(on
      ? [
          ruleLine('reference', { x: equal, y: 0 }, { x: equal, y: ARM - 4 }, NARROW),
          ruleLine('reference', { x: 0, y: equal }, { x: ARM - 4, y: equal }, NARROW),
          letter('text', { x: equal - 1.4, y: ARM - 4 }, say`equal legs`, 2.5, {
            align: 'right',
            angle: Math.PI / 2,
          }),
          letter('text', { x: ARM - 4, y: equal - 3.9 }, say`equal legs`, 2.5, { align: 'right' }),
        ]
      : []),
    ruleLine('reference', { x: 0, y: 0 }, { x: 9, y: 9 }, FINE),
  ];
  return plateSheet({
    name: 'corner square',
    heading: say`Center by a right angle`,
    subject: [
      say`Right angle, legs ${writeBoth(leg, setting)}`,
      diameter === undefined ? say`For a circle of any size` : say`For ⌀ ${writeGiven(diameter, setting)}`,
    ],
    marks,
    fit: fitFlat(sideFigures(outline)),
    steps: [
      CHECK_PRINT(),
      say`Cut the card out on its outline. The corner must stay sharp: cut both long edges past it.`,
      say`Hold the corner exactly on the circle’s edge. Mark where each leg crosses the edge again.`,
      say`Join the two marks: that line is a diameter, whatever way the card is turned.`,
      say`Do the same about a quarter of the way around. The two diameters cross at the center.`,
      ...(equal !== undefined && !on
        ? [
            say`This circle is larger than the card: use a framing square, its heel exactly on the edge, and lengthen both legs with straightedges.`,
          ]
        : [say`If a leg ends before it meets the edge, lengthen it with a straightedge.`]),
    ],
    facts:
      equal === undefined || diameter === undefined
        ? [[say`Check`, say`one leg squared and the other squared make the diameter squared`]]
        : [
            [say`Mark to mark`, givenOf(diameter)],
            [say`Both legs, when they read the same`, lengthOf(equal)],
          ],
    pictures: [cornerPicture()],
  });
};
