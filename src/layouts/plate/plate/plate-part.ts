import type { Fact } from '../../../drawing/model.ts';
import { circleContour, type Contour } from '../../../geometry/contour.ts';
import type { Hole } from '../../../geometry/hole-pattern.ts';
import { requestError } from '../../../issue.ts';
import type { PlateAsked, PlateShape } from './plate-fields.ts';
import { say } from '../../../words/say.ts';

/** Flat parts of plate: what is asked, and what it comes to. Lengths in mm, angles in radians. */

/** The outline of a part and what is said of it. */
export interface PlateBody {
  readonly heading: string;
  /** Counter-clockwise; its center at the origin, a gusset's corner. */
  readonly contour: Contour;
  /** Size over all, as dimensioned: across and up. */
  readonly width: number;
  readonly height: number;
  readonly round: boolean;
  /** Where positions of holes are measured from. */
  readonly datum: { readonly x: number; readonly y: number; readonly words: string };
  /** Where a pipe or tube stands on it, and in words what. */
  readonly footprint?: { readonly contour: Contour; readonly words: string };
  readonly subject: readonly string[];
  readonly facts: readonly Fact[];
  readonly steps: readonly string[];
}

/** A part with its holes. */
export interface PlatePart extends PlateBody {
  readonly bore?: number;
  readonly holes: readonly Hole[];
  /** Diameter of the bolt circle, where the holes stand on one. */
  readonly circle?: number;
  /** Distances between the corner holes of a grid with several rows and columns. */
  readonly gridDiagonal?: number;
}

const AT_ORIGIN = { x: 0, y: 0 };

/** The bore as an outline. */
export const boreContour = (bore: number): Contour => circleContour(AT_ORIGIN, bore);

/** An input a shape cannot do without. */
export const need = <T>(value: T | undefined, name: string, why: string, example: string): T => {
  if (value !== undefined) return value;
  throw requestError(name, 'missing', say`${name} is not given`, say`${why}, for example ${example}`);
};

/** Inputs that only some shapes have, by the name a person writes. */
const owners: readonly (readonly [string, readonly PlateShape[], (asked: PlateAsked) => boolean])[] = [
  ['width', ['rectangle', 'base', 'gusset'], ({ width }) => width !== undefined],
  ['height', ['rectangle', 'base', 'gusset'], ({ height }) => height !== undefined],
  ['diameter', ['disc', 'ring'], ({ diameter }) => diameter !== undefined],
  ['corner-radius', ['rectangle', 'base', 'cap'], ({ cornerRadius }) => cornerRadius !== undefined],
  ['snip', ['rectangle', 'base', 'cap', 'gusset'], ({ snip }) => snip !== undefined],
  ['nose', ['gusset'], ({ nose }) => nose > 0],
  ['angle', ['gusset'], ({ angle }) => Math.abs(angle - Math.PI / 2) > 1e-12],
  ['cope', ['gusset'], ({ cope }) => cope !== undefined],
  ['cope-at', ['gusset'], ({ copeAt }) => copeAt !== undefined],
  ['pipe', ['rectangle', 'base', 'cap'], ({ pipe }) => pipe !== undefined],
  ['tube', ['rectangle', 'base', 'cap'], ({ tube }) => tube !== undefined],
  ['fit', ['cap'], ({ fit }) => fit !== 'flush'],
];

/** Throws where an input is given that the shape has no use for: it would be left out unseen. */
export const checkOwners = (asked: PlateAsked): void => {
  const stray = owners.find(([, shapes, isGiven]) => !shapes.includes(asked.shape) && isGiven(asked));
  if (!stray) return;
  const [name, shapes] = stray;
  throw requestError(
    name,
    'not-for-this-shape',
    say`shape ${asked.shape} has no ${name}`,
    say`${name} is for shape ${shapes.join(', ')}`,
  );
};
