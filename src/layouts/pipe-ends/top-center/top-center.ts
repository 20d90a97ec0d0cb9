import { textWidth } from '../../../drawing/lettering.ts';
import type { Mark, Sheet, Table } from '../../../drawing/model.ts';
import { boxPath, FINE, letter, MEDIUM, NARROW, ruleLine } from '../../../drawing/paths.ts';
import { lengthField, parsedField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { itemAt } from '../../../lists.ts';
import { requestError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { drawOutline } from '../../../sheets/flat-marks.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { apart, endAt, ORIGIN, shown, taken } from '../../../sheets/measured.ts';
import { parsePipeOutside, type PipeOutside } from '../../../stock/pipe-outside.ts';
import { inLanguage } from '../../../words/languages.ts';
import { say } from '../../../words/say.ts';
import { degreeCard } from './degree-card.ts';
import { fineOf, sizeOf } from '../../../units/quantity.ts';
import { once } from '../../../drawing/worded.ts';
import { squarePicture } from './top-center-picture.ts';

const usual = {
  in: '1/2 3/4 1 1-1/4 1-1/2 2 2-1/2 3 4 5 6 8 10 12'.split(' ').map((size) => `NPS ${size}`),
  mm: '15 20 25 32 40 50 65 80 100 125 150 200 250 300'.split(' ').map((size) => `DN ${size}`),
} as const;

/** Top dead center by square and level: a strip for the square's blade and a card of degrees. */
export const topCenter = defineLayout({
  id: 'top-center',
  summary: 'top dead center of a pipe by square and level: strip for the blade, and a card of degrees',
  family: 'pipe ends',
  words: ['top dead center', 'tdc', 'level', 'square', 'two-holing', 'two-hole'],
  fields: {
    sizes: parsedField('pipe sizes with commas between; left out, the usual ones to NPS 12 or DN 300', {
      kind: 'designation',
      symbol: 'S',
      example: 'NPS 4,NPS 6',
      parse: (text, { units, path }) => parsePipeOutside(text, { units, path }),
      list: true,
      optional: true,
    }),
    width: lengthField('width of the strip', { default: '24mm', example: '1in', min: 18, max: 60 }),
  },
  sheets: ['top center strip', 'degree card'],
  examples: [
    'top-center --sizes "NPS 2,NPS 4,NPS 6,NPS 8"',
    'top-center --units mm',
    'top-center --sizes "DN 100,OD 90mm" --paper a4 -o strip.pdf',
  ],
  draw: ({ sizes, width }, setting) => {
    const chosen = sizes ?? usual[setting.units].map((text) => parsePipeOutside(text));
    if (chosen.length > 60)
      throw requestError('sizes', 'too-many', say`${chosen.length} sizes are given`, say`give at most 60`);
    const sorted = [...chosen].sort((a, b) => a.od - b.od);
    return [strip(sorted, width), degreeCard(sorted, setting)];
  },
});

const strip = (sizes: readonly PipeOutside[], width: number): Sheet => {
  const length = Math.max(...sizes.map(({ od }) => od / 2)) + 12;
  return plateSheet({
    name: 'top center strip',
    heading: say`Top dead center strip`,
    subject: [
      say`For the blade of a square: ticks at half the outside diameter`,
      say`${sizes.length} sizes, ${sizes[0]?.name ?? ''} to ${sizes[sizes.length - 1]?.name ?? ''}`,
    ],
    marks: stripMarks(sizes, length, width),
    // Half of each outside diameter from the corner.
    fit: fitFlat({
      lines: sizes.map(({ od }) => ({
        from: { x: od / 2, y: 0 },
        to: { x: od / 2, y: TICK },
        role: 'station' as const,
      })),
    }),
    steps: [
      CHECK_PRINT(),
      say`Cut out the strip. Stick it on the face of the square’s blade, its tick edge on the blade’s inner edge, its zero end hard in the inside corner.`,
      say`Hang the square on the pipe: inner edge of the blade on top, inner edge of the other leg against the side.`,
      say`Lay a level on the blade and bring it level. Top dead center is under the tick of the pipe’s size: mark it.`,
      say`Turn the square around to the other side and mark again. Half way between the two marks is the true top.`,
      say`Do the same at the other end of the pipe and strike the line with a chalk line or straightedge.`,
    ],
    facts: [[say`Tick from the inside corner`, say`half the outside diameter`]],
    tables: [sizeTable(sizes)],
    pictures: [squarePicture()],
    cautions: [
      say`A pipe out of round or off its size moves its top: half its measured outside is the true distance.`,
    ],
  });
};

const sizeTable = (sizes: readonly PipeOutside[]): Table => ({
  title: say`Inside corner to top dead center`,
  header: [say`Size`, say`outside`, say`half`],
  rows: sizes.map(({ name, od }) => {
    const half = apart(ORIGIN, endAt('station', od / 2, 0), 'x');
    // The outside in the reader's unit alone: it is only there to know the pipe by.
    return [name, once(shown(sizeOf(od), taken(half, 2))), shown(fineOf(od / 2, 1, 32), half)];
  }),
});

/** Labels pushed apart to `pitch`, as little as can be, in order and not left of `least`. */
const spread = (wanted: readonly number[], pitch: number, least: number): number[] => {
  const placed: number[] = [];
  for (const x of wanted) placed.push(Math.max(x, least, (placed[placed.length - 1] ?? -Infinity) + pitch));
  // Back from the right, so that a crowd straddles its ticks instead of trailing them.
  for (let round = 0; round < 50; round += 1)
    for (let i = placed.length - 1; i >= 0; i -= 1) {
      const low = Math.max(least, i === 0 ? -Infinity : itemAt(placed, i - 1) + pitch);
      const high = i + 1 < placed.length ? itemAt(placed, i + 1) - pitch : Infinity;
      placed[i] = Math.min(high, Math.max(low, itemAt(wanted, i)));
    }
  return placed;
};

/** Length of a tick at the strip's edge, mm. */
const TICK = 4;

const stripMarks = (sizes: readonly PipeOutside[], length: number, width: number): Mark[] => {
  const ticks = sizes.map(({ od }) => od / 2);
  const height = 2.5;
  const places = spread(ticks, height + 1.1, 6);
  const end = Math.max(length, (places[places.length - 1] ?? 0) + 4);
  const tick = TICK;
  const knee = 7;
  const longest = Math.max(...sizes.map(({ name }) => textWidth(name, height, true)));
  const zero = (): string => say`0 in the corner`;
  // The strip is the same in any language.
  const zeroRoom = inLanguage('en', () => textWidth(zero(), height, false));
  const top = Math.max(width, knee + 1 + longest + 2, zeroRoom + 4);
  return [
    drawOutline(boxPath({ minX: 0, maxX: end, minY: 0, maxY: top })),
    ruleLine('reference', { x: 1.6, y: 0 }, { x: 1.6, y: top }, FINE),
    letter('text', { x: 4.6, y: 2 }, zero(), height, { angle: Math.PI / 2 }),
    ...sizes.flatMap(({ name }, i) => {
      const [x, place] = [ticks[i] ?? 0, places[i] ?? 0];
      return [
        ruleLine('station', { x, y: 0 }, { x, y: tick }, NARROW),
        ruleLine('dimension', { x, y: tick }, { x: place, y: knee }, FINE),
        letter('text', { x: place + height / 2, y: knee + 1 }, name, height, {
          angle: Math.PI / 2,
          bold: true,
        }),
      ];
    }),
    ruleLine('reference', { x: 0, y: 0 }, { x: end, y: 0 }, MEDIUM),
  ];
};
