import type { Mark, Path } from '../../src/drawing/model.ts';
import { fontSize } from '../../src/drawing/lettering.ts';
import type { Book, Page } from '../../src/paging/book.ts';

/** A tenth of a millimetre is enough for a small picture. */
const write = (value: number): string => String(Math.round(value * 10) / 10);

const escape = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

const pathData = ({ start, segments, closed }: Path, height: number): string => {
  const at = ({ x, y }: { x: number; y: number }): string => `${write(x)} ${write(height - y)}`;
  const steps = segments.map((segment) =>
    segment.kind === 'line' ? `L${at(segment.to)}` : `C${at(segment.c1)} ${at(segment.c2)} ${at(segment.to)}`,
  );
  return `M${at(start)}${steps.join('')}${closed ? 'Z' : ''}`;
};

const anchors = { left: 'start', centre: 'middle', right: 'end' } as const;

const drawMark = (mark: Mark, height: number): string => {
  if (mark.kind === 'fill') return `<path d="${pathData(mark.path, height)}" fill="${mark.ink}"/>`;
  if (mark.kind === 'stroke') {
    const dash = mark.line === 'continuous' ? '' : ' stroke-dasharray="4 1"';
    return `<path d="${pathData(mark.path, height)}" stroke="#000" stroke-width="${mark.width}"${dash}/>`;
  }
  const { text, height: tall, align, valign, angle, bold } = mark;
  const drop = valign === 'middle' ? tall / 2 : valign === 'top' ? tall : 0;
  const [x, y] = [mark.at.x + drop * Math.sin(angle), height - mark.at.y + drop * Math.cos(angle)];
  const turn =
    angle === 0 ? '' : ` transform="rotate(${write((-angle * 180) / Math.PI)} ${write(x)} ${write(y)})"`;
  const weight = bold ? ' font-weight="bold"' : '';
  const size = write(fontSize(tall, bold));
  return `<text x="${write(x)}" y="${write(y)}" font-size="${size}" text-anchor="${anchors[align]}" fill="#000"${weight}${turn}>${escape(text)}</text>`;
};

/** A page as a small SVG, for looking at and not for use. */
export const drawPage = ({ width, height, marks }: Page): string =>
  [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${write(width)} ${write(height)}" fill="none" font-family="'DejaVu Sans Condensed', 'Liberation Sans Narrow', Arial, sans-serif">`,
    `<rect width="100%" height="100%" fill="#fff"/>`,
    ...marks.map((mark) => drawMark(mark, height)),
    '</svg>\n',
  ].join('\n');

/** What a print is looked at for. */
const telling = new Set(['cut', 'punch', 'bend', 'station', 'reference']);

/** The page that shows most of what is marked or cut. */
export const tellingPage = ({ pages }: Book): number => {
  const counts = pages.map(
    ({ marks }) => marks.filter(({ role, kind }) => kind === 'stroke' && telling.has(role)).length,
  );
  return counts.indexOf(Math.max(...counts));
};
