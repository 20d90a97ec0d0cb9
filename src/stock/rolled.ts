import {
  angleSection,
  beamSection,
  channelSection,
  type AngleSizes,
  type FlangedSizes,
} from '../geometry/shapes.ts';
import type { Section } from '../geometry/section.ts';
import { plainText, type Refusal } from '../units/notation.ts';
import { tableRows } from './clauses.ts';
import { nearestLabels } from './neighbors.ts';
import { ANGLES_US_INCH } from './tables/angles-us-inch.ts';
import { BEAMS_US_INCH } from './tables/beams-us-inch.ts';
import { CHANNELS_US_INCH } from './tables/channels-us-inch.ts';
import { SECTIONS_EU_MM } from './tables/sections-eu-mm.ts';

import { say } from '../words/say.ts';

/** Sizes of a rolled section, mm. */
export type RolledSizes =
  ({ readonly kind: 'angle' } & AngleSizes) | ({ readonly kind: 'channel' | 'beam' } & FlangedSizes);

/** A rolled section of a table. */
export interface Rolled {
  /** As printed, such as `W 8x31`; reads back as the same section. */
  readonly designation: string;
  readonly source: string;
  readonly sizes: RolledSizes;
  /** Mass as the table gives it, kg/m. */
  readonly mass: number;
  /** The table's own distance from the outside of the flange to the end of the fillet, mm, where it gives one. */
  readonly k: number | undefined;
}

/** Inches as mm without the noise of a product: tables give at most four decimals. */
export const fromInches = (inches: number): number => Math.round(inches * 254_000) / 10_000;
const LB_PER_FOOT = 0.45359237 / 0.3048;

/** Rise of the inside of S, C and MC flanges (1 in 6, ASTM A6) and of UPN ones (EN 10365: 8 % up to 300 mm, 5 % above). */
const AMERICAN_TAPER = 1 / 6;
const EUROPEAN_TAPER = (depth: number): number => (depth <= 300 ? 0.08 : 0.05);
/** Toes of American angles are rounded by this part of leg or fillet: common practice, no source; it agrees with the table's weights. */
const TOE_SHARE = 0.75;

/** The section that sizes make. */
export const rolledSection = (sizes: RolledSizes): Section =>
  sizes.kind === 'angle'
    ? angleSection(sizes)
    : sizes.kind === 'channel'
      ? channelSection(sizes)
      : beamSection(sizes);

/** Radius of a rounding between a web and a flange inclined by `taper` that is `trim` long on the web. */
const filletOf = (trim: number, taper: number): number =>
  Math.max(0, trim) / Math.tan((Math.PI / 2 - Math.atan(taper)) / 2);

const fraction = (text: string): number =>
  text.split('-').reduce((sum, part) => {
    const [n = 0, d = 1] = part.split('/').map(Number);
    return sum + n / d;
  }, 0);

const american = ([type = '', label = '', ...columns]: readonly string[]): Rolled => {
  const [depth = 0, width = 0, web = 0, flange = 0, k = 0, weight = 0] = columns.map(Number);
  const source = say`AISC dimensions (inch table)`;
  const mass = weight * LB_PER_FOOT;
  const designation = `${type} ${label.slice(type.length).toLowerCase()}`;
  const row = { designation, source, mass, k: fromInches(k) };
  if (type === 'L') {
    const root = fromInches(k - web);
    // The table rounds sixteenths to three decimals; the label does not.
    const thickness = fromInches(fraction(label.split('X').at(-1) ?? ''));
    const [long, short] = [Math.max(depth, width), Math.min(depth, width)].map(fromInches) as [
      number,
      number,
    ];
    const toe = TOE_SHARE * Math.min(root, thickness);
    return { ...row, sizes: { kind: 'angle', long, short, thickness, root, toe } };
  }
  const kind = type === 'C' || type === 'MC' ? 'channel' : 'beam';
  const taper = kind === 'channel' || type === 'S' ? AMERICAN_TAPER : 0;
  const overhang = kind === 'channel' ? width - web : (width - web) / 2;
  const atWeb = flange + (taper * overhang) / 2;
  return {
    ...row,
    sizes: {
      kind,
      depth: fromInches(depth),
      width: fromInches(width),
      web: fromInches(web),
      flange: fromInches(flange),
      root: filletOf(fromInches(k - atWeb), taper),
      toe: 0,
      taper,
      meanAt: fromInches(overhang / 2),
    },
  };
};

const european = ([type = '', label = '', ...columns]: readonly string[]): Rolled => {
  const [depth = 0, width = 0, web = 0, flange = 0, root = 0, toe = 0, mass = 0] = columns.map(Number);
  const name = type === 'L' ? `-${label}` : label.slice(type.length);
  const designation = `${type}${name.replaceAll('-', ' ').replaceAll('.0', '')}`;
  const row = { designation, mass, k: undefined };
  if (type === 'L') {
    const [long, short] = [Math.max(depth, width), Math.min(depth, width)];
    return {
      ...row,
      source: say`EN 10056-1 sizes (mm table)`,
      sizes: { kind: 'angle', long, short, thickness: web, root, toe },
    };
  }
  const taper = type === 'UPN' ? EUROPEAN_TAPER(depth) : 0;
  // EN 10365 measures a tapered flange in the middle of its whole width, above 300 mm of what stands free of the web.
  const meanAt = depth <= 300 ? width / 2 : (width - web) / 2;
  return {
    ...row,
    source: say`EN 10365 sizes (mm table)`,
    sizes: {
      kind: type.startsWith('UP') ? 'channel' : 'beam',
      depth,
      width,
      web,
      flange,
      root,
      toe,
      taper,
      meanAt,
    },
  };
};

/** Every section of the tables, American ones first. */
export const rolledSections = (): readonly Rolled[] => [
  ...[BEAMS_US_INCH, CHANNELS_US_INCH, ANGLES_US_INCH].flatMap(tableRows).map(american),
  ...tableRows(SECTIONS_EU_MM).map(european),
];

/** One spelling of a label: `4x3-1/2x1/2`, `200b`, `200x100`. `HEB 200` is `HE 200 B`. */
const keyOf = (family: string, size: string): string => {
  const plain = plainText(size)
    .replace(/ ?[x×] ?/g, 'x')
    .replace(/(\d) (?=\d+\/)/g, '$1-');
  const joined = family.startsWith('he') || family === 'ipe' ? plain.replace(/[ -]/g, '') : plain;
  return family.length === 3 && family.startsWith('he')
    ? `he ${joined}${family[2] ?? ''}`
    : `${family} ${joined}`;
};

const keyOfLabel = (designation: string): string => {
  const [family = '', ...rest] = designation.split(' ');
  return keyOf(family.toLowerCase(), rest.join(' '));
};

/**
 * The section of a table by its family (`w`, `ipe`) and the size after it (`8x31`, `200`, `3x3x1/4`). Refuses a size that is in
 * neither table, naming its nearest neighbors.
 */
export function findRolled(family: string, size: string, refuse: Refusal): Rolled {
  const key = keyOf(family, size);
  const all = rolledSections();
  const found = all.find(({ designation }) => keyOfLabel(designation) === key);
  if (found) return found;
  const own = key.split(' ')[0] ?? '';
  const family_ = all.filter(({ designation }) => designation.toLowerCase().startsWith(`${own} `));
  throw refuse(
    'unknown-size',
    size === ''
      ? say`${family.toUpperCase()} has no size after it`
      : say`${family.toUpperCase()} ${size} is not in the tables`,
    say`its neighbors are ${nearestLabels(
      family_.map(({ designation }) => designation),
      key,
    ).join(', ')}`,
  );
}
