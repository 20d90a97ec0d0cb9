import {
  BendError,
  bendLine,
  cornersOf,
  layOutBends,
  type BendLayout,
  type BentLine,
} from '../../../geometry/bend-line.ts';
import { itemAt } from '../../../lists.ts';
import type { Vec3 } from '../../../geometry/vector.ts';
import { jointError, requestError } from '../../../issue.ts';
import { formatAngle } from '../../../units/angle.ts';
import { told } from '../../../units/format.ts';
import { say, translate } from '../../../words/say.ts';

/** What is known of a bent center line. Lengths in mm, angles in radians. */
export interface BendsRequest {
  readonly points: readonly Vec3[] | undefined;
  readonly legs: readonly number[] | undefined;
  readonly turns: readonly number[] | undefined;
  readonly rolls: readonly number[] | undefined;
  readonly radius: number;
  /** Share of an arc's length that the bend draws out of the stock. */
  readonly stretch: number;
  /** Share of the angle bent to that springs back. */
  readonly springback: number;
}

/** A bent stock, solved. */
export interface SolvedBends {
  readonly points: readonly Vec3[];
  readonly line: BentLine;
  readonly layout: BendLayout;
}

const cornersFrom = ({ points, legs, turns, rolls }: BendsRequest): readonly Vec3[] => {
  const hint = say`give points, or legs with turns and, from the second bend on, rolls`;
  if (points !== undefined) {
    if (legs ?? turns ?? rolls)
      throw requestError('points', 'given-twice', say`points and legs, turns or rolls are both given`, hint);
    return points;
  }
  if (legs === undefined || turns === undefined)
    throw requestError(legs ? 'turns' : 'points', 'missing', say`the center line is not given`, hint);
  if (legs.length !== turns.length + 1)
    throw requestError(
      'legs',
      'wrong-count',
      say`${turns.length} turns have ${turns.length + 1} legs, not ${legs.length}`,
      say`give the length of every straight between corners, and one turn for each corner`,
    );
  if (rolls !== undefined && rolls.length !== turns.length - 1)
    throw requestError(
      'rolls',
      'wrong-count',
      say`${turns.length} turns have ${turns.length - 1} rolls between them, not ${rolls.length}`,
      say`give one roll from each bend to the next; 0 where both lie in one plane and turn the same way, 180 where they turn back`,
    );
  return cornersOf(legs, turns, rolls ?? []);
};

const REASONS = () =>
  ({
    straight: [say`makes no bend: its neighbors lie on one line with it`, say`leave the point out`],
    back: [say`comes straight back on itself`, say`put the points of a bend in the order the pipe runs`],
    same: [say`falls on the one before`, say`leave one of them out`],
  }) as const;

/** Solves for bends, marks and cut length. Throws a `request` or `joint` UserError that names the point or leg. */
export const solveBends = (request: BendsRequest): SolvedBends => {
  const points = cornersFrom(request);
  const bent = (): BentLine => {
    try {
      return bendLine(points, () => request.radius);
    } catch (error) {
      if (!(error instanceof BendError)) throw error;
      const [what, hint] = REASONS()[error.reason];
      throw jointError(
        'points',
        `bend-${error.reason}`,
        say`point ${error.index + 1} ${translate(what)}`,
        hint,
      );
    }
  };
  const line = bent();
  const short = line.straights.findIndex((straight) => straight < -1e-9);
  if (short >= 0)
    throw jointError(
      'radius',
      'bends-overlap',
      say`on leg ${short + 1} the bends take ${told(-itemAt(line.straights, short), 1)} more than its length`,
      say`give a radius under ${told(request.radius, 1)}, or points further apart`,
    );
  const layout = layOutBends(line, request.stretch, request.springback);
  const wide = layout.marks.find(({ bendTo }) => bendTo > Math.PI);
  if (wide)
    throw jointError(
      'springback',
      'bent-past-half',
      say`with its springback a bend would be bent to ${formatAngle((Math.round((wide.bendTo * 180) / Math.PI) * Math.PI) / 180)}`,
      say`give less springback: it is the share that a bend opens again, in percent`,
    );
  return { points, line, layout };
};
