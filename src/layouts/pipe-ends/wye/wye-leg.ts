import type { Field } from '../../../fields/field.ts';
import { parsedField } from '../../../fields/fields.ts';
import { positionToward } from '../../../geometry/outline.ts';
import { add3, intoAxes, scale3, sub3, vec3, type Vec3 } from '../../../geometry/vector.ts';
import { requestError } from '../../../issue.ts';
import { readClauses } from '../../../stock/clauses.ts';
import { parseStock } from '../../../stock/read-stock.ts';
import { closedKinds, type Stock } from '../../../stock/stock.ts';
import { parseAngle } from '../../../units/angle.ts';
import { refusals } from '../../../units/notation.ts';
import type { Reading } from '../../../units/reading.ts';
import { say } from '../../../words/say.ts';

/** A leg as it is asked for. */
export interface LegRequest {
  /** Direction on the plan, counter-clockwise seen from above, radians. */
  readonly heading: number;
  /** Rise out of the plan, radians. */
  readonly rise: number;
  /** Where it is not the wye's own stock. */
  readonly stock: Stock | undefined;
}

const HINT = () => say`write 120, 120 up 30, 120 NPS 4 sch 40 or 120 tube 100x60x5mm`;
// Stock that is not closed is known too, so that its refusal can name it.
const STOCK_WORD =
  /(?<![a-z])(?:nps|dn|en|od|girth|tube|hss|flat|oval|ellipse|half[ -]round|angle|channel|beam|ipe|he|upn|upe|[wslc](?= ?\d))(?![a-z])/i;

/** Reads `120`, `at 120 up 30`, `at 225 NPS 4 sch 40`: a direction on the plan, its rise, and its stock where that differs. */
export const parseLeg = (text: string, { units, path }: Reading): LegRequest => {
  const refuse = refusals(path);
  const start = STOCK_WORD.exec(text)?.index;
  const direction = text.slice(0, start).trim();
  const clauses = readClauses(
    /^at\b/i.test(direction) ? direction : `at ${direction}`,
    ['at', 'up'],
    refuse,
    HINT(),
  );
  const heading = parseAngle(clauses.get('at') ?? '', { path });
  const rise = parseAngle(clauses.get('up') ?? '0', { path });
  if (Math.abs(rise) > Math.PI / 2 + 1e-12)
    throw requestError(
      path,
      'out-of-range',
      say`a leg rises by more than a quarter turn`,
      say`give -90 to 90 after up`,
    );
  return {
    heading,
    rise,
    stock: start === undefined ? undefined : parseStock(text.slice(start), { units, path }, closedKinds),
  };
};

/** A leg by its direction. */
export const legField = (help: string): Field<readonly LegRequest[]> =>
  parsedField(help, {
    kind: 'designation',
    symbol: 'LEG',
    example: '120 up 30',
    many: true,
    parse: parseLeg,
  });

/** A leg in space: the plan is the xy plane, its heading 0 along +x, up is +z, the axes cross at the origin. */
export interface Leg {
  /** Counted from 1, as the sheets name it. */
  readonly number: number;
  readonly stock: Stock;
  readonly heading: number;
  readonly rise: number;
  /** Unit direction of the axis away from the crossing. */
  readonly out: Vec3;
  /** The leg's stock frame: z runs toward the crossing, station 0 is on top. */
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}

/**
 * Places a leg. Station 0 is the leg's top line; on a leg that stands upright it is the line away from the heading, as it
 * is while the leg is being raised.
 */
export const placeLeg = ({ heading, rise }: LegRequest, stock: Stock, number: number): Leg => {
  const level = vec3(Math.cos(heading), Math.sin(heading), 0);
  const up = vec3(0, 0, 1);
  const out = add3(scale3(level, Math.cos(rise)), scale3(up, Math.sin(rise)));
  const x = sub3(scale3(up, Math.cos(rise)), scale3(level, Math.sin(rise)));
  // y = z × x with z = -out, which lies level: to the left of one who looks out along the leg.
  const y = vec3(-Math.sin(heading), Math.cos(heading), 0);
  return { number, stock, heading, rise, out, x, y, z: scale3(out, -1) };
};

/** The angle about a leg's axis from its station 0 to the side that faces a direction, radians. */
export const facing = (leg: Leg, direction: Vec3): number => {
  const v = intoAxes(leg, direction);
  return Math.atan2(v.y, v.x);
};

/** The position on a leg's outside that faces a direction, mm. */
export const facingPosition = (leg: Leg, direction: Vec3): number => {
  const { round, outline } = leg.stock;
  const angle = facing(leg, direction);
  return round === undefined ? positionToward(outline, angle) : angle * round;
};
