import type { FitLine, SheetFigures } from '../drawing/fit-up.ts';
import type { Fact, Mark, Picture, Sheet, Table } from '../drawing/model.ts';
import type { Contact } from '../geometry/reach.ts';
import type { Stock } from '../stock/stock.ts';
import type { Setting } from '../units/setting.ts';
import type { Making } from './band-paper.ts';
import {
  describePaper,
  describeSource,
  describeStock,
  girthFact,
  laySteps,
  questionStock,
  wrapSteps,
} from './band-words.ts';
import { describeContact } from './contact.ts';
import type { Band } from './cut-band.ts';
import { fitBand } from './fit-record.ts';

/** What is a wrapped sheet's own. */
export interface BandSheet {
  readonly name: string;
  readonly heading: string;
  readonly stock: Stock;
  readonly band: Pick<Band, 'paper' | 'marks' | 'bounds'>;
  readonly making: Making;
  /** For what it is, one fact a line, most needed first. */
  readonly about: readonly string[];
  /** More about it, after the stock. */
  readonly aboutMore?: readonly string[];
  /** Which line is drawn, and what else is to be said of the cut. */
  readonly contact?: Contact;
  readonly cut?: string;
  /** What the cut lines must touch. */
  readonly lines: readonly FitLine[];
  /** What else the sheet must show where. */
  readonly figures?: Partial<SheetFigures>;
  /** How it is wrapped, one sentence. */
  readonly wrap: string;
  /** What is marked along, where that is not one cut line. */
  readonly line?: string;
  /** What is done before it is laid on, and after it is marked. */
  readonly before?: readonly string[];
  readonly after: readonly string[];
  readonly facts: readonly Fact[];
  readonly tables: readonly Table[];
  readonly pictures: readonly Picture[];
  readonly cautions?: readonly string[];
  /** Marks besides the band's. */
  readonly marks?: readonly Mark[];
}

/** A sheet that wraps around stock, or lies flat on plate that is rolled: what all of them say, and what is this one's own. */
export const bandSheet = (own: BandSheet, setting: Setting): Sheet => {
  const { stock, band, making } = own;
  const cut = [own.contact && describeContact(own.contact), own.cut].filter((text) => text !== undefined);
  return {
    name: own.name,
    heading: own.heading,
    subject: [
      ...own.about,
      describeStock(stock, setting),
      ...(own.aboutMore ?? []),
      ...(cut.length > 0 ? [cut.join('; ')] : []),
      `${describeSource(stock)}. ${describePaper(setting, making)}`,
    ],
    marks: [...band.marks, ...(own.marks ?? [])],
    bounds: band.bounds,
    fit: {
      ...fitBand(stock, band.paper, setting, own.lines),
      ...(own.figures && { figures: { circles: [], points: [], ...own.figures } }),
    },
    steps: [
      ...wrapSteps(stock, setting, making),
      ...(own.before ?? []),
      ...laySteps(stock, setting, making, own.wrap, own.line),
      ...own.after,
    ],
    facts: [girthFact(stock, making), ...own.facts],
    tables: own.tables,
    pictures: own.pictures,
    questions: questionStock(stock),
    cautions: [...questionStock(stock), ...(own.cautions ?? [])],
  };
};
