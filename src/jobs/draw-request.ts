import type { Sheet } from '../drawing/model.ts';
import { identify } from '../identity.ts';
import { pageLimit } from '../paging/page-limit.ts';
import { makeBook, makeCutList, makeCutterSheets, makeScene, makeSheets } from '../print.ts';
import type { Made } from '../render/formats.ts';
import type { Request } from '../request.ts';

/** A piece that has been drawn and laid on pages. */
export interface Drawn extends Made {
  readonly identity: string;
}

/** Draws a request. Throws a UserError where it cannot be made, or has too many pages. */
export const drawRequest = (request: Request, isSure: boolean): Drawn => {
  const sheets = makeSheets(request);
  const book = makeBook(request, sheets, isSure ? Infinity : pageLimit);
  return {
    sheets,
    book,
    lengths: request.setting,
    cutterSheets: () => makeCutterSheets(request),
    cutList: makeCutList(request),
    scene: () => makeScene(request),
    identity: identify(request.understood, sheets),
  };
};

/** What looks wrong in what was asked, each once; the sheets print it too. */
export const questionsOf = (sheets: readonly Sheet[]): readonly string[] => [
  ...new Set(sheets.flatMap(({ questions = [] }) => questions)),
];
