import type { ContourOutline } from '../geometry/contour-outline.ts';
import { quarterLines, type StockKind, type StockLine } from './stock.ts';

type Face = ContourOutline['faces'][number];

/** Faces in order, one that begins in its middle joined up: it then ends past the girth. */
const wholeFaces = ({ faces, girth }: ContourOutline): readonly Face[] => {
  const [first, last] = [faces[0], faces.at(-1)];
  if (faces.length < 2 || !first || !last || first.face !== last.face || first.flat !== last.flat)
    return faces;
  return [...faces.slice(1, -1), { ...last, to: girth + first.to }];
};

/**
 * The lines to mark along shaped stock: the middle of every face, and where corners begin and end. An ellipse has neither:
 * it has the quarters of its girth.
 */
export const shapedLines = (outline: ContourOutline, kind: StockKind): readonly StockLine[] => {
  const { girth } = outline;
  if (kind === 'ellipse')
    return quarterLines(girth).map((line, i) => ({ ...line, name: ['0', '1/4', '1/2', '3/4'][i] ?? '' }));
  const faces = wholeFaces(outline).filter(({ face }) => face !== undefined);
  const wrap = (s: number): number => (s >= girth - 1e-9 ? s - girth : s);
  const middles = faces
    .filter(({ face }) => !/^(corner|toe)/.test(face ?? ''))
    .map(({ from, to, face }): StockLine => ({ s: wrap((from + to) / 2), name: face ?? '', kind: 'middle' }));
  // Where one face or rounding goes over into the next; a face begun in its middle does not begin anew at position 0.
  const whole = wholeFaces(outline);
  const folds = whole
    .map(({ from }) => from)
    .filter((_, i) => whole.length > 1 || outline.faces.length === i)
    .map((s, i): StockLine => ({ s, name: `fold ${i + 1}`, kind: 'fold' }));
  return [...middles, ...folds].sort((a, b) => a.s - b.s);
};
