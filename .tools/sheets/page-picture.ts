import type { Book, Page } from '../../src/paging/book.ts';
import { drawPagePicture } from '../../src/render/picture.ts';

const style =
  'path { stroke: #000 } text, .ink-black { fill: #000; stroke: none } .ink-white { fill: #fff; stroke: none }';

/** A page as a small SVG, for looking at and not for use. */
export const drawPage = (page: Page): string => {
  const { view, content } = drawPagePicture(page);
  const [left, top, width, height] = view;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${view.join(' ')}" fill="none" font-family="'DejaVu Sans Condensed', 'Liberation Sans Narrow', Arial, sans-serif">`,
    `<style>${style}</style>`,
    `<rect x="${left}" y="${top}" width="${width}" height="${height}" fill="#fff"/>`,
    content,
    '</svg>\n',
  ].join('\n');
};

/** What a print is looked at for. */
const telling = new Set(['cut', 'punch', 'bend', 'station', 'reference']);

/** The page that shows most of what is marked or cut. */
export const tellingPage = ({ pages }: Book): number => {
  const counts = pages.map(
    ({ marks }) => marks.filter(({ role, kind }) => kind === 'stroke' && telling.has(role)).length,
  );
  return counts.indexOf(Math.max(...counts));
};
