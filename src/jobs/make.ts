import type { Sheet } from '../drawing/model.ts';
import { identify } from '../identity.ts';
import type { Issue } from '../issue.ts';
import { pageLimit } from '../paging/page-limit.ts';
import { makeBook, makeCutList, makeCutterSheets, makeScene, makeSheets } from '../print.ts';
import { writers, type Format, type Made } from '../render/formats.ts';
import type { Request } from '../request.ts';
import { digest } from './done-list.ts';
import { placePieceIssue } from './place.ts';
import type { Work } from './plan.ts';
import { programDigest } from './program.ts';

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

/** The issues of a piece at their places in its file. */
export const placeIssues = ({ piece, name }: Work, issues: readonly Issue[]): readonly Issue[] =>
  issues.map((issue) =>
    placePieceIssue(issue, piece.placeOf(issue.path), { mark: piece.mark ?? name, place: piece.place }),
  );

/** Digest of all that shapes one of a piece's files. */
export const digestRequest = ({ piece: { request } }: Work, format: Format | 'part'): string =>
  digest(JSON.stringify([programDigest(), format, request.spec]));

/** A piece's file as bytes. */
export const renderFile = (format: Format, drawn: Drawn): Promise<Uint8Array> => writers[format](drawn);
