import type { Sheet } from '../../drawing/model.ts';
import { markBounds } from '../../drawing/extent.ts';
import { growBox, unionBox } from '../../drawing/paths.ts';
import { writeSheet } from '../../drawing/written.ts';
import { identify } from '../../identity.ts';
import { makeBook, makeSheets } from '../../print.ts';
import { drawPagePicture, drawPicture, type Picture } from '../../render/picture.ts';
import type { Request } from '../../request.ts';
import type { BookView, DrawingView, SheetView, SightsView } from './views.ts';

/** Clear ground round a drawing, mm. */
const border = 4;

const drawSheet = ({ marks, bounds }: Sheet): Picture =>
  drawPicture(marks, growBox(unionBox([bounds, ...marks.map(markBounds)]), border));

const viewSheet = (sheet: Sheet, { setting }: Request): SheetView => {
  const { name, heading, subject, steps, facts, tables, cautions } = writeSheet(sheet, setting);
  return {
    name,
    heading,
    subject,
    drawing: drawSheet(sheet),
    steps,
    facts,
    tables,
    cautions,
  };
};

/** Draws a request's sheets. */
export const viewDrawing = (request: Request): DrawingView => {
  const sheets = makeSheets(request);
  return {
    sheets: sheets.map((sheet) => viewSheet(sheet, request)),
    identity: identify(request.understood, sheets),
    spec: request.spec,
  };
};

/** Draws the small views of a request's sheets, which take longer than the sheets themselves. */
export const viewSights = (request: Request): readonly SightsView[] =>
  makeSheets(request).map(({ name, pictures }) => ({
    sheet: name,
    pictures: pictures.map(({ title, marks, bounds }) => ({
      title,
      picture: drawPicture(marks, growBox(bounds, 2)),
    })),
  }));

/** Lays a request's sheets on its paper. */
export const viewBook = (request: Request): BookView => {
  const { title, pages, sheets } = makeBook(request);
  return {
    title,
    sheets: sheets.map(({ name, heading }) => ({ name, heading })),
    pages: pages.map((page) => {
      const { label, width, height, views } = page;
      return { label, width, height, views, picture: drawPagePicture(page) };
    }),
  };
};

/** Lines that show what a sheet is without its words and numbers. */
const telling = new Set(['cut', 'punch', 'bend', 'station', 'reference', 'centre']);

/** A small picture of what a request makes: the first view of the joint, or else the sheet's own lines. */
export const drawSign = (request: Request): Picture => {
  const [sheet] = makeSheets(request);
  if (sheet === undefined) throw new Error(`${request.layout.id} draws no sheet`);
  const [view] = sheet.pictures;
  const source = view ?? sheet;
  const lines = source.marks.filter(
    (mark) => mark.kind !== 'text' && (view !== undefined || telling.has(mark.role)),
  );
  const shown = lines.length > 0 ? lines : source.marks;
  return drawPicture(shown, growBox(unionBox(shown.map(markBounds)), 1));
};
