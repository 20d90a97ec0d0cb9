import type { Spot } from '../../../drawing/measured.ts';
import type { Figure, Sheet } from '../../../drawing/model.ts';
import { mustBeLess, mustBeMore } from '../../../fields/among.ts';
import { TURN, modulo } from '../../../geometry/angle-units.ts';
import { planesMate } from '../../../geometry/breech.ts';
import { ConeMissError, coneSector, developCone, type ConePattern } from '../../../geometry/cone-pattern.ts';
import { alongFlat } from '../../../geometry/developable.ts';
import { itemAt } from '../../../lists.ts';
import { solveTaperedTurn, type TaperedGore } from '../../../geometry/tapered-turn.ts';
import { vec3, type Vec2, type Vec3 } from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import type { Scene } from '../../../scene/scene.ts';
import { countStations } from '../../../sheets/band-fields.ts';
import { apart, crossAt, endAt, shown } from '../../../sheets/measured.ts';
import type { PlateValues, SeamValues } from '../../../sheets/pattern-fields.ts';
import { rolledSheet } from '../../../sheets/rolled-sheet.ts';
import { shellPicture, shellScene, type Shell } from '../../../sheets/shell-scene.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import type { Stock } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeSize } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { taperedNest } from './tapered-nest.ts';
import type { TurnRequest } from './turn-request.ts';

/** A turn that reduces, its cones laid flat. */
interface Tapered {
  readonly gores: readonly TaperedGore[];
  readonly seams: readonly number[];
  readonly laid: readonly ConePattern[];
}

const layTapered = (request: TurnRequest, to: Pipe, setting: Setting): Tapered => {
  const { stock, shape, gap, making, stagger } = request;
  const od = 2 * outsideRadius(stock);
  mustBeLess(
    'to',
    to.od,
    od,
    say`outside is not smaller than the pipe: choose a smaller one, or swap the two`,
    setting,
  );
  mustBeMore('to', to.od, 2 * stock.wall, say`outside is too small for plate of that thickness`, setting);
  const gores = solveTaperedTurn(
    { ...shape, large: (od - stock.wall) / 2, small: (to.od - stock.wall) / 2 },
    gap,
  );
  const seams = gores.map((_, i) => making.seam + i * stagger);
  return { gores, seams, laid: gores.map((gore, i) => develop(gore, itemAt(seams, i))) };
};

const shellsOf = ({ gores, laid }: Tapered, thickness: number): readonly Shell[] => {
  const places = placesOf(gores);
  return gores.map(({ gore: { number } }, k) => ({
    id: `gore ${number}`,
    name: `gore ${number}`,
    parts: [[itemAt(laid, k).flat]],
    thickness,
    place: itemAt(places, k),
  }));
};

/** The finished turn in space. */
export const taperedScene = (request: TurnRequest, to: Pipe, setting: Setting): Scene =>
  shellScene(
    say`The finished turn, throat at the right`,
    shellsOf(layTapered(request, to, setting), request.stock.wall),
    { square: true },
  );

/** The sheets of a turn that reduces from its pipe to a smaller one: cones rolled from plate of the pipe's wall. */
export const taperedSheets = (request: TurnRequest, to: Pipe, setting: Setting): readonly Sheet[] => {
  const { stock, shape, making } = request;
  const tapered = layTapered(request, to, setting);
  const { gores, seams, laid } = tapered;
  const subject = describe(request, to, setting);
  const plate = plateOf(request);
  const sheets = gores.map((gore, i) => {
    const pattern = itemAt(laid, i);
    const seam = itemAt(seams, i);
    const step = TURN / countStations(making);
    /** From cut to cut along the side at a station, which is the seam or one of the bend lines where the step falls on it. */
    const sideAt = (station: number): Figure => {
      const share = modulo((station - seam) / TURN, 1);
      const ruling = pattern.flat.flat(share);
      const [foot, head] = [ruling.foot, alongFlat(ruling)];
      const at = (p: Vec2): Spot =>
        Math.min(share, 1 - share) < 1e-9 ? crossAt('punch', p.x, p.y) : endAt('bend', p.x, p.y);
      const isDrawn = Math.abs(station / step - Math.round(station / step)) < 1e-9;
      return shown(lengthOf(ruling.length), isDrawn ? apart(at(foot), at(head)) : undefined);
    };
    return rolledSheet(
      {
        name: `gore ${gore.gore.number}`,
        heading: say`Gore ${gore.gore.number} of ${gores.length}`,
        subject: i === 0 && !request.nest ? [...subject, tellCone(gores, setting)] : subject,
        laid: pattern,
        from: seam,
        to: seam + TURN,
        step,
        bend: step * Math.cos(coneSector(gore.shape).lean),
        plate,
        last: [
          say`Bevel the joints. Set throat to throat and heel to heel, large ends toward the pipe, and tack.`,
          say`Check the whole turn before you weld: ${formatAngle(request.angle)}, and ${writeBoth(shape.radius, setting)} to the center line.`,
        ],
        facts: [
          [say`Heel, cut to cut, along the side`, sideAt(Math.PI)],
          [say`Throat, cut to cut, along the side`, sideAt(0)],
          [say`Center line`, lengthOf(gore.gore.centre)],
          [say`Cut above, from square`, angleOf(gore.gore.upper)],
          [say`Cut below, from square`, angleOf(gore.gore.lower)],
        ],
        picture: shellPicture(
          say`The finished turn; gore ${gore.gore.number} heavy, throat at the right`,
          shellsOf(tapered, stock.wall),
          { square: true, about: `gore ${gore.gore.number}` },
        ),
        cautions: [
          say`A turn made from gores carries no pressure rating by itself: a qualified person decides.`,
        ],
      },
      setting,
    );
  });
  return request.nest ? [...sheets, taperedNest({ request, gores, laid, plate, subject }, setting)] : sheets;
};

