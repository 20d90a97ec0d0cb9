import { describe, expect, it } from 'vitest';
import { makeResults, makeWrittenSheets, readRequest, UserError, type Texts } from '../../../src/index.ts';

describe('an elbow trimmed to an odd turn', () => {
  /** Arcs of a torus by its own radii: turn × (R ± r); take-off R tan(turn / 2). NPS 8 LR: R 12 in, outside 8.625 in (ASME B16.9, B36.10M). */
  it('heel, sides, throat and take-off of NPS 8 LR at 37°', () => {
    const turn = (37 * Math.PI) / 180;
    const found = makeResults(readRequest('elbow-trim', { elbow: 'NPS 8 LR', turn: '37' })) as Record<
      string,
      number
    >;
    expect(found['heel']! / 25.4).toBeCloseTo(turn * (12 + 4.3125), 9);
    expect(found['side']! / 25.4).toBeCloseTo(turn * 12, 9);
    expect(found['throat']! / 25.4).toBeCloseTo(turn * (12 - 4.3125), 9);
    expect(found['takeOff']! / 25.4).toBeCloseTo(12 * Math.tan(turn / 2), 9);
  });

  it('the sheet, with what is cut off', () => {
    const [sheet] = makeWrittenSheets(readRequest('elbow-trim', { elbow: 'DN 150 LR', turn: '30' }));
    expect(sheet!.name).toBe('elbow trim');
    const facts = new Map(sheet!.facts);
    expect(facts.get('The piece cut off turns')).toBe('60°');
    // 228.6 tan 30°.
    expect(facts.get('Its center to end')).toMatch(/^132\.0 mm/);
  });

  it.each<[Texts, string]>([
    [{ turn: '90' }, 'out-of-range'],
    [{ elbow: 'NPS 8' }, 'not-understood'],
    [{ pipe: 'NPS 6 sch 40' }, 'other-size'],
  ])('%j is refused', (texts, code) => {
    const caught = (() => {
      try {
        makeWrittenSheets(readRequest('elbow-trim', { elbow: 'NPS 8 LR', turn: '37', ...texts }));
      } catch (error) {
        return error as UserError;
      }
      return undefined;
    })();
    expect(caught?.issues[0]?.code).toBe(code);
  });
});
