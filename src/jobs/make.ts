import { UserError, type Failure, type Issue } from '../issue.ts';
import { identify } from '../identity.ts';
import { makeBook, makeCutList, makeCutterSheets, makeSheets } from '../print.ts';
import { writers, type Format, type Made } from '../render/formats.ts';
import { version } from '../version.ts';
import { digest } from './done-list.ts';
import { refuseLongBook } from './page-limit.ts';
import { placeIssue } from './place.ts';
import type { Work } from './plan.ts';

/** A piece that has been drawn and laid on pages. */
export interface Drawn extends Made {
  readonly identity: string;
}

/** Why a piece was not made: what the person can put right, or a fault of our own. */
export type Failed =
  | { readonly kind: 'issues'; readonly failure: Failure; readonly issues: readonly Issue[] }
  | { readonly kind: 'fault'; readonly error: unknown };

/** Draws a piece. Throws a UserError where it cannot be made, or has too many pages. */
export const drawWork = ({ piece: { request } }: Work, isSure: boolean): Drawn => {
  const sheets = makeSheets(request);
  const book = makeBook(request, sheets);
  refuseLongBook(book, isSure);
  return {
    sheets,
    book,
    lengths: request.setting,
    cutterSheets: () => makeCutterSheets(request),
    cutList: makeCutList(request),
    identity: identify(request.spec, sheets),
  };
};

/** Turns what was thrown while a piece was made to a failure told at its place. */
export const tellFailure = ({ piece, name }: Work, error: unknown): Failed => {
  if (!(error instanceof UserError)) return { kind: 'fault', error };
  const issues = error.issues.map((issue) =>
    placeIssue(issue, piece.placeOf(issue.path), piece.mark ?? name),
  );
  return { kind: 'issues', failure: error.failure, issues };
};

/** Digest of all that shapes one of a piece's files. */
export const digestRequest = ({ piece: { request } }: Work, format: Format | 'part'): string =>
  digest(JSON.stringify([version, format, request.spec]));

/** A piece's file as bytes. */
export const renderFile = (format: Format, drawn: Drawn): Promise<Uint8Array> => writers[format](drawn);