/** What the first gore's sheet says of the nest where that is not drawn. */
const tellCone = (gores: readonly TaperedGore[], setting: Setting): string => {
  const height = gores.reduce((sum, { shape }) => sum + shape.height, 0);
  return say`All gores come from one cone ${writeBoth(height, setting)} high, every other one rotated 180°. The option nest prints it full size`;
};

/** Outside radius of the turn's large end. Throws where the stock is not round. */
const outsideRadius = ({ round, designation }: Stock): number => {
  if (round !== undefined) return round;
  throw jointError(
    'to',
    'not-round',
    say`only a turn of round pipe can reduce, and ${designation} is not round`,
    say`leave --to out, or give a pipe`,
  );
};

const plateOf = ({ stock, making }: TurnRequest): PlateValues & SeamValues => ({
  thickness: stock.wall,
  sizes: 'outside',
  density: 7850,
  seamAllowance: Math.abs(making.seamAllowance),
  join: making.seamAllowance < 0 ? 'weld' : 'lap',
});

const develop = ({ gore, shape, lower, upper }: TaperedGore, seam: number): ConePattern => {
  const short = (): Error =>
    jointError(
      'radius',
      'no-throat',
      say`nothing is left of gore ${gore.number} at its throat`,
      say`give a larger radius or fewer pieces`,
    );
  try {
    const pattern = developCone(
      shape,
      seam,
      seam + TURN,
      { large: lower && planesMate([lower]), small: upper && planesMate([upper]) },
      0,
    );
    const [low, high] = pattern.span(0);
    if (high - low <= 0.5) throw short();
    return pattern;
  } catch (error) {
    if (!(error instanceof ConeMissError)) throw error;
    throw short();
  }
};

/** Where each piece lies: the first stands on the origin, the turn bends toward +x. */
const placesOf = (gores: readonly TaperedGore[]): readonly ((p: Vec3) => Vec3)[] => {
  let [x, z, heading] = [0, 0, 0];
  return gores.map(({ gore }) => {
    const [x0, z0, c, s] = [x, z, Math.cos(heading), Math.sin(heading)];
    x += gore.centre * s;
    z += gore.centre * c;
    heading += 2 * gore.upper;
    return (p: Vec3): Vec3 => vec3(x0 + c * p.x + s * p.z, p.y, z0 + c * p.z - s * p.x);
  });
};

const describe = (
  { stock, angle, gores, shape, gap }: TurnRequest,
  to: Pipe,
  setting: Setting,
): readonly string[] => [
  say`${formatAngle(angle)} turn of ${gores.length} pieces from ${stock.designation} to ${to.designation}`,
  say`Bend radius ${writeBoth(shape.radius, setting)} to the center line`,
  say`Cones from plate ${writeSize(stock.wall, setting)}, ${writeBoth(2 * outsideRadius(stock), setting)} to ${writeBoth(to.od, setting)} outside, laid out on the middle of the plate`,
  say`Joints plane and flush all around; ${gap > 0 ? say`root gap ${writeBoth(gap, setting)}, half off each piece` : say`no root gap`}. Station 0 is the throat`,
];
