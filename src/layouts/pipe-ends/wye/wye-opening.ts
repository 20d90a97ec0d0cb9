import type { Picture, Sheet } from '../../../drawing/model.ts';
import { QUARTER_TURN, roundAngle } from '../../../geometry/angle-units.ts';
import { positionToward } from '../../../geometry/outline.ts';
import { insideContour } from '../../../geometry/section-crossing.ts';
import { turnSection } from '../../../geometry/section.ts';
import { angleBetween, dot3, fromAxes, intoAxes, vec3, type Vec3 } from '../../../geometry/vector.ts';
import { localAxes, type OpeningGround } from '../../../joint/bodies/body.ts';
import { pipeGround } from '../../../joint/bodies/pipe.ts';
import { closedGround } from '../../../joint/bodies/section.ts';
import { moveSolid } from '../../../joint/move-solid.ts';
import { solidMate } from '../../../joint/solid-mate.ts';
import { boreSolid } from '../../../joint/stock-solid.ts';
import { flatHole, joinHoles, placeHole, type LegHole } from '../../../scene/hole.ts';
import type { Hole } from '../../../scene/shape.ts';
import { describeStock } from '../../../sheets/band-words.ts';
import { openingSheet, traceOpeningOn, type OpeningAsk } from '../../../sheets/opening-sheet.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { stationNumber } from '../../../stock/station.ts';
import type { Stock } from '../../../stock/stock.ts';
import { writeAngle } from '../../../units/angle.ts';
import { lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { HEADER_AXIS, headerBore, headerSolid } from './wye-joint.ts';
import { facing, type Leg } from './wye-leg.ts';

/** How far the header line that faces a leg lies from the header's top line, toward heading 90; radians in (-180, 180]. */
const fromTop = ({ out }: Leg): number => Math.atan2(out.y, out.z);

/** A header's outside in axes with x toward the leg and z along heading 0, traced where it faces the leg. */
const groundOf = (header: Stock, leg: Leg, axes: Axes, lift: number): OpeningGround =>
  header.round !== undefined
    ? pipeGround(header as Pipe, localAxes(axes.origin, axes.u, axes.y, axes.d), lift)
    : closedGround(header, turnSection(header.section, fromTop(leg)), axes, lift);

interface Axes {
  readonly origin: Vec3;
  readonly u: Vec3;
  readonly y: Vec3;
  readonly d: Vec3;
}

/** How far around the header its line that faces the leg lies from its top line, toward heading 90, mm. */
const aroundHeader = (header: Stock, leg: Leg): number => {
  const aside = fromTop(leg);
  if (header.round !== undefined) return aside * header.round;
  const { outline, girth } = header;
  // Positions rise toward heading 270.
  const around = positionToward(outline, 0) - positionToward(outline, -aside);
  return around - girth * Math.round(around / girth);
};

/** A leg's opening, in the leg's own frame turned about its axis so that heading 0 lies in its xz plane. */
interface LegOpening {
  /** The header as the opening is traced on it. */
  readonly ground: OpeningGround;
  readonly ask: OpeningAsk;
  /** How far the leg's frame is turned, radians. */
  readonly zero: number;
  /** From the crossing to the header's outside along the leg, mm. */
  readonly depth: number;
}

const turnedBy = (angle: number): ((v: Vec3) => Vec3) => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return ({ x, y, z }) => vec3(x * c + y * s, y * c - x * s, z);
};

const legOpening = (leg: Leg, header: Stock, lift: number): LegOpening => {
  const angle = angleBetween(leg.z, HEADER_AXIS);
  const axes: Axes = {
    origin: vec3(0, 0, 0),
    u: vec3(Math.cos(angle), 0, -Math.sin(angle)),
    y: vec3(0, 1, 0),
    d: vec3(Math.sin(angle), 0, Math.cos(angle)),
  };
  const zero = facing(leg, HEADER_AXIS);
  const turned = turnedBy(zero);
  const depth = reachOfAxis(leg, header);
  return {
    ground: groundOf(header, leg, axes, lift),
    ask: {
      through: moveSolid(boreSolid(leg.stock), { point: turned, direction: turned }),
      clears: false,
      pierce: vec3(0, 0, -depth),
    },
    zero,
    depth,
  };
};

