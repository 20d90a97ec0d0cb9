import { textWidth } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { boxPath, letter, stroke } from '../drawing/paths.ts';
import type { Units } from '../units/length.ts';
import type { Language } from '../words/languages.ts';
import { stretchOf } from './calibration.ts';
import type { Paper } from './paper.ts';
import type { Printer } from './printer.ts';
import { say } from '../words/say.ts';

/** Texts of the title block (ISO 7200 data fields, and a shop's own); those left out are not drawn. */
export interface TitleFields {
  readonly title?: string | undefined;
  /** The piece's mark, as it is painted on the steel. */
  readonly piece?: string | undefined;
  readonly quantity?: string | undefined;
  readonly job?: string | undefined;
  readonly order?: string | undefined;
  readonly number?: string | undefined;
  readonly revision?: string | undefined;
  readonly date?: string | undefined;
  readonly supersedes?: string | undefined;
  /** What takes the place of this print; every page then says not to cut by it. */
  readonly supersededBy?: string | undefined;
  readonly documentType?: string | undefined;
  readonly owner?: string | undefined;
  readonly drawn?: string | undefined;
  readonly checked?: string | undefined;
  readonly approved?: string | undefined;
}

/** How sheets are laid on paper. Lengths in mm. */
export interface PagingOptions {
  readonly paper: Paper;
  /** `auto` takes the fewest pages. */
  readonly orientation: 'auto' | 'portrait' | 'landscape';
  /** Widths kept clear at the paper's edges: left and right, top and bottom. */
  readonly margin: { readonly sides: number; readonly ends: number };
  /** How far neighbouring pages share the drawing. */
  readonly overlap: number;
  /** The reader's units, in which the check length across the pages is a round number. */
  readonly units: Units;
  /** Finest part of an inch written. */
  readonly denominator: 16 | 32 | 64;
  /** Twelve inches and more as feet and inches. */
  readonly feet?: boolean;
  /**
   * Pages of notes, for what does not go beside the drawings: for every sheet, the same words only once, or none, so that
   * such words are left out. For every sheet where it is left out.
   */
  readonly notes?: 'all' | 'once' | 'none';
  /** Paper for pages of notes, where it is another than the drawings'. */
  readonly notesPaper?: Paper | undefined;
  readonly title: TitleFields;
  /** Short hash of all that shaped the sheets, as it is shown: `7F3K-29QD`. */
  readonly identity: string;
  /**
   * The printer the print is corrected for: everything is stretched about the paper's lower left corner, so that it
   * comes out true there. Left out, nothing is.
   */
  readonly printer?: Printer | undefined;
  /** The other language that sheets are written in too. */
  readonly second?: Language | undefined;
  /** A print of more pages is refused as soon as that is seen; left out, any number is made. */
  readonly mostPages?: number | undefined;
}

export const defaultMargin = { sides: 6.5, ends: 13 } as const;

/** A piece of paper held one way, mm. */
export interface PaperSize {
  readonly width: number;
  readonly height: number;
}

/** Height of the strip that a print out of use carries at the top of every page, mm. */
const stripHeight = 11;

/** Lines along the margin are stretched in place but not in width, mm: half a wide one by 2 % at most. */
const hair = 0.01;

const clearArea = (size: PaperSize, { margin, paper, printer }: PagingOptions): Box => {
  const { x, y } = stretchOf(paper, size, printer);
  const by = printer === undefined ? 0 : hair;
  const [sides, ends] = [margin.sides + by, margin.ends + by];
  return {
    minX: sides / x,
    minY: ends / y,
    maxX: (size.width - sides) / x,
    maxY: (size.height - ends) / y,
  };
};

/** The part of the paper inside its margins that a page may use, in mm as they are drawn (before they are stretched). */
export const usableArea = (size: PaperSize, options: PagingOptions): Box => {
  const area = clearArea(size, options);
  return options.title.supersededBy === undefined ? area : { ...area, maxY: area.maxY - stripHeight };
};

/** The strip at the top of a page of a print that is out of use; nothing on any other. */
export const supersededStrip = (size: PaperSize, options: PagingOptions): readonly Mark[] => {
  const { supersededBy } = options.title;
  if (supersededBy === undefined) return [];
  const { minX, maxX, maxY } = clearArea(size, options);
  const [inside, foot] = [maxX - minX - 8, maxY - stripHeight + 2];
  const words = say`SUPERSEDED BY ${supersededBy}. DO NOT CUT BY THIS PRINT.`;
  const height = [5, 3.5, 2.5].find((tall) => textWidth(words, tall, true) <= inside) ?? 2.5;
  const box: Box = { minX: minX + 0.5, maxX: maxX - 0.5, minY: foot, maxY: maxY - 0.5 };
  const middle = { x: (minX + maxX) / 2, y: (foot + maxY - 0.5) / 2 };
  return [
    stroke('page', boxPath(box), 1),
    letter('page', middle, words, height, { align: 'centre', valign: 'middle', bold: true }),
  ];
};
