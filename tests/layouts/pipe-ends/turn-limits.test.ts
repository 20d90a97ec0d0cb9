import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeSheets, readRequest, UserError } from '../../../src/index.ts';
import { strayStrokes } from '../../support/strokes.ts';

const DEGREE = Math.PI / 180;

const refuse = (texts: Record<string, string>): UserError => {
  try {
    makeSheets(readRequest('turn', { pipe: 'NPS 6 sch 40', pieces: '4', radius: '9in', ...texts }));
  } catch (error) {
    if (error instanceof UserError) return error;
    throw error;
  }
  throw new Error('it was drawn');
};

describe('a turn that cannot be made', () => {
  it.each([
    [{ pieces: '1' }, 'request', /"1" is out of range/, /2 to 20/],
    [{ pieces: '21' }, 'request', /"21" is out of range/, /2 to 20/],
    [{ cuts: '10,20' }, 'request', /2 cuts are given for 4 pieces/, /give 3/],
    [{ cuts: '10,20,20' }, 'request', /the cuts turn 100° in all, not 90°/, /add up to 45°/],
    [{ tangent: '1in,2in,3in' }, 'request', /3 values/, /for both, or two/],
    [{ radius: '3in' }, 'joint', /throat of gore 1 is -/, /more than 3\.39″/],
    [{ radius: '60mm', angle: '40', units: 'mm' }, 'joint', /bend radius of 60 mm on /, /longer tangent/],
    [{ pieces: '2', angle: '170' }, 'joint', /cuts of 85°/, /at least 3 pieces/],
    [{ angle: '0' }, 'request', /out of range/, /more than 0°/],
  ] as const)('%o', (texts, failure, message, hint) => {
    const error = refuse(texts);
    expect(error.failure).toBe(failure);
    expect(error.message).toMatch(message);
    expect(error.issues[0]?.hint).toMatch(hint);
  });

  it('takes the radius its own refusal names', () => {
    const hint = refuse({ radius: '3in' }).issues[0]?.hint ?? '';
    const least = /more than ([\d.]+)″/.exec(hint)?.[1];
    const sheets = makeSheets(
      readRequest('turn', { pipe: 'NPS 6 sch 40', pieces: '4', radius: `${Number(least) + 0.002}in` }),
    );
    expect(sheets).toHaveLength(4);
  });
});

describe('any turn', () => {
  it('is refused with a limit or has the right lengths and finite lines', () => {
    fc.assert(
      fc.property(
        fc.record({
          od: fc.integer({ min: 200, max: 9000 }).map((n) => n / 10),
          radius: fc.integer({ min: 100, max: 20_000 }).map((n) => n / 10),
          angle: fc.integer({ min: 1, max: 360 }),
          pieces: fc.integer({ min: 2, max: 20 }),
          tangent: fc.integer({ min: 0, max: 300 }),
          seam: fc.integer({ min: -360, max: 360 }),
          contact: fc.constantFrom('od', 'wall', 'id'),
          madeFrom: fc.constantFrom('pipe', 'plate'),
        }),
        ({ od, radius, angle, pieces, tangent, seam: seamAt, contact, madeFrom }) => {
          const cut = (angle * DEGREE) / (2 * (pieces - 1));
          const throat = (radius - od / 2) * Math.tan(cut);
          const least = pieces === 2 ? throat + tangent : Math.min(throat + tangent, 2 * throat);
          const draw = () =>
            makeSheets(
              readRequest('turn', {
                pipe: `OD ${od}mm wall ${od / 20}mm`,
                radius: `${radius}mm`,
                angle: String(angle),
                pieces: String(pieces),
                tangent: `${tangent}mm`,
                seam: String(seamAt),
                contact,
                'made-from': madeFrom,
                nest: madeFrom === 'pipe' ? 'yes' : 'no',
                divisions: '12',
              }),
            );
          if (cut > 80 * DEGREE + 1e-9 || least <= 0.5) {
            expect(draw).toThrow(UserError);
            return;
          }
          const sheets = draw();
          expect(sheets).toHaveLength(pieces + (madeFrom === 'pipe' ? 1 : 0));
          for (const sheet of sheets) expect(strayStrokes(sheet)).toBe(0);
        },
      ),
      { numRuns: 20 },
    );
  }, 120_000);
});
