import type { Issue } from '../issue.ts';

/** Where something stands in a file; lines and columns count from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** `pump-house.yaml:12:5`, which editors and terminals open with a click. */
export const tellPlace = ({ file, line, column }: Place): string => `${file}:${line}:${column}`;

/** The same fault with its place in the file before it. `mark` names the piece. */
export const placeIssue = (issue: Issue, place: Place, mark?: string): Issue => {
  const { path, message } = issue;
  const named = path === '' || message.startsWith(`${path} `) ? message : `${path}: ${message}`;
  const piece = mark === undefined ? '' : `${mark}: `;
  return { ...issue, path: tellPlace(place), message: `${tellPlace(place)}: ${piece}${named}` };
};

/** A fault at a place, in its own words. */
export const makeIssue = (place: Place, code: string, message: string, hint: string): Issue =>
  placeIssue({ code, path: '', message, hint }, place);
