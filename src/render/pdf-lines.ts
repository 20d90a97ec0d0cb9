import { fitDashes } from '../drawing/dash.ts';
import type { Fill, Path, Role, Stroke } from '../drawing/model.ts';
import { type PdfDocument, pointsPerMm } from './pdf-document.ts';

/** Draws lines and filled shapes on the document's current page. */
export interface LineWriter {
  /** Forgets the pen of the page before: a new page starts with PDF's own defaults. */
  startPage(): void;
  stroke(mark: Stroke): void;
  fill(mark: Fill): void;
}

/**
 * Where a corner of the line must be true the pen is round, so that its edge is everywhere half a width from the line;
 * elsewhere corners are mitred, which looks crisp. Ends are square and stop where the line stops.
 */
const roundJoins: ReadonlySet<Role> = new Set<Role>(['cut', 'bend']);

export const createLineWriter = (doc: PdfDocument): LineWriter => {
  let pen = new Map<string, string>();

  /** Writes an operator unless the page's last of that name had the same operands. */
  const set = (operator: string, operands: string): void => {
    if (pen.get(operator) === operands) return;
    pen.set(operator, operands);
    doc.addContent(`${operands} ${operator}`);
  };

  return {
    startPage() {
      pen = new Map([
        ['j', '0'],
        ['d', '[] 0'],
      ]);
    },
    stroke({ path, role, line, width }) {
      const dashes = fitDashes(line, width, path);
      set('w', inPoints(width));
      set('j', roundJoins.has(role) ? '1' : '0');
      set('d', `[${dashes.map(inPoints).join(' ')}] 0`);
      trace(doc, path);
      doc.addContent('S');
    },
    fill({ path, ink }) {
      if (ink === 'white') doc.addContent('1 g');
      trace(doc, path);
      doc.addContent(ink === 'white' ? 'f 0 g' : 'f');
    },
  };
};

const trace = (doc: PdfDocument, { start, segments, closed }: Path): void => {
  const k = pointsPerMm;
  doc.moveTo(start.x * k, start.y * k);
  for (const segment of segments) {
    const { to } = segment;
    if (segment.kind === 'line') doc.lineTo(to.x * k, to.y * k);
    else {
      const { c1, c2 } = segment;
      doc.bezierCurveTo(c1.x * k, c1.y * k, c2.x * k, c2.y * k, to.x * k, to.y * k);
    }
  }
  if (closed) doc.closePath();
};

/** Widths and dashes, mm, to 0.0001 pt. */
const inPoints = (mm: number): string => String(Math.round(mm * pointsPerMm * 1e4) / 1e4);
