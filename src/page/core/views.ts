import type { Failure, Issue } from '../../issue.ts';
import type { FieldKind } from '../../fields/field.ts';
import type { View } from '../../paging/book.ts';
import type { Picture } from '../../render/picture.ts';
import type { Offer } from '../../stock/offers.ts';
import type { StockKind } from '../../stock/stock.ts';
import type { Spec, Texts } from '../../request.ts';

/** Plain data that goes between the page and its worker, which holds all the rest of the program. */

/** One input as a form asks for it. */
export interface InputView {
  /** As it is written on the command line and in job files. */
  readonly name: string;
  readonly kind: FieldKind;
  readonly help: string;
  readonly example: string;
  readonly default: string | undefined;
  readonly range: string | undefined;
  readonly choices: readonly string[] | undefined;
  readonly required: boolean;
  readonly many: boolean;
  readonly list: boolean;
  /** The kinds of stock it takes, to be chosen from the catalogue's tables; none where it takes no stock. */
  readonly stocks: readonly StockKind[];
  /** The input it is a short form of. */
  readonly shortFor: string | undefined;
}

export interface GroupView {
  readonly heading: string;
  readonly inputs: readonly InputView[];
}

export interface LayoutView {
  readonly id: string;
  readonly summary: string;
  readonly family: string;
  readonly words: readonly string[];
  readonly groups: readonly GroupView[];
  /** Requests that show what it does, the most usual first. */
  readonly examples: readonly Texts[];
  /** True where it makes a body that can be looked at in space. */
  readonly isBody: boolean;
}

export interface Catalogue {
  readonly version: string;
  readonly layouts: readonly LayoutView[];
  /** What templates are for, in the order they are shown in. */
  readonly families: readonly string[];
  readonly papers: readonly string[];
  /** Sizes of stock, by table. */
  readonly offers: readonly Offer[];
  /** Endings of the files it writes. */
  readonly formats: readonly string[];
}

/** What came of a request: the answer, or what the person can put right. */
export type Outcome<T> =
  | { readonly kind: 'done'; readonly value: T }
  | { readonly kind: 'refused'; readonly failure: Failure; readonly issues: readonly Issue[] };

export interface TableView {
  readonly title: string;
  readonly header: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** One sheet, drawn and in words. */
export interface SheetView {
  readonly name: string;
  readonly heading: string;
  readonly subject: readonly string[];
  readonly drawing: Picture;
  readonly steps: readonly string[];
  readonly facts: readonly (readonly [label: string, value: string])[];
  readonly tables: readonly TableView[];
  readonly cautions: readonly string[];
}

/** The small views of a sheet's joint. */
export interface SightsView {
  readonly sheet: string;
  readonly pictures: readonly { readonly title: string; readonly picture: Picture }[];
}

export interface DrawingView {
  readonly sheets: readonly SheetView[];
  readonly identity: string;
  /** Every text it was made from, defaults included. */
  readonly spec: Spec;
}

/** One piece of paper as it comes off the printer; lengths in mm. */
export interface PageView {
  readonly label: string;
  readonly width: number;
  readonly height: number;
  /** What it shows of sheets at full size; nothing on a page of words and tables alone. */
  readonly views: readonly View[];
  readonly picture: Picture;
}

export interface BookView {
  readonly title: string;
  /** Names of its sheets, and what stands over them. */
  readonly sheets: readonly { readonly name: string; readonly heading: string }[];
  readonly pages: readonly PageView[];
}

/** A finished file. */
export interface FileView {
  readonly name: string;
  readonly type: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** A request as the page keeps it. */
export interface Asked {
  readonly layout: string;
  readonly texts: Texts;
}

/** What a file that was opened held. */
export interface Opened {
  readonly pieces: readonly Asked[];
  /** The book's name, where it asks for one. */
  readonly book: string | undefined;
  /** What is wrong with it; pieces with faults are left out. */
  readonly issues: readonly Issue[];
}

/** One part of a joint in space, as triangles; mm. */
export interface BodyView {
  readonly id: string;
  readonly name: string;
  /** What the template makes, what it must fit, or what it will be joined to. */
  readonly role: 'work' | 'mate' | 'next';
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly indices: Uint32Array;
  /** Unit direction in which it is taken off the others. */
  readonly away: readonly [number, number, number];
}

/** A template lying on its part: the paper, and the lines printed on it. */
export interface WrapView {
  /** The part it is wrapped on. */
  readonly body: string;
  readonly name: string;
  /** Triangles of the paper, nine numbers each. */
  readonly paper: Float32Array;
  /** Line pieces by what they are, six numbers each. */
  readonly lines: readonly { readonly role: string; readonly points: Float32Array }[];
}

/** What a request makes, in space. */
export interface JointView {
  /** Directions that lie to the right and upward where it is first looked at. */
  readonly right: readonly [number, number, number];
  readonly up: readonly [number, number, number];
  readonly bodies: readonly BodyView[];
  readonly wraps: readonly WrapView[];
}
