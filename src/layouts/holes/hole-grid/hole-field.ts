import type { GridAsked } from './grid-fields.ts';
import { allOrNone, mustBeAtLeast, needed } from '../../../fields/among.ts';
import { edgeDistance, type Grid, gridPattern, type Hole } from '../../../geometry/hole-pattern.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { jointError, requestError } from '../../../issue.ts';
import { checkWebs } from '../../../sheets/holes.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

/** A field of holes, centred on the sheet's origin, and the plate round it. */
export interface HoleField {
  readonly grid: Grid;
  readonly hole: number;
  readonly slot?: { readonly length: number; readonly along: number };
  readonly plate?: { readonly width: number; readonly height: number; readonly centre: Vec2 };
}

/** The field asked for. Throws a request error where it is not wholly given. */
export const readField = (asked: GridAsked, setting: Setting): HoleField => {
  const { columns, rows, stagger, hole, slot, width, height } = asked;
  const pitchOf = (name: string, count: number, pitch: number | undefined): number =>
    count > 1 ? needed(name, pitch, say`give it from center to center, for example 75mm`) : (pitch ?? 0);
  const columnPitch = pitchOf('columnPitch', columns, asked.columnPitch);
  const rowPitch = pitchOf('rowPitch', rows, asked.rowPitch);
  allOrNone({ width, height }, say`a plate has a width and a height, for example 200mm`);
  mustBeAtLeast('slot', slot, hole, say`over its ends is less than it is wide`, setting);
  const spread = {
    x: (columns - 1) * columnPitch + (rows > 1 ? Math.abs(stagger) : 0),
    y: (rows - 1) * rowPitch,
  };
  const offset = (size: number, given: number | undefined, spans: number): number =>
    given === undefined ? 0 : size / 2 - given - spans / 2;
  return {
    grid: { columns, rows, columnPitch, rowPitch, stagger },
    hole,
    slot:
      slot === undefined ? undefined : { length: slot, along: asked.slotAlong === 'row' ? 0 : Math.PI / 2 },
    plate:
      width === undefined || height === undefined
        ? undefined
        : {
            width,
            height,
            centre: { x: offset(width, asked.left, spread.x), y: offset(height, asked.bottom, spread.y) },
          },
  };
};

/** The holes of a field, row by row from the lower left. */
export const fieldHoles = ({ grid, hole, slot }: HoleField): readonly Hole[] =>
  gridPattern(grid).map((at) => ({ at, diameter: hole, slot }));

/** Throws where holes overlap or leave the plate. */
export const checkField = (field: HoleField, setting: Setting): void => {
  const { grid, hole, plate, slot } = field;
  const both = (length: number): string => writeBoth(length, setting);
  const holes = fieldHoles(field);
  if (holes.length > 2000)
    throw requestError(
      'rows',
      'too-many',
      say`${holes.length} holes are asked for`,
      say`a sheet has at most 2000`,
    );
  const size = slot ? say`slots of ${both(hole)} by ${both(slot.length)}` : say`holes of ${both(hole)}`;
  checkWebs(
    holes,
    slot ? 'slot' : 'hole',
    say`${size} need more room than ${both(grid.columnPitch)} by ${both(grid.rowPitch)}: make them smaller or the pitch larger`,
    setting,
  );
  if (!plate) return;
  holes.forEach((one, i) => {
    const edge = edgeDistance(one, plate.width, plate.height, plate.centre);
    if (edge > 1e-9) return;
    throw jointError(
      'width',
      'holes-leave-plate',
      say`hole ${i + 1} leaves the plate of ${both(plate.width)} by ${both(plate.height)} by ${both(-edge)}`,
      say`make the plate larger, or move the holes by left and bottom`,
    );
  });
};
