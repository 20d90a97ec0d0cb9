import { describe, expect, it } from 'vitest';
import { tableRows } from '../../src/stock/clauses.ts';
import { parseFlangeEnd } from '../../src/stock/flange-length.ts';
import { parseRunPart } from '../../src/stock/run-part.ts';
import { FITTING_B16_9 } from '../../src/stock/tables/fitting-b16-9.ts';
import { FLANGE_B16_5_LENGTHS } from '../../src/stock/tables/flange-b16-5-lengths.ts';
import { TEE_CAP_B16_9 } from '../../src/stock/tables/tee-cap-b16-9.ts';
import { refusalOf } from '../units/refusal.ts';

const IN = 25.4;

describe('parts of a run', () => {
  /**
   * ASME B16.9 by the open tables of EdgarJRobles/quetzal (elbows, reducers); tees and caps from memory of the standard's
   * tables. ASME B16.5 lengths by gumyr/bd_warehouse.
   */
  it.each([
    ['elbow NPS 6 LR', 9 * IN, undefined],
    ['elbow DN 150 LR', 229, undefined],
    ['elbow NPS 6 LR 45', 3.75 * IN, undefined],
    ['elbow NPS 6 SR', 6 * IN, undefined],
    ['elbow NPS 4 LR turn 30deg', 6 * IN * Math.tan(Math.PI / 12), undefined],
    ['tee NPS 6', 5.625 * IN, 11.25 * IN],
    ['tee NPS 6 x 4', 5.625 * IN, 11.25 * IN],
    ['tee DN 100', 105, 210],
    ['cap NPS 6', 3.5 * IN, undefined],
    ['reducer NPS 6 x 4', 5.5 * IN, 5.5 * IN],
    ['flange NPS 6 class 150 weld-neck', 87, 87],
    ['flange DN 150 class 300 weld-neck', 97, 97],
    ['flange NPS 2 class 150 socket', 24 - 17, 7],
    ['flange NPS 6 class 150 slip-on back 8mm', 8, 8],
    ['flange NPS 8 class 600 weld-neck length 133mm', 133, 133],
    ['valve 267mm', 267, 267],
    ['coupling 48mm socket 13mm', 35, 22],
    ['tee 105mm', 105, 210],
    ['tee NPS 6 length 142mm', 142, 284],
    ['cap DN 150 length 3 1/2in', 3.5 * IN, undefined],
  ])('%s', (text, takeOff, through) => {
    const part = parseRunPart(text);
    expect(part.takeOff).toBeCloseTo(takeOff, 9);
    if (through === undefined) expect(part.through).toBeUndefined();
    else expect(part.through).toBeCloseTo(through, 9);
  });

  it('read back as the same part', () => {
    const sizes = tableRows(TEE_CAP_B16_9).flatMap(([nps, dn]) => [`NPS ${nps}`, `DN ${dn}`]);
    const texts = [
      ...sizes.flatMap((size) => [
        `tee ${size}`,
        `cap ${size}`,
        `elbow ${size} LR`,
        `elbow ${size} LR 45`,
        `elbow ${size} LR 12.5`,
      ]),
      ...tableRows(FLANGE_B16_5_LENGTHS).flatMap(([rating, nps]) =>
        ['weld-neck', 'slip-on', 'slip-on back 5mm', 'weld-neck length 100mm'].map(
          (kind) => `flange NPS ${nps} class ${rating} ${kind}`,
        ),
      ),
      'tee NPS 6 x 4 length 5 5/8in',
      'cap DN 100 length 62mm',
      'valve 10 1/2in flanged',
      'union 60mm socket 10mm',
    ];
    for (const text of texts) {
      const part = parseRunPart(text);
      expect(parseRunPart(part.designation)).toEqual(part);
    }
  });

  /** Metric figures round the inch ones to a millimeter, as the standard's own two tables do. */
  it('tees and caps agree in both systems', () => {
    expect(tableRows(TEE_CAP_B16_9).map(([nps]) => nps)).toEqual(
      tableRows(FITTING_B16_9).map(([nps]) => nps),
    );
    for (const [nps, dn] of tableRows(TEE_CAP_B16_9))
      for (const word of ['tee', 'cap'])
        expect(
          Math.abs(parseRunPart(`${word} NPS ${nps}`).takeOff - parseRunPart(`${word} DN ${dn}`).takeOff),
        ).toBeLessThan(0.53);
  });

  it.each([
    ['flange NPS 6 class 600 weld-neck', 'no-length', /length 133mm/],
    ['flange NPS 6 class 150', 'no-kind', /weld-neck/],
    ['flange NPS 6 class 150 slip-on length 9mm', 'not-understood', /back/],
    ['flange NPS 8 class 150 socket', 'no-length', /length/],
    ['elbow NPS 6 LR 120', 'turn-out-of-range', /90/],
    ['tee NPS 7', 'unknown-size', /NPS sizes are/],
    ['tee NPS 6 length 0mm', 'not-positive', /above zero/],
    ['sprocket', 'not-understood', /valve 267mm/],
    ['valve 0mm', 'not-positive', /above zero/],
    ['coupling 48mm socket 30mm', 'socket-too-deep', /depth/],
  ])('%s is refused', (text, code, hint) => {
    const issue = refusalOf(() => parseRunPart(text));
    expect(issue.code).toBe(code);
    expect(issue.hint).toMatch(hint);
  });

  it('a slip-on flange stands back 1/4 in where nothing is said', () =>
    expect(parseFlangeEnd('flange NPS 6 class 150 slip-on').takeOff).toBe(6.35));
});
