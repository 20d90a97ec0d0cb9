import { requestError } from '../issue.ts';
import { findNearMiss } from '../near-miss.ts';
import { parseLength } from '../units/length.ts';
import { checkIsText } from '../words/wrong-type.ts';
import { say } from '../words/say.ts';

/**
 * What the printer is fed: a sheet, given upright (its shorter side across), or a roll of fixed width from which as
 * much is drawn as the page needs. Lengths in mm.
 */
export type Paper =
  | { readonly kind: 'sheet'; readonly name: string; readonly width: number; readonly height: number }
  | { readonly kind: 'roll'; readonly name: string; readonly width: number };

/** The longest side a page may have, mm: 14 400 units of 1/72 in (ISO 32000-1, annex C.2). */
export const longestSide = 5080;

const inch = 25.4;

/** ISO 216:2007, trimmed sizes in mm. */
const iso: ReadonlyMap<string, readonly [number, number]> = new Map(
  Object.entries({
    a0: [841, 1189],
    a1: [594, 841],
    a2: [420, 594],
    a3: [297, 420],
    a4: [210, 297],
    a5: [148, 210],
    a6: [105, 148],
    b0: [1000, 1414],
    b1: [707, 1000],
    b2: [500, 707],
    b3: [353, 500],
    b4: [250, 353],
    b5: [176, 250],
    b6: [125, 176],
  } as const),
);

/** ANSI/ASME Y14.1 sizes A to E, the architectural sizes of the same standard, and office papers, in inches. */
const inches: ReadonlyMap<string, readonly [number, number]> = new Map(
  Object.entries({
    letter: [8.5, 11],
    legal: [8.5, 14],
    tabloid: [11, 17],
    'ansi-a': [8.5, 11],
    'ansi-b': [11, 17],
    'ansi-c': [17, 22],
    'ansi-d': [22, 34],
    'ansi-e': [34, 44],
    'arch-a': [9, 12],
    'arch-b': [12, 18],
    'arch-c': [18, 24],
    'arch-d': [24, 36],
    'arch-e': [36, 48],
    'arch-e1': [30, 42],
  } as const),
);

const rolls: ReadonlyMap<string, number> = new Map(
  Object.entries({
    '24in-roll': 24 * inch,
    '36in-roll': 36 * inch,
    '42in-roll': 42 * inch,
    '610mm-roll': 610,
    '914mm-roll': 914,
  }),
);

/** Every paper that has a name, in the order of the table. */
export const paperNames: readonly string[] = [...iso.keys(), ...inches.keys(), ...rolls.keys()];

const sheet = (name: string, width: number, height: number): Paper => ({
  kind: 'sheet',
  name,
  width: Math.min(width, height),
  height: Math.max(width, height),
});

const namedPaper = (name: string): Paper | undefined => {
  const metric = iso.get(name);
  if (metric) return sheet(name, metric[0], metric[1]);
  const office = inches.get(name);
  if (office) return sheet(name, office[0] * inch, office[1] * inch);
  const roll = rolls.get(name);
  return roll === undefined ? undefined : { kind: 'roll', name, width: roll };
};

const checkSide = (side: number, shown: string, path: string): number => {
  if (side > 0 && side <= longestSide) return side;
  throw requestError(
    path,
    'paper-size',
    say`${path} "${shown}" has a side of ${side} mm`,
    say`give sides over 0 and up to ${longestSide} mm (200 in), the largest page a PDF can have`,
  );
};

/** A size of one's own: `300x500mm`, `12x18in`, `12in x 18in`, `8-1/2x14in`. */
const ownSize = (plain: string, shown: string, path: string): Paper | undefined => {
  const parts = /^([\d][^x]*?)\s*[x×]\s*([\d].*)$/.exec(plain);
  const [first, second] = [parts?.[1], parts?.[2]];
  if (first === undefined || second === undefined) return undefined;
  const unit = /[a-z"'″′]+$/.exec(second)?.[0] ?? '';
  const across = /\d$/.test(first) ? first + unit : first;
  const [width, height] = [across, second].map((side) => checkSide(parseLength(side, { path }), shown, path));
  return width === undefined || height === undefined
    ? undefined
    : sheet(plain.replaceAll(' ', ''), width, height);
};

/** A roll of one's own width: `30in-roll`, `841mm-roll`. */
const ownRoll = (plain: string, shown: string, path: string): Paper | undefined => {
  const width = /^(\d.*?)[ -]?roll$/.exec(plain)?.[1];
  if (width === undefined) return undefined;
  return { kind: 'roll', name: plain, width: checkSide(parseLength(width, { path }), shown, path) };
};

/** Sheets that are called by their inches alone. */
const bareInches: ReadonlyMap<string, string> = new Map([
  ['8.5x11', 'letter'],
  ['8.5x14', 'legal'],
  ['11x17', 'tabloid'],
]);

/**
 * Reads a paper: a name (`letter`, `a4`, `arch-d`, `24in-roll`), a width and height with units, or a roll by its
 * width. Throws a request error that gives the nearest name.
 */
export const parsePaper = (text: string, path = 'paper'): Paper => {
  checkIsText(text, path, 'letter');
  const plain = text.trim().toLowerCase().replace(/\s+/g, ' ');
  const dashed = plain.replace(/[ _]/g, '-');
  const known =
    namedPaper(bareInches.get(plain.replace(/ ?[x×] ?/, 'x')) ?? '') ??
    namedPaper(dashed) ??
    namedPaper(dashed.replaceAll('-', '')) ??
    namedPaper(dashed.replace(/^(ansi|arch)-?/, '$1-'));
  const paper = known ?? ownSize(plain, text, path) ?? ownRoll(plain, text, path);
  if (paper) return paper;
  const near = findNearMiss(dashed, paperNames);
  throw requestError(
    path,
    'unknown-paper',
    say`${path} "${text}" is not a paper`,
    near !== undefined
      ? say`did you mean ${near}? A size of your own reads 300x500mm or 12x18in`
      : say`give letter, legal, tabloid, a0 to a6, b0 to b6, ansi-a to ansi-e, arch-a to arch-e1, 24in-roll, or a size like 300x500mm`,
  );
};
