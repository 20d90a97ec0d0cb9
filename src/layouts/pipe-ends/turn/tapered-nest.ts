import { textWidth } from '../../../drawing/lettering.ts';
import type { Mark, Sheet } from '../../../drawing/model.ts';
import { bigWord } from '../../../drawing/scrap.ts';
import { TURN, modulo } from '../../../geometry/angle-units.ts';
import { planesMate, type EndPlane } from '../../../geometry/breech.ts';
import { coneSector, developCone, type ConePattern, type ConeShape } from '../../../geometry/cone-pattern.ts';
import type { Cubic } from '../../../geometry/cubic.ts';
import { alongFlat } from '../../../geometry/developable.ts';
import { itemAt } from '../../../lists.ts';
import type { TaperedGore } from '../../../geometry/tapered-turn.ts';
import { add2, distance2, scale2, vec3, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import { countStations } from '../../../sheets/band-fields.ts';
import { crosses, shown, taken } from '../../../sheets/measured.ts';
import type { PlateValues, SeamValues } from '../../../sheets/pattern-fields.ts';
import { rolledSheet } from '../../../sheets/rolled-sheet.ts';
import { shellPicture, type Shell } from '../../../sheets/shell-scene.ts';
import { stationNumber } from '../../../stock/station.ts';
import { formatAngle } from '../../../units/angle.ts';
import { lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say, translateName } from '../../../words/say.ts';
import type { TurnRequest } from './turn-request.ts';

/** A gore's place on the one straight cone that all are cut from. */
interface Nested extends TaperedGore {
  /** Height of its lower end's center over the cone's large end, mm. */
  readonly from: number;
  /** Whether it is rotated 180°, so that its throat lies in line with its neighbors' heels. */
  readonly turned: boolean;
}

const nest = (gores: readonly TaperedGore[]): readonly Nested[] => {
  let from = 0;
  return gores.map((gore, i) => {
    const place = { ...gore, from, turned: i % 2 === 1 };
    from += gore.shape.height;
    return place;
  });
};

/** A gore's own frame in the cone's. */
const placeIn =
  ({ from, turned }: Nested) =>
  ({ x, y, z }: Vec3): Vec3 =>
    turned ? vec3(-x, -y, z + from) : vec3(x, y, z + from);

const planeIn = ({ from, turned }: Nested, { normal, constant }: EndPlane): EndPlane => ({
  normal: turned ? vec3(-normal.x, -normal.y, normal.z) : normal,
  constant: constant + normal.z * from,
});

export interface TaperedNest {
  readonly request: TurnRequest;
  readonly gores: readonly TaperedGore[];
  readonly laid: readonly ConePattern[];
  readonly plate: PlateValues & SeamValues;
  readonly subject: readonly string[];
}

/**
 * The sheet of all gores of a reducing turn on one cone: every other one rotated 180°, the joint above one is the joint below
 * the next, or stands the root gap off it.
 */
export const taperedNest = (asked: TaperedNest, setting: Setting): Sheet => {
  const { request, gores, laid, plate, subject } = asked;
  const { making, gap, shape, angle } = request;
  const places = nest(gores);
  const [first, last] = [places[0], places.at(-1)] as [Nested, Nested];
  const cone: ConeShape = {
    large: first.shape.large,
    small: last.shape.small,
    height: last.from + last.shape.height,
    offset: 0,
  };
  const [from, to] = [making.seam, making.seam + TURN];
  const cutBy = (end: 'large' | 'small', place: Nested, plane: EndPlane | undefined): ConePattern =>
    developCone(cone, from, to, plane ? { [end]: planesMate([planeIn(place, plane)]) } : {}, 0);
  const above = places.map((place) => cutBy('small', place, place.upper));
  const below = places.map((place) => cutBy('large', place, place.lower));
  const joints = places
    .slice(1)
    .flatMap((_, i): readonly (readonly Cubic[])[] => [
      itemAt(above, i).ends.upper,
      ...(gap > 0 ? [itemAt(below, i + 1).ends.lower] : []),
    ]);
  const pieces = places.map((_, i): Piece => {
    const [low, high] = [itemAt(below, i), itemAt(above, i)];
    return (share) => [low.flat.flat(share).foot, alongFlat(high.flat.flat(share))];
  });
  const step = TURN / countStations(making);
  const whole = developCone(cone, from, to, {}, 0);
  const left = whole.flat.flat(0);
  const seam = [left.foot, alongFlat(left)] as const;
  const { lean } = coneSector(cone);
  const shells = places.map((place, i): Shell => ({
    id: `gore ${place.gore.number}`,
    name: translateName(`gore ${place.gore.number}`),
    parts: [[itemAt(laid, i).flat]],
    thickness: plate.thickness,
    place: placeIn(place),
  }));
  return rolledSheet(
    {
      name: 'nested gores',
      heading: say`Gores nested on one cone`,
      subject,
      laid: whole,
      from,
      to,
      step,
      bend: step * Math.cos(lean),
      plate,
      across: {
        lines: joints,
        words: places.flatMap((place, i) => goreWords(place, itemAt(pieces, i), from)),
        clear: (share) =>
          pieces
            .map((piece) => piece(share))
            .reduce((best, one) => (distance2(...one) > distance2(...best) ? one : best)),
      },
      last: [
        gap > 0
          ? say`Cut the cone on the lines across it; what lies between the two lines of a joint is scrap.`
          : say`Cut the cone on the lines across it, each through its middle: the kerf comes off both gores. Give it as the gap where that matters.`,
        say`Rotate every other gore 180°: throat to throat, heel to heel. Bevel the joints and tack.`,
        say`Check the whole turn before you weld: ${formatAngle(angle)}, and ${writeBoth(shape.radius, setting)} to the center line.`,
      ],
      facts: [
        // The seam leans on the axis by the cone's own angle.
        [say`Height of the cone`, shown(lengthOf(cone.height), taken(crosses(...seam), Math.cos(lean)))],
        [
          say`A weld along the cone, on the gores`,
          say`falls on ${stationNumber(making.seam)} and ${stationNumber(making.seam + Math.PI)} in turn`,
        ],
      ],
      picture: shellPicture(say`The cone, station 0 at the right; its cuts drawn`, shells, { square: true }),
      cautions: [
        say`A turn made from gores carries no pressure rating by itself: a qualified person decides.`,
      ],
    },
    setting,
  );
};

/** A gore on the flat: where the line a share of the way around the cone enters and leaves it. */
type Piece = (share: number) => readonly [Vec2, Vec2];

/** Words stand this far over a gore's lower cut, or in its middle, mm: clear of the names on the bend lines. */
const WORD_UP = 7;

/** A gore's name where it has most room, at its heel, and its throat. */
const goreWords = ({ gore, turned, shape }: Nested, piece: Piece, seam: number): readonly Mark[] => {
  const heel = turned ? 0 : Math.PI;
  const put = (station: number, word: string): readonly Mark[] => {
    const u = modulo((station - seam) / TURN, 1);
    // Clear of the seams, and of their names.
    const clear = Math.min(0.5, (textWidth(word, 3.5, true) / 2 + 8) / (TURN * shape.small));
    const [low, high] = piece(Math.min(1 - clear, Math.max(clear, u)));
    const up = Math.min(0.5, WORD_UP / distance2(low, high));
    return bigWord(add2(scale2(low, 1 - up), scale2(high, up)), word, 3.5);
  };
  return [...put(heel, say`▲ GORE ${gore.number} · HEEL`), ...put(heel + Math.PI, say`THROAT`)];
};
