import { tableRows } from './clauses.ts';
import { hollowSections } from './hollow.ts';
import { rolledSections } from './rolled.ts';
import type { StockKind } from './stock.ts';
import { PIPE_B36_INCH } from './tables/pipe-b36-inch.ts';
import { PIPE_B36_MM } from './tables/pipe-b36-mm.ts';

/** A size of stock as the tables have it, and the walls it comes in; sections come in one, which their name says. */
export interface OfferedSize {
  /** The size, as a designation begins: `NPS 4`, `W 8x31`. */
  readonly size: string;
  /** What follows it, as `sch 40`; none where the size says all. */
  readonly walls: readonly string[];
}

/** The sizes of one table. */
export interface Offer {
  readonly kind: StockKind;
  /** What they are called by, as `NPS` or `W`. */
  readonly title: string;
  readonly sizes: readonly OfferedSize[];
}

/** Schedules in the table's order: `40` is `sch 40`, `XS` stands as it is. */
const wallsOf = (schedules: string): readonly string[] =>
  schedules.split(' ').map((entry) => {
    const [name = ''] = entry.split('=');
    return /^\d/.test(name) ? `sch ${name}` : name;
  });

/** Pipe of both standards by size; the standards share sizes and add schedules to them. */
const offerPipe = (title: 'NPS' | 'DN', table: string): Offer => {
  const sizes = new Map<string, readonly string[]>();
  for (const [, nps = '', dn = '', , schedules = ''] of tableRows(table)) {
    const size = `${title} ${title === 'NPS' ? nps : dn}`;
    sizes.set(size, [...new Set([...(sizes.get(size) ?? []), ...wallsOf(schedules)])]);
  }
  return { kind: 'pipe', title, sizes: [...sizes].map(([size, walls]) => ({ size, walls })) };
};

/** Sections by the name of their family, `W` or `EN 10219`. */
const offerSections = (
  sections: readonly { readonly designation: string; readonly kind: StockKind }[],
): readonly Offer[] => {
  const offers = new Map<string, { kind: StockKind; sizes: OfferedSize[] }>();
  for (const { designation, kind } of sections) {
    const title = designation.replace(/ [^ ]*$/, '');
    const offer = offers.get(title) ?? { kind, sizes: [] };
    offer.sizes.push({ size: designation, walls: [] });
    offers.set(title, offer);
  }
  return [...offers].map(([title, offer]) => ({ title, ...offer }));
};

/** Every size of stock of the tables, to be chosen from; whatever else is written out by hand. */
export const offerStock = (): readonly Offer[] => [
  offerPipe('NPS', PIPE_B36_INCH),
  offerPipe('DN', PIPE_B36_MM),
  ...offerSections(hollowSections().map(({ designation }) => ({ designation, kind: 'tube' }))),
  ...offerSections(rolledSections().map(({ designation, sizes }) => ({ designation, kind: sizes.kind }))),
];
