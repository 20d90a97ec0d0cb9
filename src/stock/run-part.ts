import { formatAngle, parseAngle } from '../units/angle.ts';
import { parseLength } from '../units/length.ts';
import { plainText, quoted, refusals } from '../units/notation.ts';
import { readClauses, tableRows } from './clauses.ts';
import { isElbowSize, parseElbow } from './elbow.ts';
import { parseFlangeEnd } from './flange-length.ts';
import { parseReducer } from './reducer.ts';
import { findRows, tableName, type SizeSystem } from './size.ts';
import { TEE_CAP_B16_9 } from './tables/tee-cap-b16-9.ts';
import { say, translate } from '../words/say.ts';

/** How a part joins what stands next to it: a butt weld, a bolted face, a socket, or a pipe slipped in. */
export type Joining = 'weld' | 'face' | 'socket' | 'slip-on' | 'none';

/** A fitting, flange or other part in a run of pipe. Lengths in mm along the run. */
export interface RunPart {
  /** As printed; reads back as the same part. */
  readonly designation: string;
  readonly kind: 'elbow' | 'tee' | 'cap' | 'reducer' | 'flange' | 'given';
  /** From the point a drawing dimensions it at to where its pipe ends; undefined for a part that only stands between. */
  readonly takeOff: number;
  /** End to end, where the run goes straight through it. */
  readonly through: number | undefined;
  /** What the drawing dimensions it at. */
  readonly point: 'center' | 'face' | 'end';
  /** How it joins at its outer side, where a run begins or ends with it, and toward the pipe. */
  readonly outer: Joining;
  readonly inner: Joining;
  readonly source: string;
}

/** How far a pipe is pulled back from the bottom of its socket, mm: 1/16 in (ASME B16.11 and B31 practice, second-hand). */
export const PULL_BACK = 25.4 / 16;

const HINT = () =>
  say`write parts like elbow NPS 6 LR, tee NPS 6, cap NPS 6, reducer NPS 6 x 4, flange NPS 6 class 150 weld-neck or valve 267mm`;

const readElbowPart = (text: string, path: string): RunPart => {
  const refuse = refusals(path);
  // The change of direction stands last, alone or after the word turn.
  const plain = plainText(text);
  const trimmed = /^(.*(?<![a-z])(?:lr|sr)) +(?:turn +)?(\d.*)$/.exec(plain);
  const [body = plain, turnText] = trimmed?.slice(1) ?? [];
  const elbow = parseElbow(body, { path });
  const turn = turnText === undefined ? Math.PI / 2 : parseAngle(turnText, { path });
  const degrees = (turn * 180) / Math.PI;
  if (turn <= 0 || degrees > 90 + 1e-9)
    throw refuse(
      'turn-out-of-range',
      say`an elbow cannot turn ${formatAngle(turn)}`,
      say`give a turn up to 90°`,
    );
  const near = (angle: number): boolean => Math.abs(degrees - angle) < 1e-9;
  const table = near(90) ? elbow.takeOff90 : near(45) ? elbow.takeOff45 : undefined;
  const takeOff = table ?? elbow.bendRadius * Math.tan(turn / 2);
  return {
    designation: near(90) ? elbow.designation : `${elbow.designation} ${Number(degrees.toFixed(6))}°`,
    kind: 'elbow',
    takeOff,
    through: undefined,
    point: 'center',
    outer: 'weld',
    inner: 'weld',
    source: table === undefined ? say`radius × tan(turn / 2), trimmed` : elbow.source,
  };
};

const readTableRow = (
  word: 'tee' | 'cap',
  text: string,
  path: string,
): { readonly name: string; readonly length: number; readonly source: string } => {
  const refuse = refusals(path);
  const clauses = readClauses(text, [word, 'nps', 'dn', 'length'], refuse, say`write ${word} NPS 6`);
  const system: SizeSystem = clauses.has('nps') ? 'NPS' : 'DN';
  const size = clauses.get(system.toLowerCase());
  if (size === undefined || clauses.get(word) || (clauses.has('nps') && clauses.has('dn')))
    throw refuse(
      'not-understood',
      say`${quoted(text)} is not a ${translate(word)} and its size`,
      say`write ${word} NPS 6`,
    );
  // A reducing tee's run is as long as a straight one of its run's size.
  const [run = ''] = size.split(/ ?[x×] ?/);
  const [row = []] = findRows(tableRows(TEE_CAP_B16_9), { NPS: 0, DN: 1 }, system, run, 'ASME B16.9', refuse);
  const own = clauses.get('length');
  if (own !== undefined) {
    const length = givenLength(own, word, path);
    return { name: `${word} ${system} ${size} length ${own}`, length, source: say`given` };
  }
  const column = (word === 'tee' ? 2 : 3) + (system === 'NPS' ? 0 : 2);
  return {
    name: `${word} ${system} ${size}`,
    length: parseLength(row[column] ?? '', { units: system === 'NPS' ? 'in' : 'mm' }),
    source: say`ASME B16.9 ${tableName(system)}, from memory`,
  };
};

