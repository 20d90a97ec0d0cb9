import { describe, expect, it } from 'vitest';
import { offerStock } from '../../src/stock/offers.ts';
import { parseStock } from '../../src/stock/read-stock.ts';

describe('stock offered for a choice', () => {
  const offers = offerStock();

  it('has pipe in inches and metric, tube, angle, channel and beam', () => {
    expect(offers.map(({ title }) => title).slice(0, 2)).toEqual(['NPS', 'DN']);
    expect(new Set(offers.map(({ kind }) => kind))).toEqual(
      new Set(['pipe', 'tube', 'angle', 'channel', 'beam']),
    );
  });

  // ASME B36.10M table 1: NPS 2 is made from schedule 5 to XXS.
  it('gives NPS 2 its schedules', () => {
    const walls = offers[0]?.sizes.find(({ size }) => size === 'NPS 2')?.walls;
    expect(walls).toEqual(
      expect.arrayContaining(['sch 5', 'sch 10', 'STD', 'sch 40', 'XS', 'sch 80', 'sch 160', 'XXS']),
    );
  });

  // Every twelfth size of a table: reading all of them takes half a minute.
  it.each(offers.map((offer) => [offer.title, offer] as const))(
    '%s reads back as that kind of stock',
    (_, offer) => {
      const { kind, sizes } = offer;
      for (const { size, walls } of sizes.filter((_size, i) => i % 12 === 0))
        for (const wall of walls.length > 0 ? walls : [''])
          expect([size, wall, parseStock(`${size} ${wall}`.trim(), { path: 'stock' }).kind]).toEqual([
            size,
            wall,
            kind,
          ]);
    },
  );
});
