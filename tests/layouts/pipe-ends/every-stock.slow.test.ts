import { describe, expect, it } from 'vitest';
import { proveFile } from '../../../src/proof/prove.ts';
import { printAndRead } from '../../support/print.ts';
import { seeded } from '../../support/random-poses.ts';

/**
 * Every kind of stock against every kind of body, by every contact, turned anyhow about its axis: the file's own bytes rolled
 * around the recorded outline, by signed distances that share no geometry with the layouts.
 */
const stocks = [
  'DN 50 sch 40',
  'tube 60x40x4mm',
  'EN 10210 60x40x4',
  'angle 50x40x5mm root 6mm',
  'UPN 80',
  'C 3x4.1',
  'IPE 80',
  'flat 60x8mm',
  'oval 60x40mm wall 4mm',
  'ellipse 60x40mm wall 4mm',
  'half-round 60mm wall 4mm',
] as const;
const bodies = [
  'pipe DN 250 sch 40 angle 65',
  'tube 250x200x8mm turned 15deg angle 75',
  'beam HE 260 B angle 70',
  'plate angle 55',
  'cone OD 400mm to 300mm over 500mm at 250mm angle 80',
  'sphere OD 600mm',
] as const;

describe('every stock on every body', () => {
  const random = seeded(211);
  const turns = stocks.map(() => bodies.map(() => Math.round(3600 * random()) / 10));
  it.each(stocks.flatMap((stock, i) => bodies.map((body, j) => [stock, body, turns[i]![j]!] as const)))(
    '%s on %s, turned %d',
    async (stock, on, turn) => {
      const branch = stock.startsWith('DN') ? stock : `${stock} turned ${turn}deg`;
      for (const contact of ['wall', 'od', 'id'] as const) {
        const { bytes } = await printAndRead('branch', { branch, on, contact, paper: '1500x1200mm' });
        const { findings } = proveFile(bytes);
        expect(findings.some(({ check }) => check.includes('against what it meets'))).toBe(true);
        expect(findings.filter(({ ok }) => !ok)).toEqual([]);
      }
    },
  );

  it.each(stocks)('%s on a pipe and a plate at once', async (branch) => {
    for (const contact of ['wall', 'od', 'id'] as const) {
      const { bytes } = await printAndRead('branch', {
        branch,
        on: 'pipe DN 250 sch 40 + plate angle 60 ahead -120mm',
        contact,
        paper: '1500x1200mm',
      });
      expect(proveFile(bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
    }
  });

  it.each(stocks)('%s against a plane that leans both ways', async (stock) => {
    for (const contact of ['wall', 'od', 'id'] as const) {
      const { bytes } = await printAndRead('miter', {
        stock,
        cut: '35',
        lean: '-25',
        contact,
        paper: '1500x1200mm',
      });
      expect(proveFile(bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
    }
  });
});
