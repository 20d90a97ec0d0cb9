import { describe, expect, it } from 'vitest';
import { letteringBox } from '../../src/drawing/lettering.ts';
import type { Box } from '../../src/drawing/model.ts';
import { isOverlapping, moveBox } from '../../src/paging/box.ts';
import { makeBook, makeSheets } from '../../src/print.ts';
import { renderPdf } from '../../src/render/pdf.ts';
import { readRequest, type Texts } from '../../src/request.ts';
import { pointsAlong, tapePages, tilesOf } from '../support/taped.ts';
import { crossesOf } from './page-checks.ts';

/** A band, a disc and a ring that take several pages. */
const jobs: readonly (readonly [string, Texts])[] = [
  ['miter', { stock: 'NPS 6 sch 40', cut: '22.5' }],
  ['plate', { shape: 'disc', diameter: '250mm', bore: '60mm', hole: '14mm', holes: '6', circle: '200mm' }],
  ['ring', { outside: '400mm', inside: '325mm', paper: 'letter' }],
];

/** Fine enough that the thinnest line, 0.18 mm, is darker than this in its pixel. */
const DPI = 150;
const DARK = 160;

describe.each(jobs)('the taped pages of a %s %j, as they lie on the bench', (id, texts) => {
  const request = readRequest(id, texts);
  const [sheet] = makeSheets(request);
  const name = sheet?.name ?? '';
  const book = makeBook(request);
  const tiles = tilesOf(book, name);

  it('show every cut line without a gap, and every cross whole', async () => {
    const taped = tapePages(await renderPdf(book), book, name, DPI);
    const cuts = (sheet?.marks ?? []).flatMap((mark) =>
      mark.kind === 'stroke' && mark.role === 'cut' ? [mark.path] : [],
    );
    const points = cuts.flatMap((path) => pointsAlong(path, 0.5));
    expect(points.length).toBeGreaterThan(500);
    expect(points.filter((p) => taped.darkest(p) > DARK)).toEqual([]);
    const crosses = tiles.flatMap(({ page, view }) => crossesOf(page, view));
    expect(crosses.length).toBeGreaterThanOrEqual(2 * (tiles.length - 1));
    const arms = crosses.flatMap(({ x, y, reach }) =>
      [0.3, 0.6, 0.9].flatMap((share) => [
        { x: x + share * reach, y },
        { x: x - share * reach, y },
        { x, y: y + share * reach },
        { x, y: y - share * reach },
      ]),
    );
    expect(arms.filter((p) => taped.darkest(p) > DARK)).toEqual([]);
  });

  it('hide no word, in the drawing or beside it', () => {
    // From its trimmed edges on a page covers what lies under it.
    const covers = tiles.map(({ page, view: { viewport, origin } }): Box => ({
      minX: viewport.minX - origin.x,
      maxX: page.width - origin.x,
      minY: -origin.y,
      maxY: viewport.maxY - origin.y,
    }));
    const said = tiles.map(({ page, view: { origin } }) =>
      page.marks.flatMap((mark) =>
        mark.kind === 'text' && mark.role !== 'page' && mark.role !== 'scale'
          ? [{ text: mark.text, box: moveBox(letteringBox(mark), -origin.x, -origin.y) }]
          : [],
      ),
    );
    const hidden = said.flatMap((words, i) =>
      words.filter(({ text, box }) =>
        covers.some(
          (cover, j) =>
            j > i &&
            isOverlapping(cover, box) &&
            !said[j]?.some((one) => one.text === text && Math.abs(one.box.minX - box.minX) < 1e-3),
        ),
      ),
    );
    expect(hidden.map(({ text }) => text)).toEqual([]);
  });
});
