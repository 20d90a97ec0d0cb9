import type { Mark } from '../../../drawing/model.ts';
import { boxPath, circlePath, FINE, letter, MEDIUM, polylinePath } from '../../../drawing/paths.ts';
import { viewDimension, viewPath, viewRule } from '../../../drawing/view.ts';
import { itemAt } from '../../../lists.ts';
import { onPaper } from '../../../sheets/flat-marks.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { MadeRun, RunItem } from './makeup-solve.ts';

/** Length of the picture on the paper, mm. */
const WIDTH = 160;
/** Least a part or pipe takes on the paper, so that its number can be read. */
const LEAST = 10;
const HALF = 6;

/** Paper lengths in proportion, none shorter than can be read; gaps take none. */
const paperLengths = (items: readonly RunItem[]): readonly number[] => {
  const size = ({ kind, from, to }: RunItem): number => (kind === 'gap' ? 0 : Math.max(0, to - from));
  const total = items.reduce((sum, item) => sum + size(item), 0);
  const raw = items.map((item) => (item.kind === 'gap' ? 0 : Math.max(LEAST, (WIDTH * size(item)) / total)));
  const long = raw.reduce((sum, length) => sum + length, 0);
  // What the short ones were given is taken from the long ones.
  const spare = raw.reduce((sum, length) => sum + Math.max(0, length - LEAST), 0);
  const over = long - WIDTH;
  return raw.map((length) =>
    spare > over && over > 0 ? length - (Math.max(0, length - LEAST) * over) / spare : length,
  );
};

const partMarks = (item: RunItem, from: number, to: number, first: boolean, last: boolean): Mark[] => {
  const middle = (from + to) / 2;
  const box = (low: number, high: number, half: number): Mark =>
    viewPath(boxPath({ minX: low, maxX: high, minY: -half, maxY: half }), MEDIUM);
  switch (item.part?.kind) {
    case 'flange': {
      // The plate of the flange stands at its face.
      const face = first || (item.part.outer === 'face' && !last) ? from : to;
      const plate = face === from ? ([from, from + 2.4] as const) : ([to - 2.4, to] as const);
      return [box(from, to, HALF), box(plate[0], plate[1], HALF + 5)];
    }
    case 'tee':
      return [
        box(from, to, HALF),
        ...[middle - HALF, middle + HALF].map((x) => viewRule({ x, y: HALF }, { x, y: HALF + 7 }, MEDIUM)),
        viewRule({ x: middle, y: -HALF - 3 }, { x: middle, y: HALF + 9 }, FINE, 'long-dash-dot'),
      ];
    case 'elbow': {
      const center = first ? from : to;
      const side = first ? -1 : 1;
      return [
        viewPath(
          polylinePath([
            { x: first ? to : from, y: -HALF },
            { x: center + side * HALF, y: -HALF },
            { x: center + side * HALF, y: HALF + 8 },
          ]),
          MEDIUM,
        ),
        viewPath(
          polylinePath([
            { x: first ? to : from, y: HALF },
            { x: center - side * HALF, y: HALF },
            { x: center - side * HALF, y: HALF + 8 },
          ]),
          MEDIUM,
        ),
        viewRule({ x: center, y: -HALF - 3 }, { x: center, y: HALF + 10 }, FINE, 'long-dash-dot'),
      ];
    }
    case 'reducer':
      return [
        viewPath(
          polylinePath(
            [
              { x: from, y: -HALF },
              { x: to, y: -HALF + 2 },
              { x: to, y: HALF - 2 },
              { x: from, y: HALF },
            ],
            true,
          ),
          MEDIUM,
        ),
      ];
    case 'cap':
    case 'given':
    case undefined:
      return [
        box(from, to, HALF),
        viewRule({ x: from, y: -HALF }, { x: to, y: HALF }, FINE),
        viewRule({ x: from, y: HALF }, { x: to, y: -HALF }, FINE),
      ];
  }
};

/** The run as a line picture, not to scale: pipes with their cut lengths below, numbers of the parts above, the run on top. */
export const makeupMarks = ({ items, pipes }: MadeRun, run: number, setting: Setting): Mark[] => {
  const lengths = paperLengths(items);
  let x = 0;
  let [part, pipe] = [0, 0];
  const marks: Mark[] = [];
  items.forEach((item, i) => {
    const [from, to] = [x, x + itemAt(lengths, i)];
    x = to;
    if (item.kind === 'gap') {
      marks.push(viewRule({ x: from, y: -HALF - 2 }, { x: from, y: HALF + 2 }, FINE));
      return;
    }
    const middle = (from + to) / 2;
    if (item.kind === 'pipe') {
      pipe += 1;
      marks.push(
        ...[-HALF, HALF].map((y) => viewRule({ x: from, y }, { x: to, y })),
        ...[from, to].map((end) => viewRule({ x: end, y: -HALF }, { x: end, y: HALF })),
        ...viewDimension(
          { x: from, y: -HALF },
          { x: to, y: -HALF },
          -9,
          writeShort(itemAt(pipes, pipe - 1), setting),
        ),
        ...onPaper(
          letter('dimension', { x: middle, y: 0 }, `P${pipe}`, 3.5, {
            align: 'centre',
            valign: 'middle',
            bold: true,
          }),
        ),
      );
      return;
    }
    part += 1;
    marks.push(
      ...partMarks(item, from, to, i <= 1, i >= items.length - 2),
      viewPath(circlePath({ x: middle, y: HALF + 15 }, 2.8), FINE),
      letter('dimension', { x: middle, y: HALF + 15 }, String(part), 2.5, {
        align: 'centre',
        valign: 'middle',
      }),
    );
  });
  return [
    viewRule({ x: -6, y: 0 }, { x: x + 6, y: 0 }, FINE, 'long-dash-dot'),
    ...marks,
    ...viewDimension({ x: 0, y: HALF }, { x, y: HALF }, 22, say`whole run ${writeShort(run, setting)}`),
  ];
};
