import { formatAsWritten, formatMm } from '../units/format.ts';
import { parseLength, type LengthOptions } from '../units/length.ts';
import { quoted, refusals, type Refusal } from '../units/notation.ts';
import { readClauses } from './clauses.ts';

/** A square or rectangular tube. Lengths in mm. */
export interface Tube {
  /** As printed; reads back as the same tube. */
  readonly designation: string;
  /** Outside, the first side given. */
  readonly width: number;
  readonly height: number;
  readonly wall: number;
  /** Outside radius of the four corners. */
  readonly cornerRadius: number;
  /** Girth of the outside along flats and corners. */
  readonly girth: number;
  /** Where the corner radius comes from: `given`, `measured girth` or the assumption made. */
  readonly source: string;
  /** True where the girth was measured on the tube itself. */
  readonly measured: boolean;
}

const HINT = 'write tube 100x100x6mm, tube 4x3x1/4in corner 1/2in or tube 100x100x6mm girth 380mm';

/** How much shorter the girth is than that of sharp corners, for each unit of corner radius. */
const CORNER_SAVING = 8 - 2 * Math.PI;

/** Outside girth of a rectangle with rounded corners, mm: 2(w + h) − (8 − 2π)·r. */
export const tubeGirth = (width: number, height: number, cornerRadius: number): number =>
  2 * (width + height) - CORNER_SAVING * cornerRadius;

/**
 * Reads a square or rectangular tube: `tube 100x100x6mm`, `tube 4x3x1/4in corner 1/2in`, `tube 100x100x6mm girth 380mm`;
 * the last unit serves the sides without one. The outside corner radius is as given, or follows from the measured girth,
 * or is taken as twice the wall (common practice for ASTM A500 tube, whose limit is three times) and `source` says so.
 * Throws a request error where wall, corner or girth cannot be.
 */
export function parseTube(text: string, { units, path = 'tube' }: LengthOptions = {}): Tube {
  const refuse = refusals(path);
  const clauses = readClauses(text, ['tube', 'corner', 'girth'], refuse, HINT);
  const sides = (clauses.get('tube') ?? '').split(/ ?[x×] ?/);
  if (sides.length !== 3 || sides.includes('')) {
    throw refuse('not-understood', `${quoted(text)} is not width x height x wall of a tube`, HINT);
  }
  if (clauses.has('corner') && clauses.has('girth')) {
    throw refuse(
      'two-corners',
      'the tube has both a corner and a girth',
      'give one of them: each sets the other',
    );
  }
  const unit = /(?:[a-z]+\.?|["'])$/.exec(sides[2] ?? '')?.[0] ?? '';
  const written = sides.map((side) => (/[a-z"']/.test(side) ? side : `${side}${unit}`));
  const [width = 0, height = 0, wall = 0] = written.map((side) => parseLength(side, { units, path }));
  const given = clauses.has('corner') ? 'corner' : clauses.has('girth') ? 'girth' : undefined;
  const value = given && parseLength(clauses.get(given) ?? '', { units, path });
  checkSides(width, height, wall, refuse);

  const cornerRadius =
    value === undefined
      ? 2 * wall
      : given === 'girth'
        ? (2 * (width + height) - value) / CORNER_SAVING
        : value;
  const girth = given === 'girth' && value !== undefined ? value : tubeGirth(width, height, cornerRadius);
  checkCorner({ width, height, cornerRadius }, given === 'girth' ? girth : undefined, refuse);

  const names = [width, height, wall].map((side, i) => formatAsWritten(side, written[i] ?? '', units));
  const corner = given ? ` ${given} ${formatAsWritten(value ?? 0, clauses.get(given) ?? '', units)}` : '';
  return {
    designation: `tube ${names.join(' x ')}${corner}`,
    width,
    height,
    wall,
    cornerRadius,
    girth,
    source:
      given === 'corner' ? 'given' : given === 'girth' ? 'measured girth' : 'corner radius taken as 2 × wall',
    measured: given === 'girth',
  };
}

function checkSides(width: number, height: number, wall: number, refuse: Refusal): void {
  const least = Math.min(width, height);
  if (least <= 0 || wall <= 0) {
    throw refuse('size-not-positive', "the tube's sides and wall are not all above zero", HINT);
  }
  if (wall >= least / 2) {
    throw refuse(
      'wall-past-middle',
      `the wall ${formatMm(wall, 2)} leaves no bore in a tube of ${formatMm(least, 2)}`,
      `give a wall below ${formatMm(least / 2, 2)}`,
    );
  }
}

function checkCorner(
  { width, height, cornerRadius }: Pick<Tube, 'width' | 'height' | 'cornerRadius'>,
  girth: number | undefined,
  refuse: Refusal,
): void {
  const most = Math.min(width, height) / 2;
  if (cornerRadius >= 0 && cornerRadius <= most) return;
  const [low, high] = [tubeGirth(width, height, most), tubeGirth(width, height, 0)];
  throw girth === undefined
    ? refuse(
        'corner-off-size',
        `the corner radius ${formatMm(cornerRadius, 2)} does not fit the tube`,
        `give a corner from 0 to ${formatMm(most, 2)}`,
      )
    : refuse(
        'girth-off-size',
        `the girth ${formatMm(girth, 2)} is not that of a tube ${formatMm(width)} x ${formatMm(height)}`,
        `give a girth from ${formatMm(low, 2)} (round corners) to ${formatMm(high, 2)} (sharp corners)`,
      );
}
