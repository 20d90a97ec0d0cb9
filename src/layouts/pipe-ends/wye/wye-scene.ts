import { modulo, TURN } from '../../../geometry/angle-units.ts';
import { developEnd } from '../../../geometry/development.ts';
import { itemAround } from '../../../lists.ts';
import type { Contact } from '../../../geometry/reach.ts';
import { dot3, fromAxes, scale3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import type { Note, Part, Scene, View } from '../../../scene/scene.ts';
import { angleNote, labelNote } from '../../../scene/scene.ts';
import { opened } from '../../../scene/shape.ts';
import type { Sight } from '../../../scene/sight.ts';
import { cutAgainst, stockShape } from '../../../scene/stock-shape.ts';
import { stockReach } from '../../../stock/stock.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeShort } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { endGap, HEADER_AXIS, legMate, usualContact, type WyeJoint } from './wye-joint.ts';
import { type Leg } from './wye-leg.ts';
import { headerHoles } from './wye-opening.ts';
import { nameLeg } from './wye-words.ts';
const STATIONS = 120;
const CROSSING = vec3(0, 0, 0);
const FROM_ABOVE: Sight = { right: vec3(1, 0, 0), up: vec3(0, 1, 0) };
/** Looking along heading 90: the plan's right stays right. */
const FROM_270: Sight = { right: vec3(1, 0, 0), up: vec3(0, 0, 1) };

/** How the legs' ends are cut; each by its usual contact where none is chosen. */
export interface WyeCut {
  readonly contact: Contact | undefined;
  readonly gap: number;
}

/** The legs of a wye and its header, from above, and from heading 270 where it does not lie flat. */
export const wyeScene = (joint: WyeJoint, { contact, gap }: WyeCut, setting: Setting): Scene => {
  const { legs, header } = joint;
  const ends = legs.map((leg) => {
    const { outline } = leg.stock;
    const mate = legMate(joint, leg, gap);
    const off = endGap(joint, leg, gap);
    const end = { mate, contact: contact ?? usualContact(joint, leg), gap: off };
    return { leg, outline, cut: cutAgainst(developEnd(outline, end).ordinate, mate, off) };
  });
  const reach = Math.max(
    ...ends.flatMap(({ leg, outline, cut }) =>
      Array.from({ length: STATIONS }, (_, i) => {
        const s = (i * outline.girth) / STATIONS;
        return dot3(fromAxes(leg, { ...outline.at(s, 0), z: cut.around(s) }), leg.out);
      }),
    ),
  );
  const tail = reach + 1.4 * Math.max(...legs.map(({ stock }) => stockReach(stock)));
  const half = header ? 0.8 * tail + stockReach(header) : 0;
  const parts = ends.map(({ leg, cut }): Part => ({
    id: `leg ${leg.number}`,
    name: nameLeg(leg.number),
    role: 'work',
    shape: stockShape(leg.stock, { origin: CROSSING, x: leg.x, y: leg.y, z: leg.z }, -tail, cut),
  }));
  const holes = header ? headerHoles(legs, header) : [];
  const run: readonly Part[] = header
    ? [
        {
          id: 'header',
          name: header.designation,
          role: 'mate',
          shape: opened(
            stockShape(
              header,
              { origin: CROSSING, x: vec3(0, 0, 1), y: vec3(0, -1, 0), z: HEADER_AXIS },
              -half,
              half,
            ),
            holes,
          ),
          holed: holes.length > 0,
        },
      ]
    : [];
  const flat = legs.every(({ rise }) => Math.abs(rise) < 1e-9);
  const axes: readonly Note[] = [
    ...legs.map(({ out }): Note => ({ kind: 'center', points: [scale3(out, tail), CROSSING] })),
    ...(header
      ? [{ kind: 'center' as const, points: [scale3(HEADER_AXIS, -half), scale3(HEADER_AXIS, half)] }]
      : []),
  ];
  const name = (leg: Leg, besides = ''): Note =>
    labelNote(
      scale3(leg.out, tail),
      say`Leg ${leg.number} ${leg.stock.round === undefined ? leg.stock.designation : `⌀${writeShort(2 * leg.stock.round, setting)}`}${besides}`,
      { toward: leg.out, bold: true },
    );
  const plan: View = {
    title: say`Plan, from above`,
    sight: FROM_ABOVE,
    width: 52,
    height: 50,
    notes: [...axes, ...planAngles(joint), ...legs.map((leg) => name(leg))],
  };
  const side: View = {
    title: say`Side view, from heading 270° (level, plan’s right on the right)`,
    sight: FROM_270,
    width: 52,
    height: 50,
    notes: [...axes, ...legs.map((leg) => name(leg, riseText(leg)))],
  };
  return { parts: [...parts, ...run], views: flat ? [plan] : [plan, side] };
};

const riseText = ({ rise }: Leg): string =>
  Math.abs(rise) < 1e-9 ? '' : `, ${rise > 0 ? say`up` : say`down`} ${formatAngle(Math.abs(rise))}`;

/** The angles between neighboring headings, around the plan; between the axes themselves where they lie flat. */
const planAngles = ({ legs, header }: WyeJoint): readonly Note[] => {
  const wrap = (angle: number): number => modulo(angle, TURN);
  const level = legs.filter(({ rise }) => Math.abs(rise) < TURN / 4 - 1e-6);
  const headings = [...level.map(({ heading }) => wrap(heading)), ...(header ? [0] : [])].sort(
    (a, b) => a - b,
  );
  const spread = headings.length > 2 || header ? headings : headings.slice(0, 2);
  const toward = (angle: number): Vec3 => vec3(Math.cos(angle), Math.sin(angle), 0);
  return spread.flatMap((from, i): readonly Note[] => {
    const angle = wrap(itemAround(spread, i + 1) - from);
    if (angle < 1e-6 || angle > Math.PI + 1e-9 || (header && from >= Math.PI - 1e-9)) return [];
    return [angleNote(CROSSING, toward(from), toward(from + angle), formatAngle(angle))];
  });
};
