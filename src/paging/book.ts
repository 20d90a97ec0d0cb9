import type { SheetFit } from '../drawing/fit-up.ts';
import type { Box, Mark } from '../drawing/model.ts';
import type { PrintedFigures } from '../drawing/printed.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { PagingOptions } from './options.ts';

/** A part of a page that shows a sheet, or a share of one, at full size. */
export interface View {
  /** The sheet's name, and the share's: `band`, `1.2`. */
  readonly sheet: string;
  readonly name: string;
  /** Where the sheet's origin lies in page mm (it may lie off the paper): the PDF viewport's /O. */
  readonly origin: Vec2;
  /** The ground it takes, page mm; all of the sheet's lines there lie in it. */
  readonly viewport: Box;
}

/** One piece of paper, ready to be written. Marks are in mm from the paper's lower left corner. */
export interface Page {
  readonly width: number;
  readonly height: number;
  /** Unique in the book, e.g. `branch end 2.2`; the PDF's page label. */
  readonly label: string;
  readonly marks: readonly Mark[];
  /** What it shows of sheets, side by side: one part of one sheet, or several where they go on one page. */
  readonly views: readonly View[];
  /** What the page is stretched by for its printer, already in all that is above; left out where it is not. */
  readonly stretch?: Vec2;
  /** What the page was laid for, so that a finished file can be held against it. */
  readonly asked?: Asked;
}

/** Edges kept clear, mm, and the printer that a page comes out true on. */
export interface Asked {
  readonly margin: { readonly sides: number; readonly ends: number };
  readonly printer?: {
    readonly name: string;
    readonly across: number;
    readonly along: number;
    /** Width of the roll, mm, where the paper is one. */
    readonly roll?: number;
  };
}

/** What was asked for, in the form that travels with each page. */
export const tellAsked = ({ margin, printer, paper }: Omit<PagingOptions, 'identity'>): Asked => ({
  margin,
  ...(printer && {
    printer: {
      name: printer.name,
      across: printer.across,
      along: printer.along,
      ...(paper.kind === 'roll' && { roll: paper.width }),
    },
  }),
});

/** A finished print: pages in order, and which sheet each belongs to. */
export interface Book {
  readonly title: string;
  readonly author: string;
  readonly subject: string;
  /** Sheets in order, with the 1-based numbers of their pages. */
  readonly sheets: readonly {
    readonly name: string;
    readonly heading: string;
    readonly pages: readonly number[];
    /** What the sheet's cut lines must touch. */
    readonly fit?: SheetFit;
    /** What it prints that its drawing shows. */
    readonly figures?: PrintedFigures;
  }[];
  readonly pages: readonly Page[];
  /** What goes into `soapstone.json`: everything needed to make the print again. */
  readonly spec: unknown;
}
