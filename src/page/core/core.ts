import { readRequest, type Request } from '../../request.ts';
import { layouts } from '../../layouts/registry.ts';
import { listCatalogue } from './catalogue.ts';
import { drawSign, viewBook, viewDrawing } from './draw.ts';
import { writeCalibrationSheet, writeRequest } from './files.ts';
import { takeFonts } from './fonts.ts';
import { openFile, writeBookFile, writeJobFile } from './jobs.ts';
import { attempt, attemptLater } from './outcome.ts';
import { findIn, takeReadings, type Profiles, type Readings } from './printers.ts';
import type { Asked } from './views.ts';

/** Printers of this device, handed over by the page, which keeps them. */
let profiles: Profiles = {};

const read = ({ layout, texts }: Asked): Request => readRequest(layout, texts, layouts, findIn(profiles));

/** The whole program as the page calls it, by messages to its worker. */
export const core = {
  listCatalogue,
  takeFonts,
  knowPrinters: (known: Profiles) => {
    profiles = known;
  },
  draw: (asked: Asked) => attempt(() => viewDrawing(read(asked))),
  layPages: (asked: Asked) => attempt(() => viewBook(read(asked))),
  drawSign: (asked: Asked) => attempt(() => drawSign(read(asked))),
  write: (asked: Asked, format: string) => attemptLater(() => writeRequest(read(asked), format)),
  writeCalibrationSheet: (printer: string, paper: string) =>
    attemptLater(() => writeCalibrationSheet(printer, paper)),
  takeReadings: (readings: Readings) => attempt(() => takeReadings(readings)),
  openFile: (name: string, bytes: Uint8Array) => attempt(() => openFile(name, bytes, findIn(profiles))),
  writeJobFile: (pieces: readonly Asked[], book: string) => attempt(() => writeJobFile(pieces, book)),
  writeBook: (pieces: readonly Asked[], book: string, onPiece: (done: number) => void) =>
    attemptLater(() => writeBookFile(pieces.map(read), book, onPiece)),
};

export type Core = typeof core;
