import type { Fact, Mark, Sheet } from '../../../drawing/model.ts';
import {
  arcPath,
  arrowhead,
  boxPath,
  circlePath,
  FINE,
  letter,
  NARROW,
  QUARTER,
} from '../../../drawing/paths.ts';
import { makePicture, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import type { Pose } from '../../../geometry/pose-by-tape.ts';
import { polar2, type Vec2 } from '../../../geometry/vector.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { formatAngle } from '../../../units/angle.ts';
import { angleOf, countOf, lengthOf, writeOnce } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

import { worded } from '../../../drawing/worded.ts';
import type { NamedReading, TapedPose } from './closing-tape.ts';

/** What the form is about, and what was read where it was filled in. */
export interface TapeForm {
  readonly pipe: Pipe;
  readonly markRadius: number;
  readonly readings: readonly NamedReading[];
  /** Where end B stands, and what its tapes say; coordinates have no tapes. */
  readonly solved: { readonly pose: Pose; readonly taped: TapedPose | undefined } | undefined;
  /** True where no straight piece can close the gap and no turns were asked for. */
  readonly askew: boolean;
}

const ROW = 8;
const COLUMNS = [26, 44, 44, 44] as const;
const HEADS = () => [say`Tape`, say`Reading`, say`Second reading`, say`Off the answer`] as const;

const nameMarks = (count: number): readonly string[] =>
  Array.from({ length: count }, (_, i) => formatAngle((2 * Math.PI * i) / count));

/** A ruled form: one line a tape, two columns to write in, and how far each lies off the answer once there is one. */
const ruledForm = (pairs: readonly string[], filled: (name: string) => readonly [string, string]): Mark[] => {
  const width = COLUMNS.reduce<number>((sum, w) => sum + w, 0);
  const left = COLUMNS.map((_, i) => COLUMNS.slice(0, i).reduce<number>((sum, w) => sum + w, 0));
  const height = (pairs.length + 1) * ROW;
  const cell = (row: number, column: number, text: string, bold = false): Mark[] =>
    text === ''
      ? []
      : [
          letter('text', { x: (left[column] ?? 0) + 2, y: height - row * ROW - ROW / 2 }, text, 3.5, {
            valign: 'middle',
            bold,
          }),
        ];
  return [
    viewPath(boxPath({ minX: 0, maxX: width, minY: 0, maxY: height })),
    ...pairs.map((_, i) =>
      viewRule(
        { x: 0, y: (i + 1) * ROW },
        { x: width, y: (i + 1) * ROW },
        i + 1 === pairs.length ? QUARTER : FINE,
      ),
    ),
    ...left.slice(1).map((x) => viewRule({ x, y: 0 }, { x, y: height }, FINE)),
    ...HEADS().flatMap((head, i) => cell(0, i, head, true)),
    ...pairs.flatMap((name, i) => {
      const [reading, off] = filled(name);
      return [...cell(i + 1, 0, name, true), ...cell(i + 1, 1, reading), ...cell(i + 1, 3, off)];
    }),
  ];
};

/** One end as it is seen facing it, with its marks. */
const faceMarks = (at: Vec2, name: 'A' | 'B', count: number): Mark[] => {
  const r = 15;
  const place = (angle: number, size: number): Vec2 => {
    const p = polar2(size, angle + Math.PI / 2);
    return { x: at.x + p.x, y: at.y + p.y };
  };
  const marks = Array.from({ length: count }, (_, i): Mark[] => {
    const angle = (2 * Math.PI * i) / count;
    return [
      viewPath(circlePath(place(angle, r), 0.9)),
      ...viewText(place(angle, r + 5), `${name}${i + 1}`, 'centre', true),
      ...viewText(place(angle, r - 5), formatAngle(angle)),
    ];
  });
  const tip = place(1.45, r * 0.4);
  return [
    viewPath(circlePath(at, r), NARROW),
    viewPath(arcPath(at, r * 0.4, Math.PI / 2 + 0.3, Math.PI / 2 + 1.45), FINE),
    arrowhead('dimension', tip, polar2(1, 1.45 + Math.PI - 0.15), 2),
    ...marks.flat(),
    ...viewText({ x: at.x, y: at.y - r - 11 }, say`facing end ${name}`),
  ];
};

/** Where end B stands, in words of end A. */
const poseFacts = ({ at, along }: Pose): readonly Fact[] => {
  const toward = (size: number, way: string, other: string): Fact => [
    say`B’s center, toward A’s station ${size >= 0 ? way : other}`,
    lengthOf(Math.abs(size)),
  ];
  const lean = Math.acos(Math.max(-1, Math.min(1, -along.z)));
  return [
    [say`B’s center, out from A’s face`, lengthOf(at.z)],
    toward(at.x, '0', '180'),
    toward(at.y, '90', '270'),
    [say`B leans from facing A squarely`, angleOf(lean)],
  ];
};

/** The form for the tapes of a closing piece: blank, or with what was read and how far each tape lies off the answer. */
export const tapeForm = (
  { pipe, markRadius, readings, solved, askew }: TapeForm,
  setting: Setting,
): Sheet => {
  const taped = solved?.taped;
  const count = taped?.marks ?? (readings.some(({ a, b }) => a > 3 || b > 3) ? 4 : 3);
  const pairs = Array.from(
    { length: count * count },
    (_, k) => `A${Math.floor(k / count) + 1}-B${(k % count) + 1}`,
  );
  const marks = ruledForm(pairs, (name) => {
    const index = readings.findIndex((reading) => reading.name === name);
    const reading = readings[index];
    const off = taped?.residuals[index];
    const again = taped?.again === name ? say` tape again` : '';
    return [
      reading ? writeOnce(lengthOf(reading.distance), setting) : '',
      off === undefined
        ? ''
        : `${off <= -0.005 ? '−' : off < 0.005 ? '' : '+'}${Math.abs(off).toFixed(2)} mm${again}`,
    ];
  });
  const onRim = Math.abs(markRadius - pipe.od / 2) < 1e-6;
  const where = onRim
    ? say`on the rim, at its outside edge`
    : say`on bars or a disc clamped across the end, ${writeBoth(markRadius, setting)} from the center`;
  return plateSheet({
    name: 'tape form',
    heading: say`Tape form`,
    subject: [
      say`For a closing piece of ${pipe.designation}: ${count * count} tapes between two ends`,
      say`Marks ${where}`,
      say`To write on; this sheet is not a full-size drawing`,
    ],
    marks,
    steps: [
      say`Punch ${count} marks ${where}, at stations ${nameMarks(count).join(', ')}, counted counter-clockwise facing that end. A1 and B1 are station 0.`,
      say`Tape every mark of end A to every mark of end B, center of punch to center of punch, the tape tight and straight.`,
      say`Write each reading down before the next one. Then take all of them a second time, the other way around.`,
      say`Where the two readings of a tape differ by more than the tape allows, take it a third time.`,
      say`Write down the temperature of the pipe.`,
    ],
    facts: [
      [say`Center to mark`, lengthOf(markRadius)],
      [say`Tapes`, worded((value) => say`${value(countOf(count * count))}, six at least`)],
      ...(solved ? poseFacts(solved.pose) : []),
    ],
    pictures: [
      makePicture(say`Both ends as each is seen facing it`, [
        ...faceMarks({ x: 0, y: 0 }, 'A', count),
        ...faceMarks({ x: 55, y: 0 }, 'B', count),
      ]),
    ],
    cautions: [
      ...(askew
        ? [
            say`The two ends do not look at each other: ask again with turns elbow or turns miter for the piece.`,
          ]
        : []),
      say`Both ends must stand still between the tapes: brace them as they will be welded.`,
    ],
  });
};
