import { fitDashes } from '../drawing/dash.ts';
import { fontSize } from '../drawing/lettering.ts';
import type { Box, Fill, Lettering, Mark, Path, Stroke } from '../drawing/model.ts';
import type { Role } from '../drawing/role.ts';

/**
 * Marks as SVG to be looked at: light, quick to draw, in the colors of whatever it stands in. The writer of files to be cut
 * by is `svg.ts`.
 */
export interface Picture {
  /** Left, top, width and height, mm; y runs down. */
  readonly view: readonly [number, number, number, number];
  /** What stands in the `svg` element: a group of class and name for every role that is drawn. */
  readonly content: string;
}

/** White paper under numbers must be drawn before the layer's other marks of its kind, so layers keep their own order. */
export const layerOrder = [
  'station',
  'centre',
  'reference',
  'bend',
  'dimension',
  'text',
  'punch',
  'scale',
  'page',
  'cut',
] as const satisfies readonly Role[];

/** Hundredths of a millimetre are more than a screen shows. */
const write = (value: number): string => String(Math.round(value * 100) / 100 + 0);

const pathData = ({ start, segments, closed }: Path): string => {
  let data = `M${write(start.x)} ${write(-start.y)}`;
  for (const segment of segments) {
    const { to } = segment;
    data +=
      segment.kind === 'line'
        ? `L${write(to.x)} ${write(-to.y)}`
        : `C${write(segment.c1.x)} ${write(-segment.c1.y)} ${write(segment.c2.x)} ${write(-segment.c2.y)} ${write(to.x)} ${write(-to.y)}`;
  }
  return closed ? `${data}Z` : data;
};

const escape = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

const anchors = { left: 'start', centre: 'middle', right: 'end' } as const;

const writeText = ({ at, text, height, align, valign, angle, bold }: Lettering): string => {
  const drop = valign === 'middle' ? height / 2 : valign === 'top' ? height : 0;
  const [x, y] = [write(at.x + drop * Math.sin(angle)), write(-at.y + drop * Math.cos(angle))];
  const turn = angle === 0 ? '' : ` transform="rotate(${write((-angle * 180) / Math.PI)} ${x} ${y})"`;
  const weight = bold ? ' font-weight="bold"' : '';
  const anchor = align === 'left' ? '' : ` text-anchor="${anchors[align]}"`;
  return `<text x="${x}" y="${y}" font-size="${write(fontSize(height, bold))}"${anchor}${weight}${turn}>${escape(text)}</text>`;
};

const writeFill = ({ path, ink }: Fill): string => `<path class="ink-${ink}" d="${pathData(path)}"/>`;

const writeStroke = (data: string, width: number, dashes: readonly number[]): string => {
  const dashed = dashes.length === 0 ? '' : ` stroke-dasharray="${dashes.map(write).join(' ')}"`;
  return `<path stroke-width="${width}"${dashed} d="${data}"/>`;
};

/** One role's marks in their order; continuous lines of one width that follow each other become one path. */
const writeRole = (marks: readonly Mark[]): string => {
  const parts: string[] = [];
  let run: { readonly width: number; data: string } | undefined;
  const flush = (): void => {
    if (run !== undefined) parts.push(writeStroke(run.data, run.width, []));
    run = undefined;
  };
  const add = (mark: Stroke): void => {
    if (mark.line !== 'continuous') {
      flush();
      parts.push(writeStroke(pathData(mark.path), mark.width, fitDashes(mark.line, mark.width, mark.path)));
      return;
    }
    if (run?.width !== mark.width) flush();
    run ??= { width: mark.width, data: '' };
    run.data += pathData(mark.path);
  };
  for (const mark of marks) {
    if (mark.kind === 'stroke') {
      add(mark);
      continue;
    }
    flush();
    parts.push(mark.kind === 'fill' ? writeFill(mark) : writeText(mark));
  }
  flush();
  return parts.join('');
};

const writeLayers = (marks: readonly Mark[]): string => {
  const byRole = new Map<Role, Mark[]>(layerOrder.map((role) => [role, []]));
  for (const mark of marks) byRole.get(mark.role)?.push(mark);
  return [...byRole]
    .map(([role, own]) => (own.length === 0 ? '' : `<g class="${role}">${writeRole(own)}</g>`))
    .join('');
};

/** Marks within `bounds` (mm, y up) as a picture. */
export const drawPicture = (marks: readonly Mark[], bounds: Box): Picture => ({
  view: [bounds.minX, -bounds.maxY, bounds.maxX - bounds.minX, bounds.maxY - bounds.minY],
  content: writeLayers(marks),
});

/** A page of a print as a picture, marks in the order they are printed in. */
export const drawPagePicture = (page: {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}): Picture => ({ view: [0, -page.height, page.width, page.height], content: writeRole(page.marks) });
