import { describe, expect, it } from 'vitest';
import { writeTable } from '../../src/drawing/written.ts';
import { renderCsv } from '../../src/render/csv.ts';
import {
  angleOf,
  areaOf,
  countOf,
  lengthOf,
  massOf,
  sizeOf,
  volumeOf,
  writeOnce,
  writeQuantity,
} from '../../src/units/quantity.ts';

const inches = { units: 'in', denominator: 16 } as const;
const metric = { units: 'mm', denominator: 16 } as const;

describe('values in words', () => {
  // One inch is 25.4 mm, one foot 304.8 mm, one pound 0.45359237 kg (international agreement of 1959, NIST SP 811, B.8).
  it.each([
    [lengthOf(168.275), '6 5/8″ (168.3 mm)', '168.3 mm (6 5/8″)'],
    // ASME B36.10M: NPS 6 is 6.625 in outside, schedule 40 is .280 in thick.
    [sizeOf(168.275), '6.625″ (168.28 mm)', '168.28 mm (6.625″)'],
    [sizeOf(7.112), '.280″ (7.11 mm)', '7.11 mm (.280″)'],
    [angleOf(Math.PI / 8), '22.5°', '22.5°'],
    [areaOf(304.8 ** 2), '1 ft² (929 cm²)', '929 cm² (1 ft²)'],
    [areaOf(2575), '3.99 in² (25.8 cm²)', '25.8 cm² (3.99 in²)'],
    [areaOf(2.5e6), '26.9 ft² (2.5 m²)', '2.5 m² (26.9 ft²)'],
    [volumeOf(304.8 ** 3), '1 ft³ (28.3 L)', '28.3 L (1 ft³)'],
    [massOf(4.5359237), '10 lb (4.54 kg)', '4.54 kg (10 lb)'],
    [countOf(12), '12', '12'],
  ])('%o', (quantity, us, si) => {
    expect(writeQuantity(quantity, inches)).toBe(us);
    expect(writeQuantity(quantity, metric)).toBe(si);
    expect(writeOnce(quantity, inches)).toBe(us.replace(/ \(.*/, ''));
  });

  it('twelve inches and more in feet, where that is asked for', () => {
    const feet = { ...inches, feet: true };
    expect(writeQuantity(lengthOf(15.5 * 25.4), feet)).toBe('1′-3 1/2″ (393.7 mm)');
    expect(writeQuantity(lengthOf(15.5 * 25.4), inches)).toBe('15 1/2″ (393.7 mm)');
    expect(writeQuantity(sizeOf(16 * 25.4), feet)).toBe('16″ (406.4 mm)');
  });

  it('lengths that differ only by the error of a search are written alike', () => {
    const tie = 12.35;
    expect(writeQuantity(lengthOf(tie - 5e-5), metric)).toBe(writeQuantity(lengthOf(tie + 5e-5), metric));
    expect(writeQuantity(lengthOf(5.55625 - 5e-5), inches)).toBe('1/4″ (5.6 mm)');
  });
});

describe('a table', () => {
  const table = {
    title: 'Ordinates',
    header: ['Station', 'Up', 'Angle'],
    rows: [
      ['0°', lengthOf(25.4), angleOf(0)],
      ['90°', 'none', angleOf(Math.PI / 2)],
    ],
  };

  it('has two columns for lengths, the reader’s unit first', () => {
    expect(writeTable(table, inches)).toEqual({
      title: 'Ordinates',
      header: ['Station', 'Up in', 'Up mm', 'Angle'],
      rows: [
        ['0°', '1″', '25.4', '0°'],
        ['90°', 'none', '', '90°'],
      ],
    });
    expect(writeTable(table, metric).header).toEqual(['Station', 'Up mm', 'Up in', 'Angle']);
  });

  it('stands so in a file of comma-separated values', () => {
    const sheet = {
      name: 'a',
      heading: 'A',
      subject: [],
      marks: [],
      bounds: { minX: 0, minY: 0, maxX: 0, maxY: 0 },
      steps: [],
      facts: [],
      tables: [table],
      pictures: [],
      cautions: [],
    };
    expect(renderCsv([sheet], metric)).toBe(
      'A: Ordinates\r\nStation,Up mm,Up in,Angle\r\n0°,25.4,1″,0°\r\n90°,none,,90°\r\n',
    );
  });
});
