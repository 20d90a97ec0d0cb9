import { parseLength } from '../units/length.ts';
import { plainText, quoted, refusals } from '../units/notation.ts';
import { tableRows } from './clauses.ts';
import { parseFlange } from './flange.ts';
import { findRows, tableName, type SizeSystem } from './size.ts';
import { FLANGE_B16_5_LENGTHS } from './tables/flange-b16-5-lengths.ts';
import { say, translate } from '../words/say.ts';

/** How a flange sits on its pipe. */
export type FlangeKind = 'weld-neck' | 'slip-on' | 'socket';

/** What a flange adds to its pipe's end, mm. */
export interface FlangeEnd {
  /** As printed; reads back as the same end. */
  readonly designation: string;
  readonly kind: FlangeKind;
  /** From the flange's face back to the pipe's end; a socket's pull-back is not in it. */
  readonly takeOff: number;
  readonly source: string;
}

/**
 * How far the end of a pipe stands back from the face of a slip-on flange where nothing is said, mm: 1/4 in.
 * Common practice, no source.
 */
export const SLIP_ON_BACK = 6.35;

const KINDS: ReadonlyMap<string, FlangeKind> = new Map(
  Object.entries({
    'weld-neck': 'weld-neck',
    'weld neck': 'weld-neck',
    'welding neck': 'weld-neck',
    'welding-neck': 'weld-neck',
    wn: 'weld-neck',
    'slip-on': 'slip-on',
    'slip on': 'slip-on',
    so: 'slip-on',
    socket: 'socket',
    'socket-weld': 'socket',
    sw: 'socket',
  } as const),
);
const KIND = new RegExp(`(?<![a-z-])(${[...KINDS.keys()].join('|')})(?![a-z-])`);
const HINT = () => say`write flange NPS 6 class 150 weld-neck, or slip-on, or socket`;

/**
 * Reads a flange as the end of a pipe: `flange NPS 6 class 150 weld-neck`, `flange DN 80 class 300 slip-on back 6mm`,
 * `flange NPS 2 class 150 socket`, or with its own length through the hub, `flange NPS 8 class 600 weld-neck length 133mm`,
 * which classes without a table need. Throws a request error for anything else.
 */
export function parseFlangeEnd(
  text: string,
  { path = 'flange' }: { readonly path?: string } = {},
): FlangeEnd {
  const refuse = refusals(path);
  const plain = plainText(text);
  const kind = KINDS.get(KIND.exec(plain)?.[1] ?? '');
  if (kind === undefined)
    throw refuse('no-kind', say`${quoted(text)} does not say how the flange is welded on`, HINT());
  const [, size = '', word, own = ''] =
    /^(.*?)(?:(?<![a-z])(length|back) ?(.+))?$/.exec(plain.replace(KIND, ' ').trim()) ?? [];
  const { designation } = parseFlange(size, { path });
  const name = `flange ${designation} ${kind}`;
  if (word !== undefined && (word === 'back') !== (kind === 'slip-on'))
    throw refuse(
      'not-understood',
      say`a ${kind} flange has no ${word}`,
      kind === 'slip-on'
        ? say`give how far the pipe stands back from its face: back 6mm`
        : say`give its length through the hub: length 89mm`,
    );
  if (kind === 'slip-on') {
    const back = word === undefined ? SLIP_ON_BACK : parseLength(own, { path });
    if (back < 0)
      throw refuse('negative', say`a pipe cannot stand out of the face of its flange`, say`give 0 or more`);
    const source = word === undefined ? say`common practice, no source` : say`given`;
    return {
      designation: word === undefined ? name : `${name} back ${own.trim()}`,
      kind,
      takeOff: back,
      source,
    };
  }
  if (word !== undefined) {
    const length = parseLength(own, { path });
    if (length <= 0)
      throw refuse(
        'not-positive',
        say`a length of ${own} is not above zero`,
        say`give the length through the hub`,
      );
    return { designation: `${name} length ${own.trim()}`, kind, takeOff: length, source: 'given' };
  }
  const [, system = 'NPS', label = '', rating = ''] = /^(NPS|DN) (.+) class (\d+)$/.exec(designation) ?? [];
  const rated = tableRows(FLANGE_B16_5_LENGTHS).filter((row) => row[0] === rating);
  const missing = refuse(
    'no-length',
    say`no table of lengths is held for a ${translate(kind)} flange of ${designation}`,
    say`add what you measure: ${name} length 133mm`,
  );
  if (rated.length === 0) throw missing;
  const [row = []] = findRows(
    rated,
    { NPS: 1, DN: 2 },
    system as SizeSystem,
    label,
    say`ASME B16.5 class ${rating}`,
    refuse,
  );
  const [, , , , through = '', neck = '', , depth = ''] = row;
  const mm = (cell: string): number => parseLength(cell, { units: 'mm' });
  if (kind === 'socket' && depth === '') throw missing;
  return {
    designation: name,
    kind,
    takeOff: kind === 'weld-neck' ? mm(neck) : mm(through) - mm(depth),
    source: `ASME B16.5 ${tableName('DN')}`,
  };
}
