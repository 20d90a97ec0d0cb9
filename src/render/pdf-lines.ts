import { fitDashes } from '../drawing/dash.ts';
import type { Fill, Path, Stroke } from '../drawing/model.ts';
import type { Role } from '../drawing/role.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { PageContent } from './pdf-content.ts';
import { pointsPerMm } from './pdf-document.ts';

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
    content.operator(`${operands} ${operator}`);
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
      trace(content, path);
      content.operator('S');
    },
    fill({ path, ink }) {
      if (ink === 'white') content.operator('1 g');
      trace(content, path);
      content.operator(ink === 'white' ? 'f 0 g' : 'f');
    },
  };
};

/** A path in PDF's own operators (ISO 32000-1, 8.5.2). */
const trace = (content: PageContent, { start, segments, closed }: Path): void => {
  writePoint(content, start);
  content.operator('m');
  for (const segment of segments) {
    if (segment.kind === 'curve') {
      writePoint(content, segment.c1);
      writePoint(content, segment.c2);
    }
    writePoint(content, segment.to);
    content.operator(segment.kind === 'curve' ? 'c' : 'l');
  }
  if (closed) content.operator('h');
};

const writePoint = (content: PageContent, { x, y }: Vec2): void => {
  content.number(x * pointsPerMm);
  content.number(y * pointsPerMm);
};

/** Widths and dashes, mm, to 0.0001 pt. */
const inPoints = (mm: number): string => String(Math.round(mm * pointsPerMm * 1e4) / 1e4);
