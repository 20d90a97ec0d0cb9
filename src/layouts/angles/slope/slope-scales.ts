import type { Mark } from '../../../drawing/model.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { vec2 } from '../../../geometry/vector.ts';
import { arcScale, type ArcScale } from '../../../sheets/arc-scale.ts';
import { say } from '../../../words/say.ts';

/**
 * The scales a plumb line is read on. A slope of α swings the line by α about its pin; on the card that hangs pin up the mark
 * lies at −90° − α or −90° + α from +x, the line moving to the side that stands low.
 */
export interface SlopeScale {
  readonly name: string;
  /** Written after each number; a scale without one bears its name. */
  readonly sign: string;
  /** Slope angle of a reading. */
  readonly angleOf: (value: number) => number;
  /** Greatest reading, the same on both sides. */
  readonly most: number;
  readonly steps: ArcScale['steps'];
  readonly numberSteps: ArcScale['numberSteps'];
}

/** Degrees to 60, the others to 45°, from the string's end inward. */
export const slopeScales = (): readonly SlopeScale[] => [
  {
    name: say`degrees`,
    sign: '°',
    angleOf: (value) => value * DEGREE,
    most: 60,
    steps: [0.1, 0.5, 1, 2, 5],
    numberSteps: [1, 5, 10, 30],
  },
  {
    name: say`inches per foot`,
    sign: '',
    angleOf: (value) => Math.atan(value / 12),
    most: 12,
    steps: [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1],
    numberSteps: [1, 2, 4],
  },
  {
    name: say`mm per meter`,
    sign: '',
    angleOf: (value) => Math.atan(value / 1000),
    most: 1000,
    steps: [1, 2, 10, 20, 100],
    numberSteps: [50, 100, 200, 500],
  },
  {
    name: say`percent`,
    sign: '',
    angleOf: (value) => Math.atan(value / 100),
    most: 100,
    steps: [0.1, 0.2, 1, 2, 10],
    numberSteps: [5, 10, 20, 50],
  },
];

/** One scale about the pin at the origin, numbers rising to both sides. */
export const slopeScaleMarks = (scale: SlopeScale, radius: number): Mark[] =>
  arcScale({
    centre: vec2(0, 0),
    radius,
    side: -1,
    from: -scale.most,
    to: scale.most,
    angleOf: (value) => -Math.PI / 2 + Math.sign(value) * scale.angleOf(Math.abs(value)),
    steps: scale.steps,
    numberSteps: scale.numberSteps,
    write: (value) => `${Math.abs(Math.round(value))}${scale.sign}`,
    reading: (angle) => angle + Math.PI / 2,
    isMain: (value) => value === 0,
  });
