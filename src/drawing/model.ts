import type { Vec2 } from '../geometry/vector.ts';
import type { Quantity } from '../units/quantity.ts';
import type { SheetFit } from './fit-up.ts';
import type { Measured } from './measured.ts';
import type { Role } from './role.ts';

/**
 * The neutral drawing: what is to be seen, in sheet millimetres, by role. It knows no paper and no file format.
 * Frame: x right, y up. Angles in radians, counter-clockwise.
 */

/** One stretch of a path, from where the last one ended: a straight line or a cubic Bézier. */
export type Segment =
  | { readonly kind: 'line'; readonly to: Vec2 }
  | { readonly kind: 'curve'; readonly c1: Vec2; readonly c2: Vec2; readonly to: Vec2 };

/** A connected line. A closed path's last segment ends on `start`. */
export interface Path {
  readonly start: Vec2;
  readonly segments: readonly Segment[];
  readonly closed: boolean;
}

/** ISO 128-2 line types. */
export type LineType = 'continuous' | 'dashed' | 'long-dash-dot' | 'long-dash-double-dot';

/** A drawn line. Width in mm, never under 0.18. */
export interface Stroke {
  readonly kind: 'stroke';
  readonly role: Role;
  readonly path: Path;
  readonly line: LineType;
  readonly width: number;
  /** True for an edge of the paper template itself, past the scrap: alone it makes no page. */
  readonly edgesPaper?: true;
}

/** A filled shape, black or white (white knocks out what lies under a number). */
export interface Fill {
  readonly kind: 'fill';
  readonly role: Role;
  readonly path: Path;
  readonly ink: 'black' | 'white';
}

/**
 * One line of lettering. `at` is the point named by `align` and `valign` (`middle` is half the capital height),
 * `height` the capital height in mm (ISO 3098: 2.5, 3.5, 5, 7), `angle` the reading direction.
 */
export interface Lettering {
  readonly kind: 'text';
  readonly role: Role;
  readonly at: Vec2;
  readonly text: string;
  readonly height: number;
  readonly align: 'left' | 'centre' | 'right';
  readonly valign: 'baseline' | 'middle' | 'top';
  readonly angle: number;
  readonly bold: boolean;
}

export type Mark = Stroke | Fill | Lettering;

/** An upright rectangle. */
export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** A value, and where the drawing shows it, how it is measured there. */
export type Figure = Quantity & { readonly measured?: Measured };

/** Words with values in them, in the order they are read. */
export interface Words {
  readonly kind: 'words';
  readonly parts: readonly (string | Figure)[];
}

/** What is said of a thing: words, or a value that is written in the reader's units where it is printed. */
export type Said = string | Words | Figure;

/** A label and what is said under it. */
export type Fact<V extends Said = Said> = readonly [label: string, value: V];

/** A table; the first row of a `header` is drawn bold. Columns are as wide as they need. */
export interface Table<V extends Said = Said> {
  readonly title: string;
  /** A column of lengths is printed as two, one in each unit: its name stands without a unit here. */
  readonly header: readonly string[];
  readonly rows: readonly (readonly V[])[];
  /** True where each row is a station and they go once around: rows that mirror each other may be printed as one. */
  readonly goesAround?: true;
  /** General knowledge that goes on no page of its own: left out where it would take one. */
  readonly ifRoom?: true;
}

/** A small drawing, not to scale, that shows how the sheet is used. Its marks are in paper mm within `bounds`. */
export interface Picture {
  readonly title: string;
  readonly marks: readonly Mark[];
  readonly bounds: Box;
}

/** One full-size drawing and all that is said beside it. */
export interface Sheet<V extends Said = Said> {
  /** Fixed name, e.g. `header opening`: bookmarks, `soapstone.json` and page names use it. */
  readonly name: string;
  /** What it is, the largest words on the page, e.g. `Branch end`. */
  readonly heading: string;
  /** For what, in words: stock, angle, offset, gap, contact. One fact a line, most needed first. */
  readonly subject: readonly string[];
  /** Everything that must print full size, in sheet mm. */
  readonly marks: readonly Mark[];
  /** The area the marks take, lettering included. */
  readonly bounds: Box;
  /** What to do, in the order of work. Numbers are added when they are set. */
  readonly steps: readonly string[];
  /** Figures to check by tape, as label and value. */
  readonly facts: readonly Fact<V>[];
  readonly tables: readonly Table<V>[];
  readonly pictures: readonly Picture[];
  /** What looks wrong in what was asked, such as a girth far off its size: reported when it is printed, and first among the cautions. */
  readonly questions?: readonly string[];
  /** The usual cautions of this kind of work; the general ones are added by paging. */
  readonly cautions: readonly string[];
  /** What the cut lines must touch, for those who prove the finished file. */
  readonly fit?: SheetFit;
  /**
   * Grounds of the small drawings it is made of, where there are several that need not stay as they lie: none is parted by a
   * page joint if it goes on a page.
   */
  readonly cards?: readonly Box[];
  /** How many equal ones are made from this one sheet; one where it is left out. */
  readonly make?: number;
  /** The same words in another language, for a sheet that is printed in two. */
  readonly also?: SecondWords;
  /** The sheet whose piece is the same, only turned in the finished work: its name, and how this one is turned. */
  readonly sameAs?: { readonly sheet: string; readonly how: string };
}

/** What is said on a sheet, in its other language. */
export type SecondWords = Pick<Sheet, 'heading' | 'subject' | 'steps' | 'cautions' | 'questions'> & {
  /** Labels of the facts, and titles of tables and pictures, in the sheet's order. */
  readonly labels: readonly string[];
  readonly tables: readonly string[];
  readonly pictures: readonly string[];
};

/** A sheet whose values are written out, as it is printed. */
export type WrittenSheet = Sheet<string>;
