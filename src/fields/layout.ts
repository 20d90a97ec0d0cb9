import type { Sheet } from '../drawing/model.ts';
import type { Scene } from '../scene/scene.ts';
import type { Setting } from '../units/setting.ts';
import type { Fields, Values } from './field.ts';

/** What a template is for, in the order they are shown in. */
export const families = [
  'pipe ends',
  'heads and reducers',
  'flat patterns',
  'sections',
  'measured on the job',
  'centers',
  'holes and spacing',
  'angles and squares',
  'curves',
  'plate parts',
] as const;
export type Family = (typeof families)[number];

/** A kind of template: what it asks for, and how its sheets are drawn. */
export interface Layout<F extends Fields = Fields> {
  /** Command name, e.g. `branch`. */
  readonly id: string;
  /** One line of help, lower case. */
  readonly summary: string;
  /** What it is for, as people look for it. */
  readonly family: Family;
  /** What the trade calls it beside its name, lower case, so that a search and a near miss find it. */
  readonly words: readonly string[];
  readonly fields: F;
  /** Command lines without the leading `soapstone`, most usual first. */
  readonly examples: readonly string[];
  /** Names of its sheets where there are several, for help; `gore N` for any number of them. */
  readonly sheets?: readonly string[];
  /** Draws the sheets. Throws a `joint` UserError where the part cannot be made. */
  readonly draw: (values: Values<F>, setting: Setting) => readonly Sheet[];
  /**
   * What was found besides the sheets, as plain data for programs (mm and radians unless a name says otherwise): `--json`
   * carries it under these names.
   */
  readonly results?: (values: Values<F>, setting: Setting) => Readonly<Record<string, unknown>>;
  /**
   * The pieces it finds to be cut, one row each by input name, as a cut list that `job` reads. A `.csv` of such a layout is
   * this list instead of the sheets' tables.
   */
  readonly cutList?: (values: Values<F>, setting: Setting) => readonly Readonly<Record<string, string>>[];
  /** What is made, in space, where it is a body: pictures and meshes come from it; undefined where it is not told. Throws as `draw` does. */
  readonly scene?: (values: Values<F>, setting: Setting) => Scene | undefined;
}

/** Declares a layout so that its draw function sees the values its fields read to. */
export const defineLayout = <F extends Fields>(layout: Layout<F>): Layout => layout as unknown as Layout;
