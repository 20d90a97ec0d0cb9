import { listAliases, listInputs, ownNames, spellInput } from '../fields/describe.ts';
import type { Layout } from '../fields/layout.ts';
import { requestError, UserError, type Issue } from '../issue.ts';
import { layouts } from '../layouts/registry.ts';
import { findNearMiss } from '../near-miss.ts';
import type { FindCalibration } from '../paging/printer.ts';
import { formats, isFormat, type Format } from '../render/formats.ts';
import { findLayout, readRequest, type Request, type Texts } from '../request.ts';
import { say } from '../words/say.ts';
import { limits, type Entry, type Listing } from './entry.ts';
import { nameFile } from './file-name.ts';
import { makeIssue, placeIssue, placePieceIssue, type Place } from './place.ts';

/** A piece that has been understood. */
export interface Piece {
  readonly request: Request;
  /** Its mark, where it has one. */
  readonly mark: string | undefined;
  readonly place: Place;
  /** Where an input's text stands, for faults found later. */
  readonly placeOf: (input: string) => Place;
}

/** What listings ask for. Pieces with faults are left out, and their faults are reported. */
export interface Understood {
  readonly pieces: readonly Piece[];
  /** Formats the listing asks for; none where it leaves them open. */
  readonly formats: readonly Format[];
  /** The book's file name, where it asks for one. */
  readonly book: string | undefined;
  readonly issues: readonly Issue[];
}

const collect = <T>(issues: Issue[], place: (issue: Issue) => Issue, read: () => T): T | undefined => {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    issues.push(...error.issues.map(place));
    return undefined;
  }
};

/** The other names of an input, and the short forms that stand for it. */
const otherNames = (layout: Layout, input: string): readonly string[] =>
  Object.entries(layout.fields).flatMap(([key, { aliases = [], shortFor }]) =>
    spellInput(key) === input ? aliases : shortFor?.input === input ? [spellInput(key)] : [],
  );

const markOf = ({ piece }: Texts): string | undefined => [piece ?? []].flat()[0]?.trim();

/** Understands one entry with the defaults that its layout has inputs for. */
const readPiece = (
  entry: Entry,
  defaults: Entry | undefined,
  findCalibration: FindCalibration,
  issues: Issue[],
): Piece | undefined => {
  const mark = markOf(entry.texts);
  const layoutName = entry.layout ?? defaults?.layout;
  const layout = layouts.find(({ id }) => id === layoutName);
  /** Where an input was given, and by which of its names. */
  const findGiven = (input: string): { readonly name: string; readonly place: Place } => {
    const names = [input, ...(layout === undefined ? [] : otherNames(layout, input))];
    for (const group of [entry, defaults]) {
      const name = names.find((one) => group !== undefined && Object.hasOwn(group.texts, one));
      if (name !== undefined && group !== undefined) return { name, place: group.placeOf(name) };
    }
    return { name: input, place: entry.placeOf(input) };
  };
  const placeOf = (input: string): Place => findGiven(input).place;
  return collect(
    issues,
    (issue) => {
      const { name, place } = findGiven(issue.path);
      return placePieceIssue({ ...issue, path: name }, place, { mark, place: entry.place });
    },
    () => {
      if (layoutName === undefined)
        throw requestError(
          '',
          'no-layout',
          say`no layout is named`,
          say`add layout, for example "layout: band", to the piece or to the defaults`,
        );
      const layout = findLayout(layoutName);
      const known = listInputs(layout);
      const shared = Object.entries(ownNames(layout, defaults?.texts ?? {}).texts).filter(([input]) =>
        known.has(input),
      );
      const texts = joinLists(layout, {
        ...Object.fromEntries(shared),
        ...ownNames(layout, entry.texts).texts,
      });
      const request = readRequest(layoutName, texts, layouts, findCalibration);
      return { request, mark: markOf(texts), place: entry.place, placeOf };
    },
  );
};

/** A list given for an input that takes its values in one text, as `rings: [50mm, 100mm]`. */
const joinLists = (layout: Layout, texts: Texts): Texts => {
  const known = listInputs(layout);
  return Object.fromEntries(
    Object.entries(texts).map(([name, text]) => [
      name,
      typeof text !== 'string' && known.get(name)?.list === true ? text.join(',') : text,
    ]),
  );
};

