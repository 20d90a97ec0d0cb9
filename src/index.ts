/**
 * Full-size layout templates for pipe and plate work.
 *
 *     const request = readRequest('band', { pipe: 'NPS 6 sch 40', mark: ['37.5:lug'] });
 *     const sheets = makeSheets(request); // drawings in mm, by role
 *     const book = makeBook(request, sheets); // the same on the request's paper
 *     const bytes = await renderPdf(book);
 *
 * Lengths are millimetres and angles radians. Everything a person can put right is thrown as a `UserError` with its
 * issues. The command line is made of these same functions.
 */
export { UserError, type Failure, type Issue } from './issue.ts';

export { describeInput, groupInputs, isRequired, listInputs, spellInput } from './fields/describe.ts';
export type { Field, FieldKind, Fields, Values } from './fields/field.ts';
export * from './fields/fields.ts';
export { defineLayout, type Layout } from './fields/layout.ts';
export { layouts } from './layouts/registry.ts';
export { bandFields, countStations } from './sheets/band-fields.ts';
export type { Reading } from './units/reading.ts';
export type { Setting } from './units/setting.ts';

export { identify } from './identity.ts';
export {
  makeBook,
  makeCutterSheets,
  makeResults,
  makeScene,
  makeSheets,
  makeWrittenSheets,
} from './print.ts';
export type { Inputs, InputValue, StockValue } from './fields/values.ts';
export { findLayout, readRequest, readSpec, type Request, type Spec, type Texts } from './request.ts';

export type * from './drawing/model.ts';
export type { Book, Page } from './paging/book.ts';
export { formatCalibration, parseCalibration, type Calibration } from './paging/calibration.ts';
export type { PagingOptions, TitleFields } from './paging/options.ts';
export { paginate } from './paging/paginate.ts';
export { paperNames, parsePaper, type Paper } from './paging/paper.ts';
export type { FindCalibration, Printer } from './paging/printer.ts';

export { renderCsv } from './render/csv.ts';
export { renderDxf } from './render/dxf.ts';
export { renderPdf, streamPdf } from './render/pdf.ts';
export { renderSvg } from './render/svg.ts';
export { renderStl } from './render/stl.ts';

export type * from './scene/scene.ts';
export type * from './scene/shape.ts';
export type { Sight } from './scene/sight.ts';
export { meshVolume, sceneMeshes, shapeMesh, type Mesh, type PartMesh } from './scene/mesh.ts';
export { scenePictures } from './drawing/scene-picture.ts';

export { writeSheet, writeTable } from './drawing/written.ts';
export { parsePipe, type Pipe } from './stock/pipe.ts';
export { formatAngle, parseAngle } from './units/angle.ts';
export { formatBoth, formatFeetInches, formatInches, formatLength, formatMm } from './units/format.ts';
export { parseLength, type Units } from './units/length.ts';
export * from './units/quantity.ts';

export { version } from './version.ts';
