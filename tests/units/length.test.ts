import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDenominator, parseLength } from '../../src/units/length.ts';
import { refusalOf } from './refusal.ts';

/** Inches and millimetres: 1 in is 25.4 mm exactly (agreement of 1959; ISO 80000-3 uses it too, from memory). */
const inches = (value: number) => value * 25.4;

describe('lengths that are read', () => {
  it.each([
    ['6-5/8"', 168.275],
    ['6 5/8in', 168.275],
    ['6 5/8 in', 168.275],
    ['6 5/8 inches', 168.275],
    ['6.625"', 168.275],
    ['6 5/8″', 168.275],
    ['6⅝”', 168.275],
    ['6 - 5/8"', 168.275],
    ["6 5/8''", 168.275],
    ['5/8"', 15.875],
    ['.5in', 12.7],
    [`1'-3 1/2"`, 393.7],
    [`1' 3-1/2"`, 393.7],
    [`1'3"`, 381],
    ['1′-3½″', 393.7],
    ['1’ 3”', 381],
    [`10'-½"`, 3060.7],
    ['2ft', 609.6],
    ['2 FT 3 IN', 685.8],
    ['2 feet', 609.6],
    ["1.5'", 457.2],
    ['6½"', 165.1],
    ['168.3mm', 168.3],
    ['168.3 MM', 168.3],
    ['16.83cm', 168.3],
    ['1.2m', 1200],
    ['  12 mm ', 12],
    ['-5mm', -5],
    ['−5 mm', -5],
    ['+5mm', 5],
    [`-1'-6"`, -457.2],
    ['-½in', -12.7],
    ['0mm', 0],
    ['-0mm', 0],
    ['0', 0],
    ['1000000mm', 1_000_000],
    ['39370in', 999_998],
  ])('%s is %f mm', (text, mm) => {
    expect(parseLength(text)).toBe(mm);
  });

  it('a number without a unit is in the units that are set, and a unit overrules them', () => {
    expect(parseLength('6-5/8', { units: 'in' })).toBe(168.275);
    expect(parseLength('168.3', { units: 'mm' })).toBe(168.3);
    expect(parseLength('168.3mm', { units: 'in' })).toBe(168.3);
    expect(parseLength('2"', { units: 'mm' })).toBe(50.8);
  });

  it('every sixty-fourth up to 48 in, as feet and inches, as mixed fraction and as decimal, is the same double', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 48 * 64 - 1 }), (parts) => {
        const feet = Math.floor(parts / 768);
        const whole = Math.floor(parts / 64);
        const rest = parts % 64;
        const exact = (parts * 254) / 640;
        expect(parseLength(`${whole} ${rest}/64"`)).toBe(exact);
        expect(parseLength(`${whole}-${rest}/64 in`)).toBe(exact);
        expect(parseLength(`${parts}/64in`)).toBe(exact);
        expect(parseLength(`${parts / 64}"`)).toBe(exact);
        expect(parseLength(`${feet}'-${whole - 12 * feet} ${rest}/64"`)).toBe(exact);
      }),
    );
  });

  it('mm, cm and m agree to the last bit', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999_999 }), (microns) => {
        const [whole, rest] = [Math.floor(microns / 1000), String(microns % 1000).padStart(3, '0')];
        const mm = `${whole}.${rest}`;
        const shift = (places: number) => {
          const digits = (whole + rest).padStart(10, '0');
          return `${digits.slice(0, -3 - places)}.${digits.slice(-3 - places)}`;
        };
        expect(parseLength(`${mm}mm`)).toBe(Number(mm));
        expect(parseLength(`${shift(1)}cm`)).toBe(Number(mm));
        expect(parseLength(`${shift(3)}m`)).toBe(Number(mm));
      }),
    );
  });
});

