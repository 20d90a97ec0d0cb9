/**
 * Full-size layout templates for pipe and plate work.
 *
 *     const request = readRequest('band', { pipe: 'NPS 6 sch 40', mark: ['37.5:lug'] });
 *     const sheets = makeSheets(request); // drawings in mm, by role
 *     const book = makeBook(request, sheets); // the same on the request's paper
 *     const bytes = await renderPdf(book);
 *
 * Lengths are millimeters and angles radians. Everything a person can put right is thrown as a `UserError` with its
 * issues. What an end meets is a `Mate`: `solidMate` makes one of a plane, a pipe, a cone, a bend … as plain data, and
 * `developEnd` and `developOpening` follow an `Outline` to it. The command line is made of these same functions.
 */
export { UserError, type Failure, type Issue } from './issue.ts';

export { describeInput, groupInputs, isRequired, listInputs, spellInput } from './fields/describe.ts';
export type { Field, FieldKind, Fields, Values } from './fields/field.ts';
export * from './fields/fields.ts';
export { defineLayout, type Layout } from './fields/layout.ts';
export { layouts } from './layouts/registry.ts';
// What a layout of one's own is made with: sheet skeletons, marks, paths, lettering.
export { textWidth } from './drawing/lettering.ts';
export * from './drawing/paths.ts';
export { makePicture, viewAngle, viewDimension, viewPath, viewRule, viewText } from './drawing/view.ts';
export { bandFields, countStations, pickBand, type BandValues } from './sheets/band-fields.ts';
export { bandLines, bandPaper, type BandPaper } from './sheets/band-paper.ts';
export { bandSheet, type BandSheet } from './sheets/band-sheet.ts';
export { CHECK_PRINT } from './sheets/band-words.ts';
export { bodiesField } from './sheets/bodies-field.ts';
export { contactField, describeContact, gapField } from './sheets/contact.ts';
export { drawBand, drawCutBand, type Band, type CutBand } from './sheets/cut-band.ts';
export { endPicture } from './sheets/end-picture.ts';
export { fitAround, fitBand, fitFlat } from './sheets/fit-record.ts';
export * from './sheets/flat-marks.ts';
export { plateSheet } from './sheets/flat-sheet.ts';
export { openingSheet, type OpeningSheet } from './sheets/opening-sheet.ts';

// The geometry underneath: outlines, mates, developments, openings.
export { contourOutline } from './geometry/contour-outline.ts';
export { cubicAt, fitCurve, lineExtent, type Cubic } from './geometry/cubic.ts';
export { MissError, developEnd, type Development, type End } from './geometry/development.ts';
export type { Hit, Line, Mate } from './geometry/mate.ts';
export { OpeningError, developOpening, type Opening } from './geometry/opening.ts';
export { circleOutline, mirrorOutline, type Outline } from './geometry/outline.ts';
export type { Contact } from './geometry/reach.ts';
export type { Section, SectionEdge } from './geometry/section.ts';
export { vec2, vec3, type Vec2, type Vec3 } from './geometry/vector.ts';
export type { Body, BodySpec } from './joint/bodies/body.ts';
export { readBodies } from './joint/bodies/read-bodies.ts';
export { solidMate, solidsMate } from './joint/solid-mate.ts';
export type { Solid } from './joint/solid.ts';
export { parseStock } from './stock/read-stock.ts';
export type { Stock, StockKind } from './stock/stock.ts';
export type { Reading } from './units/reading.ts';
export type { Setting } from './units/setting.ts';

export type { InputValue, Inputs, StockValue } from './fields/values.ts';
export { identify } from './identity.ts';
export {
  makeBook,
  makeCutterSheets,
  makeResults,
  makeScene,
  makeSheets,
  makeWrittenSheets,
} from './print.ts';
export { findLayout, readRequest, readSpec, type Request, type Spec, type Texts } from './request.ts';

export type * from './drawing/model.ts';
export type { Role } from './drawing/role.ts';
export type { Book, Page } from './paging/book.ts';
export { formatCalibration, parseCalibration, type Calibration } from './paging/calibration.ts';
export type { PagingOptions, TitleFields } from './paging/options.ts';
export { paginate } from './paging/paginate.ts';
export { paperNames, parsePaper, type Paper } from './paging/paper.ts';
export type { FindCalibration, Printer } from './paging/printer.ts';

export { renderCsv } from './render/csv.ts';
export { renderDxf } from './render/dxf.ts';
export { renderPdf, streamPdf } from './render/pdf.ts';
export { renderStl } from './render/stl.ts';
export { renderSvg } from './render/svg.ts';

export { scenePictures } from './drawing/scene-picture.ts';
export { meshVolume, sceneMeshes, shapeMesh, type Mesh, type PartMesh } from './scene/mesh.ts';
export { angleNote, labelNote, lengthNote, type Note, type Part, type Scene } from './scene/scene.ts';
export type { SurfaceLine, View } from './scene/scene.ts';
export type * from './scene/shape.ts';
export type { Sight } from './scene/sight.ts';

export { valuesOf, worded } from './drawing/worded.ts';
export { writeSheet, writeTable } from './drawing/written.ts';
export { parsePipe, type Pipe } from './stock/pipe.ts';
export { formatAngle, parseAngle } from './units/angle.ts';
export { formatBoth, formatFeetInches, formatInches, formatLength, formatMm } from './units/format.ts';
export { parseLength, type Units } from './units/length.ts';
export * from './units/quantity.ts';

export { version } from './version.ts';
