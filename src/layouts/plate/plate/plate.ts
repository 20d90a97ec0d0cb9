import type { Sheet, Table, Words } from '../../../drawing/model.ts';
import { distance } from '../../../drawing/paths.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { areaOf, perimeterOf } from '../../../geometry/contour.ts';
import { itemAt } from '../../../lists.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { fitHoles, slotSteps, tapeStart, tapeSteps, tapeTable } from '../../../sheets/holes.ts';
import { apart, crossAt, crosses, ofArc, ORIGIN, shown, taken } from '../../../sheets/measured.ts';
import { massFacts } from '../../../sheets/plate-mass.ts';
import { type PlateAsked, plateFields } from './plate-fields.ts';

import type { Measured } from '../../../drawing/measured.ts';
import { writeOrdinal } from '../../../units/ordinal.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { drillBody } from './plate-holes.ts';
import { plateMarks } from './plate-marks.ts';
import { readBody } from './plate-outline.ts';
import { boreContour, type PlatePart } from './plate-part.ts';
import { givenOf, lengthOf } from '../../../units/quantity.ts';
import { worded } from '../../../drawing/worded.ts';
import { platePicture } from './plate-picture.ts';

/** Flat parts. The sheet's origin is the middle of the part, of a gusset its corner. */
export const plate = defineLayout({
  id: 'plate',
  summary: 'flat parts: rectangle, disc, ring, gusset, base plate, end cap, with holes and mass',
  family: 'plate parts',
  words: ['gusset', 'base plate', 'end cap', 'disc', 'cover', 'pad', 'weight', 'mass', 'cleat'],
  fields: plateFields,
  examples: [
    'plate --width 300mm --height 200mm --corner-radius 20mm --thickness 10mm',
    'plate --shape base --width 10in --height 10in --hole 13/16in --edge 1-1/2in --tube "tube 4x4x1/4in" --thickness 3/4in',
    'plate --shape disc --diameter 250mm --bore 60mm --hole 14mm --holes 6 --circle 200mm',
    'plate --shape ring --diameter 280mm --bore 200mm --thickness 8mm',
    'plate --shape gusset --width 150mm --height 150mm --snip 20mm --nose 12mm --thickness 10mm',
    'plate --shape gusset --width 180mm --height 140mm --cope "NPS 3 sch 40" --hole-at 110mm,30mm,18mm',
    'plate --shape cap --pipe "NPS 4 sch 40" --fit over -o cap.pdf',
  ],
  draw: (asked, setting) => {
    const part = drillBody(asked, readBody(asked, setting), setting);
    return [drawSheet(part, asked, tapeStart(asked.tapeStart, setting), setting)];
  },
});

/** Area of a hole or slot. */
const holeArea = ({ diameter, slot }: PlatePart['holes'][number]): number =>
  (Math.PI * diameter ** 2) / 4 + Math.max(0, (slot?.length ?? 0) - diameter) * diameter;

const holeGirth = ({ diameter, slot }: PlatePart['holes'][number]): number =>
  Math.PI * diameter + 2 * Math.max(0, (slot?.length ?? 0) - diameter);

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

