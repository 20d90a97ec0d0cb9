/**
 * Two parallel runs of pipe joined by a travel piece. Seen along the first run, the second lies `set` above and `roll` to
 * the side; both turns are alike, in the plane of the two runs. Lengths in any one unit between centers, angles in radians.
 */
export interface RollingOffset {
  readonly set: number;
  readonly roll: number;
  /** Along the runs, from center of turn to center of turn. */
  readonly run: number;
  /** Distance of the two runs, square to them: √(set² + roll²). */
  readonly offset: number;
  /** Center of turn to center of turn: √(offset² + run²). */
  readonly travel: number;
  /** Change of direction at each turn: tan = offset / run. */
  readonly turn: number;
  /** Lean of the plane of the runs from plumb: tan = roll / set. */
  readonly rollAngle: number;
}

const fromOffset = (set: number, roll: number, run: number, travel: number, turn: number): RollingOffset => ({
  set,
  roll,
  run,
  offset: Math.hypot(set, roll),
  travel,
  turn,
  rollAngle: Math.atan2(roll, set),
});

/** From set, roll and run; set and roll not both zero. */
export const offsetFromRun = (set: number, roll: number, run: number): RollingOffset =>
  fromOffset(set, roll, run, Math.hypot(set, roll, run), Math.atan2(Math.hypot(set, roll), run));

/** From set, roll and a travel no shorter than their true offset. */
export const offsetFromTravel = (set: number, roll: number, travel: number): RollingOffset => {
  const offset = Math.hypot(set, roll);
  // As a product, so that a travel near the offset keeps its digits.
  const run = Math.sqrt(Math.max(0, (travel - offset) * (travel + offset)));
  return fromOffset(set, roll, run, travel, Math.atan2(offset, run));
};

/** From set, roll and the turn of each fitting, above 0 and up to 90°: travel = offset / sin, run = offset / tan. */
export const offsetFromTurn = (set: number, roll: number, turn: number): RollingOffset => {
  const offset = Math.hypot(set, roll);
  const travel = offset / Math.sin(turn);
  return fromOffset(set, roll, travel * Math.cos(turn), travel, turn);
};

/** From travel, turn and the lean of the offset from plumb. */
export const offsetFromAngles = (travel: number, turn: number, rollAngle: number): RollingOffset => {
  const offset = travel * Math.sin(turn);
  return {
    set: offset * Math.cos(rollAngle),
    roll: offset * Math.sin(rollAngle),
    run: travel * Math.cos(turn),
    offset,
    travel,
    turn,
    rollAngle,
  };
};
