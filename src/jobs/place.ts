import type { Issue } from '../issue.ts';

/** Where something stands in a file; lines and columns count from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** `pump-house.yaml:12:5`, which editors and terminals open with a click. */
export const tellPlace = ({ file, line, column }: Place): string => `${file}:${line}:${column}`;

/** The same fault with its place in the file before it. */
export const placeIssue = (issue: Issue, place: Place): Issue => {
  const { path, message } = issue;
  const named = path === '' || message.startsWith(`${path} `) ? message : `${path}: ${message}`;
  return { ...issue, path: tellPlace(place), message: `${tellPlace(place)}: ${named}` };
};

/** A piece of a job, as far as it is named to people. */
interface Named {
  readonly mark: string | undefined;
  readonly place: Place;
}

/** The same for a fault of a piece: `place` is where the fault stands, which may be among the defaults. */
export const placePieceIssue = (issue: Issue, place: Place, { mark, place: own }: Named): Issue => {
  const { path, message } = placeIssue(issue, place);
  const name = mark === '' ? undefined : mark;
  const named = name === undefined ? message : message.replace(`${path}: `, () => `${path}: ${name}: `);
  return { ...issue, path, message: named, piece: { name: name ?? tellPlace(own), place: tellPlace(own) } };
};

/** What is wrong with a piece, without its name and place. */
export const plainMessage = ({ path, message, piece }: Issue): string =>
  message.replace(`${path}: `, '').replace(`${piece?.name ?? ''}: `, '');

/** A fault at a place, in its own words. */
export const makeIssue = (place: Place, code: string, message: string, hint: string): Issue =>
  placeIssue({ code, path: '', message, hint }, place);
