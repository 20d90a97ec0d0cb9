import type { Picture, Sheet } from '../../../drawing/model.ts';
import { dot3, scale3, vec3 } from '../../../geometry/vector.ts';
import { localAxes } from '../../../joint/bodies/body.ts';
import { pipeGround } from '../../../joint/bodies/pipe.ts';
import { boreSolid } from '../../../joint/stock-solid.ts';
import { describeStock } from '../../../sheets/band-words.ts';
import { openingSheet } from '../../../sheets/opening-sheet.ts';
import type { Pipe } from '../../../stock/pipe.ts';
import { stationNumber } from '../../../stock/station.ts';
import { formatAngle } from '../../../units/angle.ts';
import { lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { HEADER_AXIS } from './wye-joint.ts';
import { angleBetween, facing, type Leg } from './wye-leg.ts';

const QUARTER_TURN = Math.PI / 2;

/** To a hundredth of a degree, as it is set out. */
const roundAngle = (angle: number): number => (Math.round((angle * 18000) / Math.PI) * Math.PI) / 18000;

/** How far the header line that faces a leg lies from the header's top line, toward heading 90; radians in (-180, 180]. */
const fromTop = ({ out }: Leg): number => Math.atan2(out.y, out.z);

/**
 * The opening for one leg: its bore on the header's outside. Sheet frame: y along heading 0, origin on the header line that
 * faces the leg, abreast of the crossing. Where the openings of two legs run into each other each sheet still shows
 * its own, so that marking both leaves the outline of both.
 */
export const wyeOpening = (leg: Leg, header: Pipe, pictures: readonly Picture[], setting: Setting): Sheet => {
  // The leg in its own frame, on a header whose axis runs along heading 0.
  const angle = angleBetween(leg.z, HEADER_AXIS);
  const d = vec3(Math.sin(angle), 0, Math.cos(angle));
  const u = vec3(Math.cos(angle), 0, -Math.sin(angle));
  const ground = pipeGround(
    header,
    localAxes(vec3(0, 0, 0), u, vec3(0, 1, 0), d),
    setting.paperThickness / 2,
  );
  const zero = facing(leg, HEADER_AXIS);
  const number = (quarter: number): string => stationNumber(roundAngle(zero + quarter * QUARTER_TURN));
  const aside = fromTop(leg);
  const girth = (Math.abs(aside) / (2 * Math.PI)) * header.girth;
  const where =
    Math.abs(aside) < 1e-9
      ? 'its top line'
      : `${formatAngle(roundAngle(Math.abs(aside)))} from its top line toward direction ${aside > 0 ? 90 : 270}°, ${writeBoth(girth, setting)} around`;
  const shift = axisCrossing(leg, header);
  return openingSheet(
    {
      name: `header opening ${leg.number}`,
      heading: `Header opening, leg ${leg.number}`,
      ground,
      ask: {
        through: boreSolid(leg.pipe),
        clears: false,
        pierce: scale3(vec3(0, 0, 1), -header.round / Math.sin(angle)),
      },
      words: ['DIRECTION 0°', '', 'DIRECTION 180°', ''],
      numbers: [number(0), number(1), number(2), number(3)],
      about: [
        `Opening for leg ${leg.number}, ${leg.pipe.designation}: its bore on the header’s outside`,
        describeStock(header, setting),
        `${formatAngle(roundAngle(angleBetween(leg.out, HEADER_AXIS)))} between the leg and direction 0°`,
      ],
      strike: `Strike the header line that faces the leg: ${where}. Strike a square line around the header through the crossing.`,
      upper: 'the end marked direction 0° that way',
      after: [
        'Openings that run into each other are cut around the outside of both.',
        'Try the cut legs over the marks before you cut. Cut square to the surface, inside the line, then bevel as the joint asks.',
      ],
      facts: [
        Math.abs(shift) < 1e-9
          ? ['Leg’s axis', 'on the square line']
          : [
              `Leg’s axis from the square line, toward direction ${shift > 0 ? 0 : 180}°`,
              lengthOf(Math.abs(shift)),
            ],
      ],
      pictures,
    },
    setting,
  );
};

/** Where the leg's axis comes through the header's outside, along heading 0 from the crossing, mm. */
const axisCrossing = ({ out }: Leg, header: Pipe): number =>
  ((header.od / 2) * dot3(out, HEADER_AXIS)) / Math.hypot(out.y, out.z);
