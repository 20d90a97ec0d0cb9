import { textWidth, wrapText } from '../drawing/lettering.ts';
import type { Mark } from '../drawing/model.ts';
import { boxPath, letter, NARROW, QUARTER, ruleLine, stroke } from '../drawing/paths.ts';
import { say } from '../words/say.ts';
import { boxAt } from './box.ts';
import type { TitleFields } from './options.ts';

/** A thing drawn in its own box, whose lower left corner is (0, 0). */
export interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** What stands in the block: the title block's own fields, and what every page says of itself. */
export type TitleTexts = TitleFields & { readonly page: string; readonly identity: string };

type Key = keyof TitleTexts;

const labels = (): Readonly<Record<Key, string>> => ({
  title: say`Title`,
  piece: say`Piece mark`,
  quantity: say`Quantity`,
  job: say`Job`,
  order: say`Order`,
  number: say`Drawing number`,
  revision: say`Revision`,
  date: say`Date of issue`,
  supersedes: say`Supersedes`,
  supersededBy: say`Superseded by`,
  documentType: say`Document type`,
  owner: say`Legal owner`,
  drawn: say`Drawn`,
  checked: say`Checked`,
  approved: say`Approved`,
  page: say`Page`,
  identity: say`Identity`,
});

/** A row of cells: its height, and its fields with their widths as shares of the row, mm where the block is 180 wide. */
interface Row {
  readonly height: number;
  readonly cells: readonly (readonly [key: Key, width: number])[];
}

const high = 8.8;
const tall = 11;
const flat = 7.5;

/** ISO 5457 and ISO 7200: a title block is 180 mm wide, and its cells are always the same. */
export const titleWidth = 180;

/** From this width on two rows hold what a page is known by, mm. */
export const middleWidth = 120;

/** The fields of ISO 7200 and of a shop. A cell without a text is kept, so that a hand can fill it. */
const wholeRows: readonly Row[] = [
  {
    height: tall,
    cells: [
      ['owner', 42],
      ['title', 80],
      ['piece', 34],
      ['page', 24],
    ],
  },
  {
    height: flat,
    cells: [
      ['job', 44],
      ['order', 28],
      ['number', 44],
      ['revision', 18],
      ['quantity', 18],
      ['date', 28],
    ],
  },
  {
    height: flat,
    cells: [
      ['drawn', 21],
      ['checked', 21],
      ['approved', 21],
      ['supersedes', 36],
      ['documentType', 44],
      ['identity', 37],
    ],
  },
];

/** On paper too narrow for two rows, what a piece is known by. */
const narrowRows: readonly Row[] = [
  { height: tall, cells: [['title', 180]] },
  {
    height: high,
    cells: [
      ['piece', 100],
      ['page', 80],
    ],
  },
  {
    height: high,
    cells: [
      ['number', 100],
      ['revision', 80],
    ],
  },
  {
    height: high,
    cells: [
      ['date', 80],
      ['identity', 100],
    ],
  },
];

/** On tiles, which of the pages it is and what must not be mixed up. */
const tileRows: readonly Row[] = [
  {
    height: flat,
    cells: [
      ['number', 100],
      ['revision', 80],
    ],
  },
  {
    height: flat,
    cells: [
      ['page', 74],
      ['identity', 106],
    ],
  },
];

/** On tiles with more room, and on pages of their own that are too narrow for the whole block: two rows with all a page is known by. */
const middleRows: readonly Row[] = [
  {
    height: flat,
    cells: [
      ['title', 76],
      ['piece', 44],
      ['number', 60],
    ],
  },
  {
    height: flat,
    cells: [
      ['job', 50],
      ['revision', 26],
      ['date', 32],
      ['page', 32],
      ['identity', 40],
    ],
  },
];

/** Under one of several pieces on a page, what it is known by once it is cut off. */
const pieceRows: readonly Row[] = [
  {
    height: high,
    cells: [
      ['title', 84],
      ['piece', 60],
      ['quantity', 36],
    ],
  },
  {
    height: high,
    cells: [
      ['job', 40],
      ['number', 40],
      ['revision', 28],
      ['date', 32],
      ['identity', 40],
    ],
  },
];

const kinds = {
  whole: wholeRows,
  narrow: narrowRows,
  tile: tileRows,
  middle: middleRows,
  piece: pieceRows,
} as const;
export type TitleKind = keyof typeof kinds;

export const titleHeight = (kind: TitleKind): number =>
  kinds[kind].reduce((sum, { height }) => sum + height, 0);

const pad = 1.3;
const labelHeight = 0.7 + 2.5;
/** From a label's baseline to the top of the value under it. */
const valueGap = 0.8;

/** Fields whose texts tell one thing from another, often at their end: what has no room is left out in the middle. */
const marksKeys: ReadonlySet<Key> = new Set([
  'piece',
  'order',
  'number',
  'job',
  'supersedes',
  'supersededBy',
]);

/** A text cut to a room, with … for what is left out: its end, or its middle, of which as much stays at both ends. */
const shorten = (text: string, height: number, room: number, from: 'end' | 'middle' = 'end'): string => {
  if (textWidth(text, height, false) <= room) return text;
  const signs = [...text];
  const cut = (count: number): string => {
    const tail = from === 'end' ? 0 : Math.floor(count / 2);
    const [head, end] = [signs.slice(0, count - tail), signs.slice(signs.length - tail)];
    return `${head.join('').trimEnd()}…${end.join('').trimStart()}`;
  };
  let count = signs.length - 1;
  while (count > 0 && textWidth(cut(count), height, false) > room) count--;
  return cut(count);
};

/** A value in its cell: large where it goes in, else small, on two lines where the cell is tall, else cut. */
const writeValue = (
  key: Key,
  text: string,
  { x, top, width, height }: { x: number; top: number; width: number; height: number },
): Mark[] => {
  if (text === '') return [];
  const from = marksKeys.has(key) ? 'middle' : 'end';
  const room = width - 2 * pad;
  const under = top - labelHeight;
  const least = height < high ? 2.5 : 3.5;
  if (textWidth(text, least, false) <= room)
    return [letter('page', { x: x + pad, y: under - valueGap - least }, text, least)];
  const lines = wrapText(text, 2.5, false, room);
  const shown = height >= tall ? [...lines.slice(0, 1), lines.slice(1).join(' ')] : [lines.join(' ')];
  return shown
    .filter((line) => line !== '')
    .map((line, i) =>
      letter(
        'page',
        { x: x + pad, y: under - valueGap - 2.5 - i * 3.5 },
        shorten(line, 2.5, room, from),
        2.5,
      ),
    );
};

/** The block of a kind at a width. */
export const drawTitleBlock = (kind: TitleKind, width: number, texts: TitleTexts): Drawn => {
  const rows = kinds[kind];
  const height = titleHeight(kind);
  const marks: Mark[] = [stroke('page', boxPath(boxAt(0, 0, width, height)), QUARTER)];
  let top = height;
  for (const row of rows) {
    if (top < height) marks.push(ruleLine('page', { x: 0, y: top }, { x: width, y: top }, NARROW));
    let x = 0;
    for (const [key, share] of row.cells) {
      const wide = (share / titleWidth) * width;
      if (x > 0) marks.push(ruleLine('page', { x, y: top - row.height }, { x, y: top }, NARROW));
      marks.push(
        letter('page', { x: x + pad, y: top - labelHeight }, shorten(labels()[key], 2.5, wide - pad), 2.5),
        ...writeValue(key, (texts[key] ?? '').trim(), { x, top, width: wide, height: row.height }),
      );
      x += wide;
    }
    top -= row.height;
  }
  return { width, height, marks };
};
