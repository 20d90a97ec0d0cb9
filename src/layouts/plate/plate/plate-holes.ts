import type { PlateAsked } from './plate-fields.ts';
import { mustBeAtLeast, mustBeLess, needed } from '../../../fields/among.ts';
import { depthOf, marginOf } from '../../../geometry/contour.ts';
import {
  circlePattern,
  gridPattern,
  type Hole,
  holeEnds,
  webBetween,
} from '../../../geometry/hole-pattern.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { jointError, requestError } from '../../../issue.ts';
import { checkWebs } from '../../../sheets/holes.ts';
import type { Setting } from '../../../units/setting.ts';
import { need, type PlateBody, type PlatePart } from './plate-part.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';

/** Holes of a flat part: where they stand, and whether it has room for them. */
type Pattern = Pick<PlatePart, 'circle' | 'gridDiagonal'> & { readonly holes: readonly Hole[] };

const circleHoles = (asked: PlateAsked, diameter: number): Pattern => {
  const circle = need(asked.circle, 'circle', say`holes on a circle have its diameter`, '160mm');
  const count = need(asked.holes, 'holes', say`holes on a circle have a number`, '4');
  const first = (asked.start === 'straddle' ? Math.PI / count : 0) + asked.turn;
  const { slot } = asked;
  return {
    circle,
    holes: circlePattern(count, circle, first).map((at, i) => ({
      at,
      diameter,
      slot:
        slot === undefined
          ? undefined
          : { length: slot, along: first + (2 * Math.PI * i) / count + Math.PI / 2 },
    })),
  };
};

/** Pitch of a row between its edge distances. */
const pitchOf = (
  name: string,
  size: number,
  count: number,
  pitch: number | undefined,
  edge: number | undefined,
): number => {
  if (count === 1) return 0;
  if (pitch !== undefined) return pitch;
  const inset = needed(name, edge, say`give it, for example 100mm, or the edge distance: --edge 40mm`);
  return (size - 2 * inset) / (count - 1);
};

const gridHoles = (asked: PlateAsked, body: PlateBody, diameter: number, setting: Setting): Pattern => {
  const { columns = 2, rows = 2, slot, slotAlong } = asked;
  const [side, end] = asked.edge ?? [];
  const columnPitch = pitchOf('column-pitch', body.width, columns, asked.columnPitch, side);
  const rowPitch = pitchOf('row-pitch', body.height, rows, asked.rowPitch, end);
  if (columnPitch < 0 || rowPitch < 0)
    throw jointError(
      'edge',
      'edge-too-wide',
      say`the edge distances leave no room between the holes`,
      say`less than half the plate: ${writeBoth(body.width / 2, setting)} and ${writeBoth(body.height / 2, setting)}`,
    );
  const holes = gridPattern({ columns, rows, columnPitch, rowPitch, stagger: 0 }).map((at) => ({
    at,
    diameter,
    slot: slot === undefined ? undefined : { length: slot, along: slotAlong === 'across' ? 0 : Math.PI / 2 },
  }));
  const square = columns > 1 && rows > 1;
  return {
    holes,
    gridDiagonal: square ? Math.hypot((columns - 1) * columnPitch, (rows - 1) * rowPitch) : undefined,
  };
};

const singleHole = (place: readonly number[], { datum }: PlateBody, diameter: number): Hole => {
  const [x, y, own = diameter, ...rest] = place;
  if (x === undefined || y === undefined || rest.length > 0)
    throw requestError(
      'hole-at',
      'not-a-place',
      say`a hole’s place has two lengths, and its own diameter where it differs`,
      say`give right,up or right,up,diameter: 50mm,80mm`,
    );
  if (own <= 0)
    throw requestError('hole-at', 'no-diameter', say`the hole has no diameter`, say`give more than 0 mm`);
  return { at: { x: datum.x + x, y: datum.y + y }, diameter: own };
};

