import type { Picture } from '../../render/picture.ts';
import { readRequest, type Request } from '../../request.ts';
import { layouts } from '../../layouts/registry.ts';
import { listTexts, speak, type Language } from '../../words/languages.ts';
import { listCatalogue } from './catalogue.ts';
import { drawSign, viewBook, viewDrawing, viewSights } from './draw.ts';
import { takeFonts } from './fonts.ts';
import { viewJoint } from './joint.ts';
import { attempt, attemptLater } from './outcome.ts';
import { findIn, takeReadings, type Profile, type Profiles, type Readings } from './printers.ts';
import type {
  Asked,
  BookView,
  Catalogue,
  DrawingView,
  FileView,
  JointView,
  Opened,
  Outcome,
  SightsView,
} from './views.ts';

/** What writes and reads files takes longest to get ready, and is not needed to draw. */
const files = () => import('./files.ts');
const jobs = () => import('./jobs.ts');

/** Printers of this device, handed over by the page, which keeps them. */
let profiles: Profiles = {};

const read = ({ layout, texts }: Asked): Request => readRequest(layout, texts, layouts, findIn(profiles));

/** The whole program as the page calls it, by messages to its worker. Nothing here throws what the person can put right. */
export interface Core {
  readonly listCatalogue: () => Catalogue;
  /** Speaks a language from now on; its texts as JSON, where it has any. */
  readonly speak: (language: Language) => string | undefined;
  /** Takes the lettering font, which lies in the page. */
  readonly takeFonts: (regular: Uint8Array, bold: Uint8Array) => void;
  /** Takes the printers of this device, which the page keeps. */
  readonly knowPrinters: (known: Profiles) => void;
  readonly draw: (asked: Asked) => Outcome<DrawingView>;
  readonly drawSights: (asked: Asked) => Outcome<readonly SightsView[]>;
  readonly layPages: (asked: Asked) => Outcome<BookView>;
  /** What a request makes in space; undefined where it makes no body. */
  readonly putTogether: (asked: Asked) => Outcome<JointView | undefined>;
  readonly drawSign: (asked: Asked) => Outcome<Picture>;
  /** A request as a file of one of the catalogue's formats. */
  readonly write: (asked: Asked, format: string) => Promise<Outcome<FileView>>;
  readonly writeCalibrationSheet: (printer: string, paper: string) => Promise<Outcome<FileView>>;
  readonly takeReadings: (readings: Readings) => Outcome<Profile>;
  readonly openFile: (name: string, bytes: Uint8Array) => Promise<Outcome<Opened>>;
  readonly writeJobFile: (pieces: readonly Asked[], book: string) => Promise<Outcome<FileView>>;
  /** One PDF of many pieces; `onPiece` hears how many are drawn. */
  readonly writeBook: (
    pieces: readonly Asked[],
    book: string,
    onPiece: (done: number) => void,
  ) => Promise<Outcome<FileView>>;
}

export const core: Core = {
  listCatalogue,
  speak: (language) => {
    speak(language);
    return listTexts(language);
  },
  takeFonts,
  knowPrinters: (known) => {
    profiles = known;
  },
  draw: (asked) => attempt(() => viewDrawing(read(asked))),
  drawSights: (asked) => attempt(() => viewSights(read(asked))),
  layPages: (asked) => attempt(() => viewBook(read(asked))),
  putTogether: (asked) => attempt(() => viewJoint(read(asked))),
  drawSign: (asked) => attempt(() => drawSign(read(asked))),
  write: (asked, format) => attemptLater(async () => (await files()).writeRequest(read(asked), format)),
  writeCalibrationSheet: (printer, paper) =>
    attemptLater(async () => (await files()).writeCalibrationSheet(printer, paper)),
  takeReadings: (readings) => attempt(() => takeReadings(readings)),
  openFile: (name, bytes) => attemptLater(async () => (await jobs()).openFile(name, bytes, findIn(profiles))),
  writeJobFile: (pieces, book) => attemptLater(async () => (await jobs()).writeJobFile(pieces, book)),
  writeBook: (pieces, book, onPiece) =>
    attemptLater(async () => (await jobs()).writeBookFile(pieces.map(read), book, onPiece)),
};
