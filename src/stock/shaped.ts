import { contourOutline } from '../geometry/contour-outline.ts';
import { turnSection } from '../geometry/section.ts';
import { formatAngle, parseAngle } from '../units/angle.ts';
import { formatAsWritten } from '../units/format.ts';
import { parseLength, type LengthOptions } from '../units/length.ts';
import { plainText, quoted, refusals } from '../units/notation.ts';
import { say } from '../words/say.ts';
import { readClauses } from './clauses.ts';
import { readFlat, readHalfRound, readHollow, readRounded, readTube } from './closed-shapes.ts';
import { readAngle, readFlanged, readRolled } from './open-shapes.ts';
import { shapedLines } from './shaped-lines.ts';
import { FORMS, type Read, type Reading } from './shaped-sizes.ts';
import type { Stock, StockKind } from './stock.ts';

/** Words that may follow the sizes of each form. */
const WORDS: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries({
    tube: ['corner', 'girth'],
    hss: ['corner', 'girth'],
    'en 10219': ['corner', 'girth'],
    'en 10210': ['corner', 'girth'],
    angle: ['root', 'toe'],
    channel: ['root', 'toe', 'taper'],
    beam: ['root', 'toe', 'taper'],
    oval: ['wall', 'girth'],
    ellipse: ['wall', 'girth'],
    'half-round': ['wall', 'girth'],
  }),
);

/** What kind of stock each first word begins. */
const KINDS: ReadonlyMap<string, StockKind> = new Map(
  Object.entries({
    tube: 'tube',
    hss: 'tube',
    'en 10219': 'tube',
    'en 10210': 'tube',
    flat: 'flat',
    angle: 'angle',
    l: 'angle',
    channel: 'channel',
    c: 'channel',
    mc: 'channel',
    upn: 'channel',
    upe: 'channel',
    beam: 'beam',
    w: 'beam',
    s: 'beam',
    m: 'beam',
    hp: 'beam',
    ipe: 'beam',
    he: 'beam',
    hea: 'beam',
    heb: 'beam',
    hem: 'beam',
    oval: 'oval',
    ellipse: 'ellipse',
    'half-round': 'half-round',
  } as const),
);

const HEAD = new RegExp(`^(${[...KINDS.keys()].sort((a, b) => b.length - a.length).join('|')})(?![a-z])`);

const plainWords = (text: string): string => text.trim().replace(/^half round/i, 'half-round');

const headOf = (text: string): string | undefined => HEAD.exec(plainText(plainWords(text)))?.[1];

/** The kind of shaped stock a designation begins as, or undefined where it is none. */
export const shapedKind = (text: string): StockKind | undefined => {
  const head = headOf(text);
  return head === undefined ? undefined : KINDS.get(head);
};

/** How each kind of shaped stock is written, for hints. */
export const SHAPE_FORMS =
  'tube 100x100x6mm, HSS 6x4x1/4, L 3x3x1/4, C 8x11.5, W 8x31, flat 100x10mm, oval 200x100mm wall 5mm';

/**
 * Reads straight stock that is not a round pipe: `tube 100x100x6mm`, `HSS 6x4x1/4`, `EN 10219 100x60x5`, `L 3x3x1/4`,
 * `C 8x11.5`, `W 8x31`, `IPE 200`, `HE 200 B`, `UPN 160`, `flat 100x10mm`, `angle 80x60x7mm`, `channel 152x49x5.1x8.7mm`,
 * `beam 200x100x5.6x8.5mm`, `oval 200x100mm wall 5mm`, `ellipse 200x100mm wall 5mm`, `half-round 100mm wall 5mm`; with
 * `turned 45deg` it is turned about its axis. Throws a request error that names the size at fault and its limit.
 */
export function parseShaped(text: string, { units, path = 'stock' }: LengthOptions = {}): Stock {
  const refuse = refusals(path);
  const plain = plainWords(text);
  const head = headOf(plain);
  if (head === undefined)
    throw refuse('not-understood', say`${quoted(text)} is not a kind of stock`, say`write ${SHAPE_FORMS}`);
  const hint = say`write ${FORMS().get(head) ?? say`${head.toUpperCase()} and a size of the table`}`;
  const clauses = readClauses(plain, [head, ...(WORDS.get(head) ?? []), 'turned'], refuse, hint);
  const options = { ...(units && { units }), path };
  const sizes = (clauses.get(head) ?? '').split(/ ?[x×] ?/);
  const reading: Reading = {
    head,
    sizes,
    clauses,
    options,
    refuse,
    length: (value) => parseLength(value, options),
    written: (value, as) => formatAsWritten(value, as, units),
  };
  const read = readerOf(head)(reading);
  const turned = clauses.has('turned') ? parseAngle(clauses.get('turned') ?? '', { path }) : 0;
  const section = turned === 0 ? read.section : turnSection(read.section, turned);
  const outline = contourOutline(section);
  return {
    measured: false,
    ...read,
    designation: turned === 0 ? read.designation : say`${read.designation} turned ${formatAngle(turned)}`,
    section,
    outline,
    wall: section.thickness,
    girth: outline.girth,
    lines: shapedLines(outline, read.kind),
  };
}

const readerOf = (head: string): ((reading: Reading) => Read) => {
  switch (head) {
    case 'tube':
      return readTube;
    case 'hss':
    case 'en 10219':
    case 'en 10210':
      return readHollow;
    case 'flat':
      return readFlat;
    case 'angle':
      return readAngle;
    case 'channel':
    case 'beam':
      return readFlanged;
    case 'oval':
    case 'ellipse':
      return readRounded;
    case 'half-round':
      return readHalfRound;
    default:
      return readRolled;
  }
};
