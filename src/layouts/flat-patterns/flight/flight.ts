import type { Fact, Mark, Sheet } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { letter } from '../../../drawing/paths.ts';
import { mustBeMore } from '../../../fields/among.ts';
import type { Values } from '../../../fields/field.ts';
import { choiceField, countField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { TURN } from '../../../geometry/angle-units.ts';
import { reverseLine, straight } from '../../../geometry/cubic.ts';
import { flightAreas, flightBlank, type FlightBlank } from '../../../geometry/flight.ts';
import { arcCubics } from '../../../geometry/pattern.ts';
import { polar2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { drawOutline, drawPunch, drawTarget } from '../../../sheets/flat-marks.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { ends, ofArc, shown, taken, type DrawnArc } from '../../../sheets/measured.ts';
import { plateFacts, plateFields } from '../../../sheets/pattern-fields.ts';
import { patternPath } from '../../../sheets/pattern-marks.ts';
import { PLATE_CAUTION } from '../../../sheets/seam-step.ts';
import { formatAngle } from '../../../units/angle.ts';
import { angleOf, countOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { flightScene } from './flight-scene.ts';

const fields = {
  pipe: lengthField('outside diameter of the shaft or pipe', { example: '60.3mm', above: 0, max: 5000 }),
  outside: lengthField('outside diameter of the flight', { example: '200mm', above: 0, max: 10_000 }),
  pitch: lengthField('advance in one turn', { example: '200mm', above: 0, max: 20_000 }),
  turns: countField('number of turns: blanks to cut', { default: '1', example: '8', min: 1, max: 1000 }),
  hand: choiceField('hand of the screw; a right-hand one winds like a common bolt', ['left', 'right'], {
    default: 'right',
  }),
  thickness: plateFields.thickness,
  density: plateFields.density,
} as const;

type Asked = Values<typeof fields>;

/** One turn of a screw's flight as a flat ring with a gap, to be pulled to the pitch. */
export const flight = defineLayout({
  id: 'flight',
  summary: 'blank of one turn of a screw conveyor’s flight: a ring with a gap, pulled to the pitch',
  family: 'flat patterns',
  words: ['screw', 'auger', 'worm', 'helicoid', 'conveyor', 'flat pattern'],
  fields,
  examples: [
    'flight --pipe 2.875in --outside 9in --pitch 9in',
    'flight --pipe 60mm --outside 200mm --pitch 200mm --turns 6 --thickness 4mm --hand left',
  ],
  scene: (asked) => flightScene(asked),
  draw: (asked, setting) => {
    mustBeMore('outside', asked.outside, asked.pipe, say`is not larger than the pipe`, setting);
    const blank = flightBlank(asked);
    if (blank.gap < 0.01)
      throw jointError(
        'pitch',
        'no-gap',
        say`the pitch is so short that the blank would be a closed ring`,
        say`give a longer pitch`,
      );
    return [flightSheet(asked, blank, setting)];
  },
});

/** The gap lies at the bottom of the sheet. */
const BOTTOM = -Math.PI / 2;

const flightFacts = (asked: Asked, blank: FlightBlank): readonly Fact[] => {
  const { inner, outer, gap, sector } = blank;
  const across = (radius: number): number => 2 * radius * Math.sin(gap / 2);
  const from = BOTTOM + gap / 2;
  const [bore, rim] = [inner, outer].map((radius) => ({
    centre: vec2(0, 0),
    radius,
    from,
    sweep: TURN - gap,
  })) as [DrawnArc, DrawnArc];
  const end = (radius: number, angle: number): Vec2 => polar2(radius, angle);
  const gapAt = (radius: number) => ends(end(radius, from), end(radius, from + TURN - gap));
  return [
    [say`Blank, inside radius`, shown(lengthOf(inner), ofArc('radius', bore))],
    [say`Blank, outside radius`, shown(lengthOf(outer), ofArc('radius', rim))],
    [say`Ring taken up`, shown(angleOf(sector), ofArc('angle', rim))],
    [say`Gap cut out`, shown(angleOf(gap), taken(ofArc('angle', rim), -1, TURN))],
    [say`Gap, straight across outside`, shown(lengthOf(across(outer)), gapAt(outer))],
    [say`Gap, straight across inside`, shown(lengthOf(across(inner)), gapAt(inner))],
    [say`Edge along the pipe, one turn`, shown(lengthOf(blank.innerEdge), ofArc('length', bore))],
    [say`Edge along the outside, one turn`, shown(lengthOf(blank.outerEdge), ofArc('length', rim))],
    [say`Width of the flight`, shown(lengthOf(outer - inner), ends(end(inner, from), end(outer, from)))],
    [say`Blanks`, countOf(asked.turns)],
    [say`Length of the screw`, lengthOf(asked.turns * asked.pitch)],
    ...plateFacts(flightAreas(asked).blank, { ...asked, sizes: 'mean' }),
  ];
};

const flightSheet = (asked: Asked, blank: FlightBlank, setting: Setting): Sheet => {
  const both = (length: number): string => writeBoth(length, setting);
  const { inner, outer, gap } = blank;
  const centre = vec2(0, 0);
  const [from, to] = [BOTTOM + gap / 2, BOTTOM + TURN - gap / 2];
  const outside = arcCubics(centre, outer, from, to);
  const inside = arcCubics(centre, inner, from, to);
  const [a, b] = [polar2(outer, from), polar2(outer, to)];
  const [c, d] = [polar2(inner, from), polar2(inner, to)];
  const outline = [...outside, straight(b, d), ...reverseLine(inside), straight(c, a)];
  const areas = flightAreas(asked);
  const points = [vec2(0, 0)];
  const width = outer - inner;
  const marks: Mark[] = [
    drawOutline(patternPath(outline, true)),
    ...drawTarget(centre, Math.min(2, inner / 6)),
    ...(width > 14
      ? [
          letter(
            'text',
            vec2(0, inner + width / 2),
            asked.hand === 'right' ? say`RIGHT HAND` : say`LEFT HAND`,
            3.5,
            {
              align: 'centre',
              valign: 'middle',
              bold: true,
            },
          ),
        ]
      : []),
    ...[c, d].flatMap((at) => drawPunch(at)),
  ];
  return plateSheet({
    name: 'flight',
    heading: say`Flight blank, one turn`,
    subject: [
      say`Pipe ⌀ ${writeGiven(asked.pipe, setting)}, flight ⌀ ${writeGiven(asked.outside, setting)}, pitch ${writeGiven(asked.pitch, setting)}`,
      asked.hand === 'right' ? say`Right hand, make ${asked.turns}` : say`Left hand, make ${asked.turns}`,
      say`A helicoid does not lie flat: the blank keeps its width and both edges; its area is ${(((areas.blank - areas.helicoid) / areas.helicoid) * 100).toFixed(1)} % more than the flight’s, which the pull takes up`,
    ],
    marks,
    fit: fitFlat({
      points: [...points, c, d],
      arcs: [inner, outer].map((radius) => ({ centre, radius, from, sweep: to - from })),
      lines: [
        { from: c, to: a },
        { from: d, to: b },
      ],
    }),
    make: asked.turns,
    steps: [
      CHECK_PRINT(),
      say`Strike both circles from the center: ${both(inner)} and ${both(outer)}. Cut the ring and the gap of ${formatAngle(gap, 2)}; the cuts run to the center.`,
      asked.turns > 1
        ? say`Cut one blank first and pull it. The edges thin outside and thicken inside as it is pulled.`
        : say`Pull it open. The edges thin outside and thicken inside as it is pulled.`,
      say`Pull the cut ends apart along the axis until one turn advances ${both(asked.pitch)}; ${asked.hand === 'right' ? say`seen along the axis it goes away from you clockwise` : say`seen along the axis it goes away from you counter-clockwise`}.`,
      ...(asked.turns > 1
        ? [
            say`Slide it on the pipe. Check ${both(asked.outside)} across, then weld blank to blank and to the pipe.`,
            say`Correct the gap on the first one before you cut the rest.`,
          ]
        : [say`Slide it on the pipe. Check ${both(asked.outside)} across, then weld it to the pipe.`]),
    ],
    facts: flightFacts(asked, blank),
    tables: [],
    pictures: scenePictures(flightScene(asked)),
    cautions: [
      PLATE_CAUTION(),
      say`A flight under pull stores force: secure both ends before the chain or jack is let go.`,
    ],
  });
};