/** A length that is measured on a kind of part. */
const givenLength = (text: string, kind: string, path: string): number => {
  const length = parseLength(text, { path });
  if (length > 0) return length;
  throw refusals(path)(
    'not-positive',
    say`the length of the ${translate(kind)} is not above zero`,
    say`give a length above zero`,
  );
};

const butt = { outer: 'weld', inner: 'weld' } as const;

const readTee = (text: string, path: string): RunPart => {
  const { name, length, source } = readTableRow('tee', text, path);
  return {
    designation: name,
    kind: 'tee',
    takeOff: length,
    through: 2 * length,
    point: 'center',
    ...butt,
    source,
  };
};

const readCap = (text: string, path: string): RunPart => {
  const { name, length, source } = readTableRow('cap', text, path);
  return {
    designation: name,
    kind: 'cap',
    takeOff: length,
    through: undefined,
    point: 'end',
    outer: 'none',
    inner: 'weld',
    source,
  };
};

const readReducerPart = (text: string, path: string): RunPart => {
  const { designation, length, source } = parseReducer(text, { path });
  return { designation, kind: 'reducer', takeOff: length, through: length, point: 'end', ...butt, source };
};

const readFlangePart = (text: string, path: string): RunPart => {
  const { designation, kind, takeOff, source } = parseFlangeEnd(text, { path });
  const inner = kind === 'weld-neck' ? 'weld' : kind;
  return {
    designation,
    kind: 'flange',
    takeOff,
    through: takeOff,
    point: 'face',
    outer: 'face',
    inner,
    source,
  };
};

/** A part by its own length: `valve 267mm`, `valve 267mm flanged`, `coupling 48mm socket 13mm`. */
const readGiven = (text: string, path: string): RunPart => {
  const refuse = refusals(path);
  const plain = plainText(text);
  const [, name = '', length = '', rest = ''] =
    /^([a-z][a-z ().-]*?) ?([\d.].*?)(?: +(flanged|welded|socket.*))?$/.exec(plain) ?? [];
  if (name === '' || length === '')
    throw refuse('not-understood', say`${quoted(text)} is not a known part`, HINT());
  const own = parseLength(length, { path });
  if (own <= 0)
    throw refuse(
      'not-positive',
      say`the length of ${quoted(text)} is not above zero`,
      say`give a length above zero`,
    );
  const socket = /^socket ?(.*)$/.exec(rest)?.[1];
  const depth = socket === undefined ? 0 : parseLength(socket, { path });
  if (2 * depth >= own)
    throw refuse(
      'socket-too-deep',
      say`two sockets of ${socket ?? ''} do not fit in ${length}`,
      say`give the depth of one socket`,
    );
  const joining: Joining = rest === 'flanged' ? 'face' : socket === undefined ? 'weld' : 'socket';
  return {
    designation: [name, length, rest].filter((part) => part !== '').join(' '),
    kind: 'given',
    takeOff: own - depth,
    through: own - 2 * depth,
    point: rest === 'flanged' ? 'face' : 'end',
    outer: joining,
    inner: joining,
    source: 'given',
  };
};

/** A kind of part by the length that is measured on it: `tee 105mm`, `elbow 152mm`, `flange 90mm`. */
const readMeasured = (
  kind: 'elbow' | 'tee' | 'cap' | 'reducer' | 'flange',
  length: string,
  path: string,
): RunPart => {
  const own = givenLength(length, kind, path);
  const through = { elbow: undefined, cap: undefined, tee: 2 * own, reducer: own, flange: own }[kind];
  const point = { elbow: 'center', tee: 'center', cap: 'end', reducer: 'end', flange: 'face' } as const;
  const outer = { elbow: 'weld', tee: 'weld', cap: 'none', reducer: 'weld', flange: 'face' } as const;
  return {
    designation: `${kind} ${length}`,
    kind,
    takeOff: own,
    through,
    point: point[kind],
    outer: outer[kind],
    inner: 'weld',
    source: 'given',
  };
};

/**
 * Reads a part of a run: an ASME B16.9 elbow (90° where nothing else is said), tee or cap (both by their own `length` where it
 * is given), or reducer, an ASME B16.5 flange, one of
 * these by a length measured on it, or anything else with a length of its own. Throws a request error for anything else.
 */
export function parseRunPart(text: string, { path = 'part' }: { readonly path?: string } = {}): RunPart {
  const [, word = '', rest = ''] = /^([a-z]*) ?(.*)$/.exec(plainText(text)) ?? [];
  const measured = /^(elbow|tee|cap|reducer|flange)$/.exec(word)?.[0];
  if (measured !== undefined && /^[\d.]/.test(rest) && !isElbowSize(rest))
    return readMeasured(measured as 'elbow', rest, path);
  switch (word) {
    case 'elbow':
      return readElbowPart(text, path);
    case 'tee':
      return readTee(text, path);
    case 'cap':
      return readCap(text, path);
    case 'reducer':
      return readReducerPart(text, path);
    case 'flange':
      return readFlangePart(text, path);
    default:
      return readGiven(text, path);
  }
}
