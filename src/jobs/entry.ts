import type { Issue } from '../issue.ts';
import type { Texts } from '../request.ts';
import type { Place } from './place.ts';

/** A piece as it stands in a file, before it is understood. */
export interface Entry {
  /** The layout's name, where the piece gives one. */
  readonly layout: string | undefined;
  readonly texts: Texts;
  /** Where the piece begins. */
  readonly place: Place;
  /** Where an input's value stands; the piece's own place where it has none. */
  readonly placeOf: (input: string) => Place;
}

/** What a file of pieces says. */
export interface Listing {
  /** Inputs that stand for every piece that does not give them itself. */
  readonly defaults: Entry | undefined;
  readonly entries: readonly Entry[];
  /** Formats to be written, where the file says. */
  readonly formats: readonly { readonly text: string; readonly place: Place }[];
  /** The name of one book of all pieces, where the file asks for one. */
  readonly book: { readonly text: string; readonly place: Place } | undefined;
  /** A file of more pieces beside this one. */
  readonly list: { readonly text: string; readonly place: Place } | undefined;
  readonly issues: readonly Issue[];
}

/** Limits that no job of a shop comes near; a file beyond them was not made in good faith, or by mistake. */
export const limits = {
  /** Bytes of one file. */
  bytes: 4_000_000,
  /** Pieces of one file. */
  pieces: 20_000,
  /** References (`*name`) in one file. */
  aliases: 1000,
  /** Values of one input. */
  values: 1000,
  /** Faults found in one file. */
  issues: 50,
} as const;
