import type { PdfFile, PdfPage } from './pdf-reader.ts';
import type { Vec2 } from './space.ts';

/** A printer that prints lengths along the paper's short side `across` times as long, along its long side `along` times. */
export interface FalsePrinter {
  readonly across: number;
  readonly along: number;
}

/** A straight stroke as it lies on the printed paper, mm from the paper's lower left corner. */
export interface PrintedStroke {
  readonly layer: string;
  readonly from: Vec2;
  readonly to: Vec2;
}

const MM = 25.4 / 72;

/**
 * What a ruler finds on a printed page: the page's content scaled about the middle of the paper, as a printer does that feeds
 * and scans at its own speeds. It looks at nothing but the content: no viewport, no record.
 */
export const printPage = (page: PdfPage, { across, along }: FalsePrinter): readonly PrintedStroke[] => {
  const [width, height] = [page.mediaBox.maxX * MM, page.mediaBox.maxY * MM];
  const [x, y] = width <= height ? [across, along] : [along, across];
  const print = (p: Vec2): Vec2 => ({
    x: width / 2 + (p.x * MM - width / 2) * x,
    y: height / 2 + (p.y * MM - height / 2) * y,
  });
  return page.strokes.flatMap(({ layer, path }) =>
    path.flatMap(({ start, segments }) => {
      const [only, ...more] = segments;
      return only?.kind === 'line' && more.length === 0
        ? [{ layer, from: print(start), to: print(only.to) }]
        : [];
    }),
  );
};

/** Lengths of the straight strokes on the scale layer that lie along an axis. */
export const ruledLengths = (strokes: readonly PrintedStroke[], axis: 'x' | 'y'): readonly number[] => {
  const other = axis === 'x' ? 'y' : 'x';
  return strokes
    .filter(({ layer, from, to }) => layer === 'scale' && Math.abs(from[other] - to[other]) < 1e-4)
    .map(({ from, to }) => Math.abs(to[axis] - from[axis]));
};

/**
 * Middles of the alignment crosses on the page layer: an upright arm of 8 mm with a level one that it halves, or, at a trimmed
 * edge, with the half of one that ends there.
 */
const crossesOf = (strokes: readonly PrintedStroke[]): readonly Vec2[] => {
  const arms = strokes.filter(({ layer }) => layer === 'page');
  const near = (a: Vec2, b: Vec2): boolean => Math.hypot(a.x - b.x, a.y - b.y) < 0.05;
  const uprights = arms.filter(
    ({ from, to }) => Math.abs(from.x - to.x) < 1e-3 && Math.abs(Math.abs(from.y - to.y) - 8) < 0.3,
  );
  const levels = arms.filter(({ from, to }) => Math.abs(from.y - to.y) < 1e-3);
  return uprights
    .map(({ from, to }) => ({ x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 }))
    .filter((at) =>
      levels.some(({ from, to }) => {
        const length = Math.abs(from.x - to.x);
        const middle = { x: (from.x + to.x) / 2, y: from.y };
        return (
          (Math.abs(length - 8) < 0.3 && near(middle, at)) ||
          (Math.abs(length - 4) < 0.2 && (near(from, at) || near(to, at)))
        );
      }),
    );
};

/**
 * Tapes printed pages of one row together, left to right: each page is shifted until its crosses at the left lie on those at
 * the right of the page before. Returns how far apart the two rows of crosses still are at worst, and the pages in one frame.
 */
export const tapeRow = (
  file: PdfFile,
  pages: readonly number[],
  printer: FalsePrinter,
): { readonly strokes: readonly PrintedStroke[]; readonly miss: number } => {
  let miss = 0;
  let before: readonly Vec2[] = [];
  const strokes = pages.flatMap((number) => {
    const printed = printPage(file.pages[number - 1] as PdfPage, printer);
    const crosses = crossesOf(printed);
    let shift: Vec2 = { x: 0, y: 0 };
    if (before.length > 0) {
      const right = Math.max(...before.map((p) => p.x));
      const left = Math.min(...crosses.map((p) => p.x));
      const pick = (points: readonly Vec2[], x: number) =>
        points.filter((p) => Math.abs(p.x - x) < 1).sort((a, b) => a.y - b.y);
      const [anchors, own] = [pick(before, right), pick(crosses, left)];
      if (anchors.length === 0 || anchors.length !== own.length) throw new Error('crosses do not pair');
      const [a, b] = [anchors[0] as Vec2, own[0] as Vec2];
      shift = { x: a.x - b.x, y: a.y - b.y };
      own.forEach((p, i) => {
        const q = anchors[i] as Vec2;
        miss = Math.max(miss, Math.hypot(p.x + shift.x - q.x, p.y + shift.y - q.y));
      });
    }
    const move = (p: Vec2): Vec2 => ({ x: p.x + shift.x, y: p.y + shift.y });
    before = crosses.map(move);
    return printed.map(({ layer, from, to }) => ({ layer, from: move(from), to: move(to) }));
  });
  return { strokes, miss };
};
