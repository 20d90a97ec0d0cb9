import type { Sheet } from '../../../drawing/model.ts';
import { developEnd } from '../../../geometry/development.ts';
import type { Contact } from '../../../geometry/reach.ts';
import { angleBetween } from '../../../geometry/vector.ts';
import type { Stock } from '../../../stock/stock.ts';
import { say } from '../../../words/say.ts';
import { HEADER_AXIS, legMate, usualContact, type WyeJoint } from './wye-joint.ts';
import { type Leg } from './wye-leg.ts';

/** Cut lines no farther apart than this are one, mm: they are found by searches that end within less. */
const SAME_LINE = 2e-3;
const STATIONS = 72;

/** The first leg before this one that becomes it when it is rolled 180° about its axis; only of round stock. */
export const rolledTwin = (joint: WyeJoint, leg: Leg, contact: Contact | undefined): Leg | undefined => {
  const { round, wall, girth } = leg.stock;
  if (round === undefined) return undefined;
  const reach = (one: Leg): ((s: number) => number) =>
    developEnd(one.stock.outline, {
      mate: legMate(joint, one),
      contact: contact ?? usualContact(joint, one),
      gap: 0,
    }).ordinate;
  const own = reach(leg);
  const isRolled = (other: Leg): boolean => {
    if (other.stock.round !== round || other.stock.wall !== wall || other.stock.girth !== girth) return false;
    const its = reach(other);
    return Array.from({ length: STATIONS }, (_, i) => (i * girth) / STATIONS).every(
      (s) => Math.abs(own(s + girth / 2) - its(s)) < SAME_LINE,
    );
  };
  return joint.legs.slice(0, leg.number - 1).find(isRolled);
};

/** What a leg's sheet says of its twin. */
export const sameLeg = (twin: Leg | undefined): Pick<Sheet, 'sameAs'> =>
  twin === undefined
    ? {}
    : {
        sameAs: {
          sheet: `leg ${twin.number}`,
          how: say`rolled 180° about its axis: the line named TOP goes underneath`,
        },
      };

/** What the sheet of a leg's opening says of its twin's, where the two lie alike on a round header to either side of the square line. */
export const sameOpening = (leg: Leg, twin: Leg | undefined, header: Stock): Pick<Sheet, 'sameAs'> => {
  if (twin === undefined || header.round === undefined) return {};
  const [own, its] = [leg, twin].map(({ out }) => ({
    lean: angleBetween(out, HEADER_AXIS),
    aside: Math.atan2(out.y, out.z),
  }));
  if (!own || !its) return {};
  const isMirrored = Math.abs(own.lean + its.lean - Math.PI) < 1e-9 && Math.abs(own.aside - its.aside) < 1e-9;
  return isMirrored
    ? {
        sameAs: {
          sheet: `header opening ${twin.number}`,
          how: say`turned end for end: directions 0° and 180° change places`,
        },
      }
    : {};
};