/** The part with its holes. Throws where they are not wholly given, overlap, or leave the part. */
export const drillBody = (asked: PlateAsked, body: PlateBody, setting: Setting): PlatePart => {
  const { hole, slot, bore, shape } = asked;
  const onCircle = asked.circle !== undefined || asked.holes !== undefined;
  const given = (['columns', 'rows', 'columnPitch', 'rowPitch', 'edge'] as const).some(
    (name) => asked[name] !== undefined,
  );
  if (onCircle && given)
    throw requestError(
      'circle',
      'two-patterns',
      say`holes on a circle and in rows are both given`,
      say`give one pattern`,
    );
  if (shape === 'gusset' && (onCircle || given || bore !== undefined))
    throw requestError(
      bore === undefined ? 'holes' : 'bore',
      'no-pattern-here',
      say`a gusset has no middle to set a pattern about`,
      say`place its holes one by one: --hole-at 60mm,40mm`,
    );
  if (shape === 'base' && !onCircle && !given && asked.holeAt.length === 0)
    throw requestError(
      'edge',
      'missing',
      say`the base plate has no holes`,
      say`give hole and edge, for example --hole 18mm --edge 40mm`,
    );
  const places = asked.holeAt.length;
  if (hole !== undefined && !onCircle && !given && places === 0)
    throw requestError(
      'hole',
      'no-place',
      say`the hole has no place`,
      say`give holes and circle, edge, or hole-at`,
    );
  const diameter =
    onCircle || given || asked.holeAt.some((place) => place.length < 3)
      ? need(hole, 'hole', say`holes have a diameter`, '18mm')
      : 0;
  mustBeAtLeast('slot', slot, diameter, say`over its ends is less than it is wide`, setting);
  const pattern: Pattern = onCircle
    ? circleHoles(asked, diameter)
    : given
      ? gridHoles(asked, body, diameter, setting)
      : { holes: [] };
  const holes = [...pattern.holes, ...asked.holeAt.map((place) => singleHole(place, body, diameter))];
  if (holes.length > 2000)
    throw requestError(
      'rows',
      'too-many',
      say`${holes.length} holes are asked for`,
      say`a plate has at most 2000`,
    );
  const part = { ...body, ...pattern, holes, bore };
  checkHoles(part, setting);
  return part;
};

const CENTRE: Vec2 = { x: 0, y: 0 };

const checkHoles = ({ contour, holes, bore, footprint, heading }: PlatePart, setting: Setting): void => {
  const both = (length: number): string => writeBoth(length, setting);
  const what = heading.toLowerCase();
  if (bore !== undefined) {
    const room = 2 * depthOf(contour, CENTRE);
    mustBeLess('bore', bore, room - 1e-9, say`does not fit in the ${what}`, setting);
  }
  checkWebs(holes, 'hole', say`make them smaller or fewer, or set them further apart`, setting);
  holes.forEach((hole, i) => {
    const name = say`hole ${i + 1}, ⌀ ${both(hole.diameter)},`;
    const left = marginOf(contour, hole);
    if (left <= 1e-9)
      throw jointError(
        'hole',
        'hole-leaves-plate',
        say`${name} ${left > -1e-9 ? say`touches the edge of` : say`runs ${both(-left)} out of`} the ${what}`,
        left + hole.diameter / 2 > 0 && !hole.slot
          ? say`there it must be less than ${both(2 * (left + hole.diameter / 2))}, or stand further in`
          : say`set it further in, or make the plate larger`,
      );
    const web = bore === undefined ? 1 : webBetween(hole, { at: CENTRE, diameter: bore });
    if (web <= 1e-9)
      throw jointError(
        'bore',
        'bore-meets-holes',
        say`the bore ⌀ ${both(bore ?? 0)} runs into hole ${i + 1}`,
        say`the bore must be less than ${both(Math.max(0, (bore ?? 0) + 2 * web))}`,
      );
    if (!footprint) return;
    const clear = Math.min(...holeEnds(hole).map((end) => Math.abs(depthOf(footprint.contour, end))));
    if (clear <= hole.diameter / 2)
      throw jointError(
        'hole',
        'hole-under-stock',
        say`${name} lies under ${footprint.words}`,
        say`set it further out, or make the plate larger`,
      );
  });
};
