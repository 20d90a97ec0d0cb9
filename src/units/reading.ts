import type { Units } from './length.ts';

/** What a field needs to know to read its text: the units of bare numbers, and the input's name for errors. */
export interface Reading {
  /** Units of a bare number, when the user set them; undefined makes a bare number an error. */
  readonly units: Units | undefined;
  /** The input's name, as errors give it. */
  readonly path: string;
}
