import { plainText, type Refusal } from '../units/notation.ts';
import { tableRows } from './clauses.ts';
import { fromInches } from './rolled.ts';
import { nearestLabels } from './neighbors.ts';
import { TUBE_EN10210_MM } from './tables/tube-en10210-mm.ts';
import { TUBE_EN10219_MM } from './tables/tube-en10219-mm.ts';
import { TUBE_HSS_INCH } from './tables/tube-hss-inch.ts';
import { say } from '../words/say.ts';

/** A square or rectangular hollow section of a table, mm. */
export interface Hollow {
  /** As printed, such as `HSS 6x4x1/4` or `EN 10219 100x60x5`; reads back as the same tube. */
  readonly designation: string;
  readonly source: string;
  /** Outside, the first size of the designation. */
  readonly width: number;
  readonly height: number;
  readonly wall: number;
  /** Outside and inside radius of the corners. */
  readonly corner: number;
  readonly innerCorner: number;
  /** Mass as the table gives it, kg/m. */
  readonly mass: number;
}

const LB_PER_FOOT = 0.45359237 / 0.3048;

/**
 * The tubes of ASTM A500 with the outside corner at twice the nominal wall, by which the table's weights are reckoned; the
 * standard allows up to three times.
 */
const hss = ([label = '', ...columns]: readonly string[]): Hollow => {
  const [width = 0, height = 0, wall = 0, , weight = 0] = columns.map(Number);
  return {
    designation: `HSS ${label.slice(3).toLowerCase()}`,
    source: say`AISC dimensions (inch table), ASTM A500 corner taken as 2 × wall`,
    width: fromInches(width),
    height: fromInches(height),
    wall: fromInches(wall),
    corner: 2 * fromInches(wall),
    innerCorner: fromInches(wall),
    mass: weight * LB_PER_FOOT,
  };
};

const european = ([standard = '', label = '', ...columns]: readonly string[]): Hollow => {
  const [width = 0, height = 0, wall = 0, corner = 0, innerCorner = 0, mass = 0] = columns.map(Number);
  return {
    designation: `${standard} ${label.replaceAll('.0', '')}`,
    source: say`${standard} sizes and corners for calculation (mm table)`,
    width,
    height,
    wall,
    corner,
    innerCorner,
    mass,
  };
};

/** Every hollow section of the tables. */
export const hollowSections = (): readonly Hollow[] => [
  ...tableRows(TUBE_HSS_INCH).map(hss),
  ...[TUBE_EN10219_MM, TUBE_EN10210_MM].flatMap(tableRows).map(european),
];

const keyOf = (standard: string, size: string): string =>
  `${standard} ${plainText(size)
    .replace(/ ?[x×] ?/g, 'x')
    .replace(/(\d) (?=\d+\/)/g, '$1-')
    .replace(/(\d)\.0+(?!\d)/g, '$1')}`;

/**
 * The hollow section of a table by its standard (`HSS`, `EN 10219`, `EN 10210`) and size (`6x4x1/4`, `100x60x5`). Refuses a size
 * that is not there, naming its nearest neighbors.
 */
export function findHollow(standard: string, size: string, refuse: Refusal): Hollow {
  const own = hollowSections().filter(({ designation }) => designation.startsWith(`${standard} `));
  const key = keyOf(standard, size);
  const found = own.find(
    ({ designation }) => keyOf(standard, designation.slice(standard.length + 1)) === key,
  );
  if (found) return found;
  const labels = own.map(({ designation }) => designation.slice(standard.length + 1));
  throw refuse(
    'unknown-size',
    size === '' ? say`${standard} has no size after it` : say`${standard} ${size} is not in the table`,
    say`its neighbors are ${nearestLabels(labels, size)
      .map((label) => `${standard} ${label}`)
      .join(', ')}`,
  );
}
