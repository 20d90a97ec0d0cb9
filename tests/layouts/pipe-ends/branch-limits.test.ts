import { describe, expect, it } from 'vitest';
import { makeSheets, readRequest } from '../../../src/index.ts';
import { refused } from '../../support/refused.ts';

describe('a branch that a body cannot take', () => {
  const ask = (on: string, branch = 'OD 114.3mm wall 6mm', more: Record<string, string> = {}) =>
    refused('branch', { branch, on, ...more });

  it('says which dimension it is and its limit', () => {
    const wide = ask('elbow NPS 4 LR', 'NPS 6 sch 40');
    expect(wide.what).toBe('joint branch branch-too-large');
    expect(wide.message).toContain('6.625″ across');
    expect(wide.message).toContain('elbow');
    expect(wide.hint).toContain('4.5″');

    const missed = ask('sphere OD 600mm offset 400mm');
    expect(missed.what).toBe('joint on branch-misses');
    expect(missed.hint).toContain('300 mm');

    // The branch's edge may come to the shell's own outside: 500 less half of 114.3.
    const past = ask('head ellipsoidal OD 1000mm offset 470mm');
    expect(past.what).toBe('joint on branch-past-edge');
    expect(past.hint).toContain(`${500 - 57.15} mm`);

    const aside = ask('tube 100x100x6mm offset 30mm', 'OD 60.3mm wall 4mm');
    expect(aside.what).toBe('joint offset branch-overhangs');
    expect(aside.hint).toContain(`${(50 - 30.15).toFixed(2)} mm`);

    // Square on a right cone the branch reaches its own radius along it: at the ends that is the limit.
    const end = ask('cone OD 300mm to 200mm over 250mm at 20mm', 'OD 60.3mm wall 4mm');
    expect(end.what).toBe('joint on branch-past-end');
    expect(end.hint).toBe('give at from 30.15 mm to 219.85 mm');

    const narrow = ask('plate 300x100x10mm');
    expect(narrow.what).toBe('joint on branch-overhangs');
    expect(narrow.hint).toContain('114.3 mm wide');
  });

  it('gives limits that hold', () => {
    const at = (on: string) => () => makeSheets(readRequest('branch', { branch: 'OD 60.3mm wall 4mm', on }));
    expect(at('cone OD 300mm to 200mm over 250mm at 30.15mm')).not.toThrow();
    expect(at('cone OD 300mm to 200mm over 250mm at 219.85mm')).not.toThrow();
    expect(at('head ellipsoidal OD 1000mm offset 469.85mm')).not.toThrow();
    expect(at('tube 100x100x6mm offset 19.85mm')).not.toThrow();
  });

  it.each<[string, string]>([
    ['', 'request on no-value'],
    ['brick', 'request on unknown-body'],
    ['elbow NPS 8 LR +', 'request on unknown-body'],
    ['elbow NPS 8 LR extrados intrados', 'request on two-places'],
    ['elbow NPS 8 LR extrados at 120deg', 'request on out-of-range'],
    ['elbow NPS 8 LR angle 120deg', 'request on out-of-range'],
    ['elbow NPS 8', 'request on not-understood'],
    ['pipe NPS 8 sch 40 roll 30deg', 'request on moved-alone'],
    ['pipe NPS 8 sch 40 angle 190deg', 'request on out-of-range'],
    ['pipe NPS 8 sch 40 angle', 'request on no-value'],
    ['cone OD 200mm to 300mm over 250mm', 'request on not-a-cone'],
    ['cone OD 300mm to 200mm over 250mm at 300mm', 'request on out-of-range'],
    ['reducer NPS 8 x 6 flat 90deg', 'request on flat-alone'],
    ['reducer NPS 8 x 6 eccentric square', 'request on square-and-angle'],
    ['head OD 1000mm', 'request on not-understood'],
    ['head torispherical OD 1000mm crown 400mm knuckle 100mm', 'request on crown-too-small'],
    ['head torispherical OD 1000mm crown 1000mm knuckle 600mm', 'request on knuckle-too-large'],
    ['plate 300x200', 'request on not-understood'],
  ])('%s is %s', (on, what) => {
    expect(ask(on, 'OD 60.3mm wall 4mm').what).toBe(what);
  });

  it('asks for a header or a body, not both', () => {
    expect(refused('branch', { branch: 'NPS 2 sch 40' }).what).toBe('request on no-body');
    expect(ask('plate', 'NPS 2 sch 40', { header: 'NPS 4 sch 40' }).what).toBe('request header two-names');
  });

  it('sets in only where the inside is known', () => {
    expect(ask('sphere OD 600mm', 'OD 60.3mm wall 4mm', { set: 'in' }).what).toBe('request set no-inside');
    expect(ask('head ellipsoidal OD 600mm', 'OD 60.3mm wall 4mm', { set: 'in' }).what).toBe(
      'request set no-inside',
    );
  });
});
