import type { Fact } from '../drawing/model.ts';
import { needed, onlyOne } from '../fields/among.ts';
import type { Field } from '../fields/field.ts';
import { stockField } from '../fields/fields.ts';
import { sectionArea } from '../geometry/section.ts';
import { stockSpan, type Stock } from '../stock/stock.ts';
import { massOf } from '../units/quantity.ts';
import { say } from '../words/say.ts';
import { STEEL } from './plate-mass.ts';

/** Asks for the stock of a straight part that is mitered on its face, in place of its width. */
export const barStockField = (part: string): Field<Stock | undefined> =>
  stockField(
    `stock of ${part}, instead of its width: its position 0 looks to the inside of the corner, an angle’s heel to the outside`,
    { example: 'tube 60x40x3mm', optional: true },
  );

/**
 * The width of a part across the face that is mitered, mm: its stock's size along x, or as given. Throws where both are given,
 * or neither.
 */
export const barWidth = (
  stock: Stock | undefined,
  width: number | undefined,
  name: string,
  stockName = 'stock',
): number => {
  onlyOne({ [stockName]: stock, [name]: width }, say`give one: the stock has its own width`);
  if (!stock) return needed(name, width, say`give ${name} 50mm, or ${stockName} "tube 60x40x3mm"`);
  const [low, high] = stockSpan(stock, { x: 1, y: 0 });
  return high - low;
};

/** The mass of some length of stock, in steel. */
export const stockMass = (stock: Stock | undefined, length: number | undefined): readonly Fact[] =>
  stock && length !== undefined
    ? [[say`Mass, in steel`, massOf(sectionArea(stock.section) * length * STEEL)]]
    : [];
