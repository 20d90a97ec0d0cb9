import { expect, it } from 'vitest';
import { stationNumber } from '../../src/stock/station.ts';

const DEGREE = Math.PI / 180;

// Stations run from 0° up to but not including 360°: once around is station 0 again.
it.each([
  [0, undefined, '0°'],
  [360, undefined, '0°'],
  [-22.5, undefined, '337.5°'],
  [359.99999, undefined, '0°'],
  [359.9999, undefined, '359.9999°'],
  [359.996, 2, '0°'],
  [359.99, 2, '359.99°'],
  [-0.001, 2, '0°'],
] as const)('%f° to %s places is station %s', (degrees, places, text) => {
  expect(stationNumber(degrees * DEGREE, places)).toBe(text);
});