const drawSheet = (part: PlatePart, asked: PlateAsked, start: number, setting: Setting): Sheet => {
  const { contour, holes, bore, circle, gridDiagonal } = part;
  const both = (length: number): string => writeBoth(length, setting);
  const bored = bore === undefined ? [] : [boreContour(bore)];
  const area = areaOf(contour) - sum(bored.map(areaOf)) - sum(holes.map(holeArea));
  const cut = perimeterOf(contour) + sum(bored.map(perimeterOf)) + sum(holes.map(holeGirth));
  const points = holes.map((hole) => hole.at);
  const chords = circle === undefined ? [] : chordsOf(points.slice(0, asked.holes));
  return plateSheet({
    name: 'plate',
    heading: part.heading,
    fit: fitHoles(
      holes,
      [...(part.round ? [part.width] : []), ...(bore === undefined ? [] : [bore])],
      part.round ? [] : contour,
    ),
    subject: [
      ...part.subject,
      ...(bore === undefined ? [] : [say`Bore ⌀ ${writeGiven(bore, setting)}`]),
      ...(holes.length > 0 ? [describeHoles(part, setting)] : []),
    ],
    marks: plateMarks(part, asked, setting),
    steps: [
      CHECK_PRINT(),
      ...part.steps,
      ...(bore === undefined ? [] : [say`Strike the bore from the same center: radius ${both(bore / 2)}.`]),
      ...(gridDiagonal === undefined
        ? []
        : [say`Tape both diagonals from corner hole to corner hole: ${both(gridDiagonal)} each.`]),
      ...(holes.length > 1 ? tapeSteps(start, setting) : []),
      ...slotSteps(holes.some(({ slot }) => slot !== undefined)),
      holes.length === 1
        ? say`Drill or cut the hole while the plate is whole, then cut the outline.`
        : holes.length > 0
          ? say`Drill and cut the holes while the plate is whole, then cut the outline.`
          : bore === undefined
            ? say`Cut on the waste side of the line, dress to it.`
            : say`Cut the bore first, while the plate around it holds it flat; then the outline.`,
    ],
    facts: [
      ...part.facts,
      ...(bore === undefined
        ? []
        : ([
            [say`Bore`, diameterFact(bore, ofArc('radius', { centre: { x: 0, y: 0 }, radius: bore / 2 }))],
          ] as const)),
      ...(circle === undefined
        ? []
        : ([
            [
              say`Bolt circle`,
              diameterFact(circle, ofArc('radius', { centre: { x: 0, y: 0 }, radius: circle / 2 }, 'centre')),
            ],
          ] as const)),
      ...(gridDiagonal === undefined
        ? []
        : ([
            [say`Diagonals of the corner holes`, shown(lengthOf(gridDiagonal), cornerHoles(part, asked))],
          ] as const)),
      [say`Length to cut, holes included`, lengthOf(cut)],
      ...massFacts(area, asked),
    ],
    tables: [
      ...(chords.length > 0
        ? [tapeTable(say`From any hole to the others, counting around`, say`To the`, chords, start, setting)]
        : []),
      ...(holes.length > 0 && holes.length <= 100 ? [placeTable(part)] : []),
    ],
    pictures: [platePicture(part, asked, setting)],
    cautions: [say`The printed side is the face: mark it where the part is not the same turned over.`],
  });
};

/** A given diameter, by the radius that the drawing shows. */
const diameterFact = (diameter: number, radius: Measured): Words =>
  worded((value) => `⌀ ${value(shown(givenOf(diameter), taken(radius, 2)))}`);

/** Between the first hole of a grid and the one across it. */
const cornerHoles = ({ holes }: PlatePart, { columns = 2, rows = 2 }: PlateAsked): Measured | undefined => {
  const [first, last] = [holes[0], holes[columns * rows - 1]];
  return first && last && crosses(first.at, last.at);
};

const chordsOf = (points: readonly Vec2[]) =>
  Array.from({ length: Math.floor(points.length / 2) }, (_, i) => ({
    label: i === 0 ? say`next hole` : writeOrdinal(i + 1),
    apart: distance(itemAt(points, 0), itemAt(points, i + 1)),
    measured: crosses(itemAt(points, 0), itemAt(points, i + 1)),
  }));

const describeHoles = ({ holes, circle }: PlatePart, setting: Setting): string => {
  const kinds = new Map<string, number>();
  for (const { diameter, slot } of holes) {
    const words = slot
      ? say`slots ${writeGiven(diameter, setting)} by ${writeGiven(slot.length, setting)}`
      : `⌀ ${writeGiven(diameter, setting)}`;
    kinds.set(words, (kinds.get(words) ?? 0) + 1);
  }
  const list = [...kinds].map(([words, count]) => `${count} × ${words}`).join(', ');
  return say`Holes: ${list}${circle === undefined ? '' : say` on ⌀ ${writeGiven(circle, setting)}`}`;
};

const placeTable = ({ holes, datum }: PlatePart): Table => ({
  title: say`Centers from ${datum.words}`,
  header: [say`Hole`, '⌀', say`right`, say`up`],
  rows: holes.map(({ at, diameter, slot }, i) => [
    `${i + 1}`,
    shown(
      lengthOf(diameter),
      slot ? undefined : taken(ofArc('radius', { centre: at, radius: diameter / 2 }), 2),
    ),
    shown(lengthOf(at.x - datum.x), taken(apart(ORIGIN, crossAt('punch', at.x, at.y), 'x'), 1, -datum.x)),
    shown(lengthOf(at.y - datum.y), taken(apart(ORIGIN, crossAt('punch', at.x, at.y), 'y'), 1, -datum.y)),
  ]),
});