/** The holes that legs ask for in their header, in the wye's frame; none where one of them cannot be shown. */
export const headerHoles = (legs: readonly Leg[], header: Stock): readonly Hole[] => {
  const holes = legs.map((leg): LegHole | undefined => {
    const { ground, ask, zero } = legOpening(leg, header, 0);
    const [there, back] = [turnedBy(zero), turnedBy(-zero)];
    const local = (v: Vec3): Vec3 => there(intoAxes(leg, v));
    const hole = flatHole(ground, traceOpeningOn(ground, ask), {
      outside: headerSolid(header, local),
      inside: headerBore(header, local),
    });
    return hole && { hole: placeHole(hole, (p) => fromAxes(leg, back(p))), covers: isInBore(leg) };
  });
  const known = holes.filter((hole) => hole !== undefined);
  return known.length === legs.length ? joinHoles(known) : [];
};

/** True for a place on a leg's side of the crossing that lies in its bore. */
const isInBore = (leg: Leg): ((p: Vec3) => boolean) => {
  const { round, wall, section } = leg.stock;
  return (p) => {
    const { x, y, z } = intoAxes(leg, p);
    if (z > 0) return false;
    return round === undefined
      ? insideContour(section.inside ?? section.outside, { x, y })
      : Math.hypot(x, y) < round - wall;
  };
};

/**
 * The opening for one leg: its bore on the header's outside. Sheet frame: y along heading 0, origin on the header line that
 * faces the leg, abreast of the crossing. Where the openings of two legs run into each other each sheet still shows
 * its own, so that marking both leaves the outline of both.
 */
export const wyeOpening = (
  leg: Leg,
  header: Stock,
  pictures: readonly Picture[],
  setting: Setting,
): Sheet => {
  const { ground, ask, zero, depth } = legOpening(leg, header, setting.paperThickness / 2);
  const number = (quarter: number): string => stationNumber(roundAngle(zero + quarter * QUARTER_TURN));
  const isUpright = Math.abs(Math.abs(leg.rise) - QUARTER_TURN) < 1e-9;
  /** The name of the leg's line toward a side of the sheet, where it is the one the leg is turned by. */
  const side = (quarter: number): string => {
    const along = Math.cos(zero + quarter * QUARTER_TURN);
    if (Math.abs(along) < 1 - 1e-9) return '';
    if (isUpright) return along > 0 ? say`TDC` : '';
    return along > 0 ? say`TOP OF THE LEG` : say`BOTTOM OF THE LEG`;
  };
  const aside = fromTop(leg);
  const girth = aroundHeader(header, leg);
  const degrees = header.round === undefined ? '' : `${writeAngle(Math.abs(aside))} `;
  const where =
    Math.abs(girth) < 1e-9
      ? say`its top line`
      : say`${degrees}from its top line toward direction ${girth > 0 ? 90 : 270}°, ${writeBoth(Math.abs(girth), setting)} around`;
  const shift = depth * dot3(leg.out, HEADER_AXIS);
  return openingSheet(
    {
      name: `header opening ${leg.number}`,
      heading: say`Header opening, leg ${leg.number}`,
      ground,
      ask,
      words: [say`DIRECTION 0°`, side(1), say`DIRECTION 180°`, side(3)],
      numbers: [number(0), number(1), number(2), number(3)],
      about: [
        say`Opening for leg ${leg.number}, ${leg.stock.designation}: its bore on the header’s outside`,
        describeStock(header, setting),
        say`${writeAngle(angleBetween(leg.out, HEADER_AXIS))} between the leg and direction 0°`,
      ],
      strike: say`Strike the header line that faces the leg: ${where}. Strike a square line around the header through the crossing.`,
      upper: say`the end marked direction 0° that way`,
      after: [
        say`Openings that run into each other are cut around the outside of both.`,
        say`Try the cut legs over the marks before you cut. Cut square to the surface, inside the line, then bevel as the joint asks.`,
      ],
      facts: [
        Math.abs(shift) < 1e-9
          ? [say`Leg’s axis`, say`on the square line`]
          : [
              say`Leg’s axis from the square line, toward direction ${shift > 0 ? 0 : 180}°`,
              lengthOf(Math.abs(shift)),
            ],
      ],
      pictures,
    },
    setting,
  );
};

/** How far from the crossing a leg's axis comes through the header's outside, mm along the leg. */
const reachOfAxis = (leg: Leg, header: Stock): number => {
  if (header.round !== undefined) return header.round / Math.hypot(leg.out.y, leg.out.z);
  const hit = solidMate(headerSolid(header, (v) => intoAxes(leg, v))).enter({
    origin: vec3(0, 0, 0),
    direction: vec3(0, 0, 1),
  });
  return -(hit?.t ?? 0);
};
