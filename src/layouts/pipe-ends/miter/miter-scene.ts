import { developEnd, type End } from '../../../geometry/development.ts';
import { vec3, type Vec3 } from '../../../geometry/vector.ts';
import type { Scene } from '../../../scene/scene.ts';
import { angleNote, labelNote } from '../../../scene/scene.ts';
import { SCENE_POSE, type Pose } from '../../../scene/shape.ts';
import { cutAgainst, stockShape } from '../../../scene/stock-shape.ts';
import { stockReach, type Stock } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import { say } from '../../../words/say.ts';

/** A mitered end to be looked at; station 0 is the heel. */
export interface SeenMiter {
  readonly stock: Stock;
  /** Of the cut from square, radians. */
  readonly cut: number;
  readonly end: End;
}

/** The turn that two such ends make, from station 90 with this piece upright: heel left, the other piece leaning right. */
export const miterScene = ({ stock, cut, end: cutEnd }: SeenMiter): Scene => {
  const r = stockReach(stock);
  const end = cutAgainst(developEnd(stock.outline, cutEnd).ordinate, cutEnd.mate, cutEnd.gap);
  const lean = r * Math.tan(cut);
  const tail = -r * (1.6 + 0.4 * Math.tan(cut)) - lean;
  const turned = (x: number, z: number): Vec3 => {
    const [c, s] = [Math.cos(2 * cut), Math.sin(2 * cut)];
    return vec3(x * c + z * s, 0, x * s - z * c);
  };
  // The other piece is this one rotated half a turn about the line from heel to throat.
  const other: Pose = { origin: vec3(0, 0, 0), x: turned(1, 0), y: vec3(0, -1, 0), z: turned(0, 1) };
  const corner = vec3(0, 0, 0);
  return {
    parts: [
      { id: 'end', name: say`this piece`, role: 'work', shape: stockShape(stock, SCENE_POSE, tail, end) },
      { id: 'other', name: say`the other piece`, role: 'mate', shape: stockShape(stock, other, tail, end) },
    ],
    views: [
      {
        title: say`The turn, seen from station 90`,
        sight: { right: vec3(-1, 0, 0), up: vec3(0, 0, 1) },
        width: 46,
        height: 50,
        notes: [
          { kind: 'center', points: [vec3(0, 0, 0.5 * tail), corner, vec3(0, 0, -0.6 * tail)] },
          { kind: 'center', points: [turned(0, tail), corner], past: 3 },
          angleNote(corner, vec3(0, 0, 1), turned(0, -1), formatAngle(2 * cut)),
          labelNote(vec3(0, 0, 0.8 * tail), say`KEEP`, { bold: true, on: true }),
          labelNote(vec3(r, 0, lean + 0.25 * (tail - lean)), say`0° heel`, {
            along: vec3(r, 0, tail),
            toward: vec3(1, 0, 0),
            bold: true,
          }),
          labelNote(vec3(-r, 0, -lean + 0.4 * (tail + lean)), say`180° throat`, {
            along: vec3(-r, 0, tail),
            toward: vec3(-1, 0, 0),
          }),
        ],
      },
    ],
  };
};
