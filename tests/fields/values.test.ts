import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeSheets, readRequest, UserError, type Inputs } from '../../src/index.ts';

const refusal = (inputs: Inputs) => {
  try {
    readRequest('miter', inputs);
  } catch (error) {
    if (error instanceof UserError) return error.issues.map(({ path, code }) => `${path} ${code}`);
    throw error;
  }
  throw new Error('it was understood');
};

describe('inputs as values', () => {
  it('read as their texts do', () => {
    const asValues = readRequest('miter', {
      stock: { od: 168.3, wall: 7.11 },
      cut: Math.PI / 8,
      gap: 3,
      divisions: 16,
      paper: 'a4',
    });
    const asTexts = readRequest('miter', {
      stock: 'OD 168.3mm wall 7.11mm',
      cut: '22.5',
      gap: '3mm',
      divisions: '16',
      paper: 'a4',
    });
    const cuts = [asValues, asTexts].map((request) =>
      makeSheets(request)[0]?.marks.filter(({ role }) => role === 'cut'),
    );
    expect(cuts[0]).toEqual(cuts[1]);
  });

  it('a list of lengths or angles reads as its text does', () => {
    const [asValues, asTexts] = [
      { legs: [300, 412.5, 300], turns: [Math.PI / 2, Math.PI / 4] },
      { legs: '300mm,412.5mm,300mm', turns: '90,45' },
    ].map((given) => {
      const { legs, turns } = readRequest('fold', { stock: 'tube 50x50x3mm', ...given }).values;
      return { legs, turns };
    });
    expect(asValues).toEqual(asTexts);
  });

  it.each([null, undefined, 5, 'miter', []])('%o in place of inputs is refused', (inputs) => {
    expect(refusal(inputs as unknown as Inputs)).toEqual(['inputs wrong-type']);
  });

  it.each([
    { od: 168.3, wal: 7.11 },
    { od: 168.3, wall: 7.11, girth: 530 },
    { od: NaN, wall: 7 },
  ])('stock %o is refused', (stock) => {
    expect(refusal({ stock: stock as unknown as { od: number; wall: number }, cut: 0.3 })).toEqual([
      'stock wrong-type',
    ]);
  });

  it('keep every double', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-3, max: 1.5, noNaN: true }),
        fc.double({ min: 1e-3, max: 40, noNaN: true }),
        (cut, gap) => {
          const { values } = readRequest('miter', { stock: { od: 100, wall: 5 }, cut, gap });
          expect(values).toMatchObject({ cut, gap });
        },
      ),
    );
  });

  it.each([
    [{ stock: 168.3, cut: 0.3 }, ['stock wrong-type']],
    [{ stock: 'NPS 6 sch 40', cut: NaN }, ['cut wrong-type']],
    [{ stock: 'NPS 6 sch 40', cut: true }, ['cut wrong-type']],
    [{ stock: { od: 168.3 } as never, cut: 0.3 }, ['stock wrong-type']],
    [{ pipe: null as never, cut: 0.3 }, ['pipe wrong-type']],
  ])('of a wrong type are refused: %j', (inputs, issues) => {
    expect(refusal(inputs)).toEqual(issues);
  });
});
