import type { Box, Path } from '../../src/drawing/model.ts';
import type { Vec2 } from '../../src/geometry/vector.ts';
import type { Book, Page, View } from '../../src/paging/book.ts';
import { renderPage } from './external.ts';

/** The taped pages of a sheet as one grey image, and where a point of the sheet lies in it. */
export interface Taped {
  readonly width: number;
  readonly height: number;
  /** Rows from the top, 0 black to 255 white. */
  readonly grey: Uint8Array;
  /** The darkest pixel next to a point of the sheet, mm. */
  readonly darkest: (p: Vec2) => number;
}

/** A page that shows a tile: its number from 1, and the tile. */
interface Tile {
  readonly page: Page;
  readonly number: number;
  readonly view: View;
}

const placeOf = ({ viewport, origin }: View): Box => ({
  minX: viewport.minX - origin.x,
  maxX: viewport.maxX - origin.x,
  minY: viewport.minY - origin.y,
  maxY: viewport.maxY - origin.y,
});

/** The tiles of a book's sheet in reading order. */
export const tilesOf = ({ pages }: Book, sheet: string): readonly Tile[] =>
  pages.flatMap((page, i) =>
    page.views
      .filter((view) => view.sheet === sheet && /^\d+\.\d+$/.test(view.name))
      .map((view) => ({ page, number: i + 1, view })),
  );

/**
 * Lays a sheet's pages as a person does who follows the print: each trimmed to its frame at the left and at the top where a
 * neighbor lies there, and laid on those before it; at the right and below the paper stays whole. Seen by poppler.
 */
export const tapePages = (bytes: Uint8Array, book: Book, sheet: string, dpi: number): Taped => {
  const scale = dpi / 25.4;
  const tiles = tilesOf(book, sheet);
  const frames = tiles.map(({ view }) => placeOf(view));
  const all = tiles.map(({ page, view: { origin } }) => ({
    minX: -origin.x,
    maxX: page.width - origin.x,
    minY: -origin.y,
    maxY: page.height - origin.y,
  }));
  const left = Math.min(...all.map(({ minX }) => minX));
  const top = Math.max(...all.map(({ maxY }) => maxY));
  const width = Math.ceil((Math.max(...all.map(({ maxX }) => maxX)) - left) * scale);
  const height = Math.ceil((top - Math.min(...all.map(({ minY }) => minY))) * scale);
  const grey = new Uint8Array(width * height).fill(255);
  tiles.forEach(({ page, number, view }, i) => {
    const frame = frames[i]!;
    const others = frames.slice(0, i);
    const overlaps = (from: number, to: number, a: number, b: number): boolean =>
      Math.min(to, b) - Math.max(from, a) > 1;
    const hasLeft = others.some(
      (f) =>
        f.minX < frame.minX - 1 && f.maxX > frame.minX && overlaps(f.minY, f.maxY, frame.minY, frame.maxY),
    );
    const hasAbove = others.some(
      (f) =>
        f.maxY > frame.maxY + 1 && f.minY < frame.maxY && overlaps(f.minX, f.maxX, frame.minX, frame.maxX),
    );
    const image = renderPage(bytes, number, dpi);
    const trimLeft = hasLeft ? Math.round(view.viewport.minX * scale) : 0;
    const trimTop = hasAbove ? Math.round((page.height - view.viewport.maxY) * scale) : 0;
    const x0 = Math.round((-view.origin.x - left) * scale);
    const y0 = Math.round((top - (page.height - view.origin.y)) * scale);
    for (let y = trimTop; y < image.height; y++)
      for (let x = trimLeft; x < image.width; x++) {
        const [u, v] = [x0 + x, y0 + y];
        if (u >= 0 && v >= 0 && u < width && v < height)
          grey[v * width + u] = image.grey[y * image.width + x] ?? 255;
      }
  });
  const darkest = ({ x, y }: Vec2): number => {
    const [u, v] = [Math.floor((x - left) * scale), Math.floor((top - y) * scale)];
    let least = 255;
    for (let dv = -1; dv <= 1; dv++)
      for (let du = -1; du <= 1; du++) least = Math.min(least, grey[(v + dv) * width + u + du] ?? 255);
    return least;
  };
  return { width, height, grey, darkest };
};

/** Points along a path, about every `step` mm. */
export const pointsAlong = ({ start, segments }: Path, step: number): readonly Vec2[] => {
  let from = start;
  return segments.flatMap((segment) => {
    const a = from;
    from = segment.to;
    const at = (t: number): Vec2 => {
      const s = 1 - t;
      if (segment.kind === 'line') return { x: a.x * s + segment.to.x * t, y: a.y * s + segment.to.y * t };
      const mix = (p: number, q: number, r: number, w: number): number =>
        s * s * s * p + 3 * s * s * t * q + 3 * s * t * t * r + t * t * t * w;
      return {
        x: mix(a.x, segment.c1.x, segment.c2.x, segment.to.x),
        y: mix(a.y, segment.c1.y, segment.c2.y, segment.to.y),
      };
    };
    const count = Math.max(1, Math.ceil(Math.hypot(segment.to.x - a.x, segment.to.y - a.y) / step));
    return Array.from({ length: count + 1 }, (_, i) => at(i / count));
  });
};