/** Defaults that no layout has, or that no piece of the file takes: a slip of the hand that would go unseen. */
const checkDefaults = (defaults: Entry, entries: readonly Entry[]): Issue[] => {
  const names = new Set(layouts.flatMap((layout) => [...listInputs(layout).keys(), ...listAliases(layout)]));
  const used = new Set(entries.map(({ layout }) => layout ?? defaults.layout));
  const taken = new Set(
    layouts
      .filter(({ id }) => used.has(id))
      .flatMap((layout) => [...listInputs(layout).keys(), ...listAliases(layout)]),
  );
  return Object.keys(defaults.texts).flatMap((name) => {
    if (taken.has(name)) return [];
    const near = findNearMiss(name, [...(names.has(name) ? taken : names)]);
    const message = names.has(name)
      ? say`no piece of this file takes "${name}"`
      : say`there is no option "${name}"`;
    const hint = near === undefined ? say`leave it out` : say`leave it out, or did you mean ${near}?`;
    return [makeIssue(defaults.placeOf(name), 'unknown-default', message, hint)];
  });
};

const readFormats = (asked: Listing['formats'], issues: Issue[]): readonly Format[] => {
  const found = asked.flatMap(({ text, place }) => {
    const name = text.trim().toLowerCase();
    if (isFormat(name)) return [name];
    issues.push(
      makeIssue(
        place,
        'unknown-format',
        say`there is no format "${text}"`,
        say`formats: ${formats.join(', ')}`,
      ),
    );
    return [];
  });
  return [...new Set(found)];
};

/** The book's own name, which must be the plain name of a PDF. Throws a `request` UserError. */
export const checkBookName = (name: string): string => {
  const stem = name.trim().replace(/\.pdf$/i, '');
  if (`${stem}.pdf` === name.trim() && nameFile(stem) === stem) return `${stem}.pdf`;
  const good = `${nameFile(stem.replace(/.*[\\/]/, '')) ?? 'laterals'}.pdf`;
  throw requestError(
    'book',
    'book-name',
    say`"${name}" is not a plain name for a PDF in the output folder`,
    say`write letters, digits, hyphens and .pdf, for example ${good}; -o names the folder`,
  );
};

/**
 * Understands a listing, and the list of more pieces that it names. Faults are collected with their places; `told` are
 * those found before. `findCalibration` knows the printers of this machine.
 */
export const understandListing = (
  file: string,
  listing: Listing,
  list: Listing | undefined,
  findCalibration: FindCalibration,
  told: readonly Issue[] = [],
): Understood => {
  const issues = [...listing.issues, ...told, ...(list?.issues ?? [])];
  const { defaults, book } = listing;
  const entries = [...listing.entries, ...(list?.entries ?? [])];
  if (defaults !== undefined) issues.push(...checkDefaults(defaults, entries));
  if (entries.length === 0 && issues.length === 0)
    issues.push(
      makeIssue(
        { file, line: 1, column: 1 },
        'no-pieces',
        say`there are no pieces`,
        say`list them under pieces`,
      ),
    );
  const pieces = entries.flatMap((entry) => readPiece(entry, defaults, findCalibration, issues) ?? []);
  const named =
    book === undefined
      ? undefined
      : collect(
          issues,
          (issue) => placeIssue(issue, book.place),
          () => checkBookName(book.text),
        );
  return {
    // Without its name, a book must not come out as a heap of single prints.
    pieces: book !== undefined && named === undefined ? [] : pieces,
    formats: readFormats(listing.formats, issues),
    book: named,
    issues: issues.length <= limits.issues ? issues : shortenIssues(file, issues),
  };
};

const shortenIssues = (file: string, issues: readonly Issue[]): readonly Issue[] => [
  ...issues.slice(0, limits.issues),
  makeIssue(
    { file, line: 1, column: 1 },
    'many-faults',
    say`and ${issues.length - limits.issues} more faults`,
    say`put the first ones right, then run it again`,
  ),
];
