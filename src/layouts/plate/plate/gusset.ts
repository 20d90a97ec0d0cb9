import { mustBeLess } from '../../../fields/among.ts';
import { type Contour, copeContour, polygonContour } from '../../../geometry/contour.ts';
import { itemAround } from '../../../lists.ts';
import { cross2, distance2, left2, polar2, scale2, sub2, vec2, type Vec2 } from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import { ends, ofArc, shown } from '../../../sheets/measured.ts';
import { formatAngle } from '../../../units/angle.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import type { PlateAsked } from './plate-fields.ts';
import { givenOf, lengthOf } from '../../../units/quantity.ts';
import { need, type PlateBody } from './plate-part.ts';

/** A gusset's figures: its corner at the origin, the foot along +x. */
interface Gusset {
  readonly foot: number;
  readonly upright: number;
  readonly angle: number;
  readonly snip: number;
  readonly nose: number;
}

/** The corners of a gusset, counter-clockwise, and the two its long edge runs between. */
const gussetCorners = ({ foot, upright, angle, snip, nose }: Gusset) => {
  const up = polar2(1, angle);
  const toe = vec2(foot, 0);
  const head = scale2(up, upright);
  const longEdge = [vec2(foot, nose), sub2(head, scale2(left2(up), nose))] as const;
  const corner: readonly Vec2[] = snip > 0 ? [scale2(up, snip), vec2(snip, 0)] : [vec2(0, 0)];
  return { points: [...corner, toe, ...longEdge, head], longEdge };
};

const isConvex = (contour: Contour): boolean =>
  contour.every((edge, i) => {
    const next = itemAround(contour, i + 1);
    return cross2(sub2(edge.to, edge.from), sub2(next.to, next.from)) > 0;
  });

/** A gusset: plain, its corner snipped to clear a weld, or coped for a pipe that runs across it. */
export const gussetBody = (asked: PlateAsked, setting: Setting): PlateBody => {
  const both = (length: number): string => writeBoth(length, setting);
  const foot = need(asked.width, 'width', say`a gusset has a width along its foot`, '150mm');
  const upright = need(asked.height, 'height', say`and a height`, '150mm');
  const { snip = 0, nose, angle } = asked;
  const gusset = { foot, upright, angle, snip, nose };
  const least = Math.min(foot, upright);
  mustBeLess('snip', snip, least, say`takes the whole of a leg`, setting);
  const { points, longEdge } = gussetCorners(gusset);
  const outline = polygonContour(points);
  if (nose > 0 && !isConvex(outline))
    throw jointError(
      'nose',
      'nose-too-large',
      say`ends of ${both(nose)} leave no long edge`,
      say`make them smaller, or the legs longer`,
    );
  const cope = asked.cope && copeFor(asked, asked.cope, outline, setting);
  const turned = angle !== Math.PI / 2;
  const [lowX, highX] = [Math.min(...points.map((p) => p.x)), Math.max(...points.map((p) => p.x))];
  return {
    heading: say`Gusset`,
    contour: cope?.contour ?? outline,
    width: highX - lowX,
    height: Math.max(...points.map((p) => p.y)),
    round: false,
    datum: { x: 0, y: 0, words: say`the corner: along the foot, and square up from it` },
    subject: [
      say`Foot ${writeGiven(foot, setting)}, upright ${writeGiven(upright, setting)}${turned ? say`, ${formatAngle(angle)} between them` : ''}`,
      [
        snip > 0 ? say`corner snipped ${writeGiven(snip, setting)} along both legs` : '',
        nose > 0 ? say`ends ${writeGiven(nose, setting)} square to the legs` : '',
        cope?.words ?? '',
      ]
        .filter((text) => text !== '')
        .join('; ') || say`plain, sharp corners`,
    ],
    facts: [
      [say`Foot`, givenOf(foot)],
      [say`Upright`, givenOf(upright)],
      [
        say`Long edge`,
        shown(
          lengthOf(distance2(longEdge[0], longEdge[1])),
          cope ? undefined : ends(longEdge[0], longEdge[1]),
        ),
      ],
      ...(cope ? ([[say`Cope radius`, shown(lengthOf(cope.radius), cope.measured)]] as const) : []),
    ],
    steps: [
      say`Lay the sheet with the foot on a straight edge of the plate, tape it down.`,
      say`Prick the corners and every cross. Lift the sheet, punch, strike the outline through the corners.`,
      ...(cope ? [say`Strike the cope with dividers, or prick along it; grind it to the pipe.`] : []),
      say`Check: the long edge is ${both(distance2(longEdge[0], longEdge[1]))}.`,
    ],
  };
};

/** The outline with the pipe's round and its gap taken out. */
const copeFor = (
  { copeAt, copeGap }: PlateAsked,
  pipe: NonNullable<PlateAsked['cope']>,
  outline: Contour,
  setting: Setting,
) => {
  const both = (length: number): string => writeBoth(length, setting);
  const [x, y] = copeAt ?? [0, 0];
  const radius = pipe.od / 2 + copeGap;
  const contour = copeContour(outline, vec2(x, y), radius);
  if (!contour)
    throw jointError(
      'cope',
      'cope-misses',
      say`the cope’s round of radius ${both(radius)} about ${both(x)}, ${both(y)} does not cross the gusset’s edge just twice`,
      say`move the pipe’s center with cope-at, or make the gusset larger: the round must bite into its edge and leave it in one piece`,
    );
  const where = copeAt ? say`its center ${both(x)} along and ${both(y)} up` : say`its center on the corner`;
  const arc = contour.find((edge) => edge.kind === 'arc');
  if (arc?.kind !== 'arc') throw new Error('a cope without its arc');
  return {
    contour,
    radius,
    measured: ofArc('radius', { centre: arc.centre, radius, from: arc.start, sweep: arc.sweep }),
    words: say`coped for ${pipe.designation} across it, ${where}, gap ${both(copeGap)}`,
  };
};
