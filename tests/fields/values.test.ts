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
