import { nameRequest } from '../../jobs/file-name.ts';
import { makeCalibrationSheet } from '../../paging/calibration-sheet.ts';
import { parsePaper } from '../../paging/paper.ts';
import { readPrinterName } from '../../paging/printer.ts';
import { makeBook, makeCutList, makeCutterSheets, makeScene, makeSheets } from '../../print.ts';
import { type Format, isFormat, writers } from '../../render/formats.ts';
import { renderPdf } from '../../render/pdf.ts';
import type { Request } from '../../request.ts';
import type { FileView } from './views.ts';
import { say } from '../../words/say.ts';

const types = new Map([
  ['pdf', 'application/pdf'],
  ['svg', 'image/svg+xml'],
  ['dxf', 'image/vnd.dxf'],
  ['csv', 'text/csv'],
  ['stl', 'model/stl'],
  ['yaml', 'application/yaml'],
]);

/** Bytes as a file to be saved. */
export const makeFile = (name: string, bytes: Uint8Array): FileView => ({
  name,
  type: types.get(name.replace(/^.*\./, '')) ?? 'application/octet-stream',
  bytes: new Uint8Array(bytes),
});

const checkFormat = (format: string): Format => {
  if (isFormat(format)) return format;
  throw new Error(`there is no format ${format}`);
};

/** A request as a file, the same as the command line writes. */
export const writeRequest = async (request: Request, format: string): Promise<FileView> => {
  const sheets = makeSheets(request);
  const bytes = await writers[checkFormat(format)]({
    sheets,
    book: makeBook(request, sheets),
    lengths: request.setting,
    cutterSheets: () => makeCutterSheets(request),
    cutList: makeCutList(request),
    scene: () => makeScene(request),
  });
  return makeFile(`${nameRequest(request)}.${format}`, bytes);
};

/** The sheet whose bars show what a printer makes of 100 %. */
export const writeCalibrationSheet = async (printer: string, paper: string): Promise<FileView> => {
  const book = makeCalibrationSheet(
    readPrinterName(printer),
    parsePaper(paper),
    say`in the page, under Printers: the readings of A and B, and of C and D`,
  );
  return makeFile(`calibration-${parsePaper(paper).name}.pdf`, await renderPdf(book));
};
