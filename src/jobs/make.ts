import type { Issue } from '../issue.ts';
import { writers, type Format } from '../render/formats.ts';
import { digest } from './done-list.ts';
import type { Drawn } from './draw-request.ts';
import { placePieceIssue } from './place.ts';
import type { Work } from './plan.ts';
import { programDigest } from './program.ts';

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