describe('lengths that are refused', () => {
  it.each([
    ['168.3', 'bare-number', /168\.3 has no unit/, /write 168\.3mm or 168\.3in, or set --units/],
    ['-5/8', 'bare-number', /no unit/, /-5\/8mm or -5\/8in/],
    ['168,3mm', 'decimal-comma', /comma/, /write 168\.3mm$/],
    ['1,000mm', 'decimal-comma', /comma/, /1\.000mm or 1000mm/],
    ['--5mm', 'two-signs', /two signs/, /-5mm or 5mm/],
    ['+-5mm', 'two-signs', /two signs/, /-5mm/],
    [`1'-3 1/2`, 'missing-mark', /no inch mark/, /1'-3 1\/2"/],
    ['2ft 3', 'missing-mark', /no inch mark/, /2ft 3"/],
    ['5/0in', 'zero-denominator', /zero/, /5\/8/],
    ['6 1/0"', 'zero-denominator', /zero/, /5\/8/],
    ['6 9/8"', 'improper-fraction', /9\/8/, /below one/],
    [`1.5' 3"`, 'feet-not-whole', /foot/, /whole feet/],
    [`1'-14"`, 'inches-past-a-foot', /12 inches/, /below 12/],
    ['', 'empty', /no length/, /168\.3mm/],
    ['   ', 'empty', /no length/, /168\.3mm/],
    ['NaN', 'not-a-length', /NaN/, /168\.3mm/],
    ['Infinity', 'not-a-length', /Infinity/, /168\.3mm/],
    ['1e9', 'exponent', /power of ten/, /in full/],
    ['1e-3mm', 'exponent', /power of ten/, /in full/],
    ['1.5E3in', 'exponent', /power of ten/, /in full/],
    ['1000000.1mm', 'too-large', /1,000,000/, /39,370/],
    ['-1001m', 'too-large', /1,000,000/, /39,370/],
    ['6mmx', 'not-a-length', /6mmx/, /168\.3mm/],
    ['6"5/8', 'not-a-length', /6"5\/8/, /6 5\/8"/],
    ['6--5/8"', 'not-a-length', /6--5\/8"/, /6 5\/8"/],
    ['6."', 'not-a-length', /6\."/, /6 5\/8"/],
    ['0x10mm', 'not-a-length', /0x10mm/, /168\.3mm/],
    ['5 yards', 'not-a-length', /yards/, /168\.3mm/],
    ['mm', 'not-a-length', /mm/, /168\.3mm/],
    [`${'9'.repeat(200)}mm`, 'too-long', /too long/, /168\.3mm/],
  ])('%s: %s', (text, code, message, hint) => {
    const issue = refusalOf(() => parseLength(text, { path: 'gap' }));
    expect(issue.code).toBe(code);
    expect(issue.path).toBe('gap');
    expect(issue.message).toMatch(message);
    expect(issue.hint).toMatch(hint);
  });

  it('a message never carries line ends or control signs of the input', () => {
    expect(refusalOf(() => parseLength('5\n\u001b[31mmm')).message).not.toMatch(/\p{C}/u);
  });

  it('any text is either a finite length within the limit or one clear refusal', () => {
    const sign = fc.constantFrom(...`0123456789 /-+.,'"″′½°infmtcex`);
    const text = fc.oneof(fc.string(), fc.string({ unit: sign, maxLength: 12 }));
    fc.assert(
      fc.property(text, (typed) => {
        let mm: number | undefined;
        try {
          mm = parseLength(typed);
        } catch {
          refusalOf(() => parseLength(typed));
        }
        if (mm !== undefined) {
          expect(Math.abs(mm)).toBeLessThanOrEqual(1_000_000);
          expect(Object.is(mm, -0)).toBe(false);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('what a hint proposes is itself read', () => {
    const { hint } = refusalOf(() => parseLength('168.3'));
    const [, mm = '', inch = ''] = /write (\S+) or (\S+),/.exec(hint) ?? [];
    expect(parseLength(mm)).toBe(168.3);
    expect(parseLength(inch)).toBeCloseTo(inches(168.3), 9);
  });
});

describe('the finest fraction of an inch', () => {
  it.each([
    ['1/16', 16],
    ['1/32', 32],
    ['64', 64],
    ['1/2', 2],
  ])('%s', (text, denominator) => {
    expect(parseDenominator(text)).toBe(denominator);
  });

  it.each(['1/10', '0', '3/16', '', 'x', '1/256', '1/1'])('refuses %s', (text) => {
    expect(refusalOf(() => parseDenominator(text)).code).toBe('not-a-fraction');
  });
});
