import type { Vec2 } from '../geometry/vector.ts';
import { fitDashes } from '../drawing/dash.ts';
import type { Fill, Path, Role, Stroke } from '../drawing/model.ts';
import type { PageContent } from './pdf-content.ts';
import { pointsPerMm, writeNumber } from './pdf-document.ts';

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

export const createLineWriter = (content: PageContent): LineWriter => {
  let pen = new Map<string, string>();

  /** Writes an operator unless the page's last of that name had the same operands. */
  const set = (operator: string, operands: string): void => {
    if (pen.get(operator) === operands) return;
    pen.set(operator, operands);
    content.write(`${operands} ${operator}`);
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
      content.write(trace(path));
      content.write('S');
    },
    fill({ path, ink }) {
      if (ink === 'white') content.write('1 g');
      content.write(trace(path));
      content.write(ink === 'white' ? 'f 0 g' : 'f');
    },
  };
};

/** A path in PDF's own operators (ISO 32000-1, 8.5.2). */
const trace = ({ start, segments, closed }: Path): string => {
  let text = `${writePoint(start)} m`;
  for (const segment of segments)
    text +=
      segment.kind === 'line'
        ? `\n${writePoint(segment.to)} l`
        : `\n${writePoint(segment.c1)} ${writePoint(segment.c2)} ${writePoint(segment.to)} c`;
  return closed ? `${text}\nh` : text;
};

const writePoint = ({ x, y }: Vec2): string =>
  `${writeNumber(x * pointsPerMm)} ${writeNumber(y * pointsPerMm)}`;

/** Widths and dashes, mm, to 0.0001 pt. */
const inPoints = (mm: number): string => String(Math.round(mm * pointsPerMm * 1e4) / 1e4);
