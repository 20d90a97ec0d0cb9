import { itemAt } from '../../../lists.ts';
import { jointError, requestError } from '../../../issue.ts';
import { PULL_BACK, type Joining, type RunPart } from '../../../stock/run-part.ts';
import { told } from '../../../units/format.ts';
import { say } from '../../../words/say.ts';
import type { PlacedPart } from './read-run.ts';

/** A run of pipe between two points of a drawing. Lengths in mm. */
export interface RunRequest {
  readonly run: number;
  /** In order; the first and last are what the run is measured to. */
  readonly parts: readonly PlacedPart[];
  readonly gap: number;
  readonly gasket: number;
}

/** One thing along the run, from its start. Lengths in mm. */
export interface RunItem {
  readonly kind: 'part' | 'pipe' | 'gap';
  readonly from: number;
  readonly to: number;
  /** A part's designation, a pipe's number, or what a gap is. */
  readonly name: string;
  readonly part?: RunPart;
}

/** A run made up: everything along it, in order. */
export interface MadeRun {
  readonly items: readonly RunItem[];
  /** Cut length of each pipe piece, in order. */
  readonly pipes: readonly number[];
  /** Whether the place of some part came of cutting the pipes around it alike. */
  readonly sharesOut: boolean;
}

const isFaced = (joining: Joining): boolean => joining === 'face';

/** True for a part that bolts to its neighbor: a flange, or a part with flanged ends. */
const bolts = ({ kind, inner }: RunPart): boolean => kind === 'flange' || isFaced(inner);

/** How each part joins what stands before and after it. Throws where a flange in the run faces nothing. */
const joinSides = (parts: readonly PlacedPart[]): readonly (readonly [Joining, Joining])[] => {
  const sides: (readonly [Joining, Joining])[] = [];
  parts.forEach(({ part }, i) => {
    const last = parts.length - 1;
    if (i === 0) return sides.push([part.outer, part.inner]);
    if (i === last) return sides.push([part.inner, part.outer]);
    if (part.kind !== 'flange') return sides.push([part.inner, part.inner]);
    // A flange shows its face to what it is bolted to: to the part before where that waits for a face.
    const before = sides[i - 1]?.[1];
    const next = parts[i + 1]?.part;
    if (before === 'face') return sides.push(['face', part.inner]);
    if (next && bolts(next)) return sides.push([part.inner, 'face']);
    throw requestError(
      'between',
      'flange-alone',
      say`${part.designation} stands in the run with nothing to bolt to`,
      say`put the flange or the flanged part that it meets next to it`,
    );
  });
  return sides;
};

/** What stands between two neighbors. */
interface Link {
  /** Gaps and pull-backs in order; a pipe stands in the middle of the two of a piped link. */
  readonly gaps: readonly { readonly length: number; readonly name: string }[];
  readonly piped: boolean;
}

const allowance = (joining: Joining, gap: number): { readonly length: number; readonly name: string } => {
  if (joining === 'weld') return { length: gap, name: say`root gap` };
  if (joining === 'socket') return { length: PULL_BACK, name: say`pull-back` };
  return { length: 0, name: joining };
};

const linkOf = (before: Joining, after: Joining, next: PlacedPart, { gap, gasket }: RunRequest): Link => {
  if (isFaced(before) && isFaced(after))
    return { gaps: [{ length: gasket, name: say`gasket` }], piped: false };
  if (isFaced(before) || isFaced(after))
    throw requestError(
      'between',
      'face-to-pipe',
      say`before ${next.part.designation} a bolted face meets a pipe or a weld`,
      say`put a flange between them`,
    );
  if (next.direct) return { gaps: [{ length: gap, name: say`root gap` }], piped: false };
  return { gaps: [allowance(before, gap), allowance(after, gap)], piped: true };
};

/** What a part takes of the run: from its point where the run begins or ends with it, else end to end. */
const taken = (parts: readonly PlacedPart[], i: number): number => {
  const { part } = itemAt(parts, i);
  if (i === 0 || i === parts.length - 1) return part.takeOff;
  if (part.through === undefined)
    throw requestError(
      'between',
      'turns-the-run',
      say`the run cannot go straight through ${part.designation}`,
      say`begin or end the run there, and make the next run up by itself`,
    );
  return part.through;
};

interface Stretch {
  /** Parts from one whose place is known to the next. */
  readonly from: number;
  readonly to: number;
}

/** Indices at which places are known: both ends, and every part with a place of its own. */
const stretchesOf = (parts: readonly PlacedPart[]): readonly Stretch[] => {
  const known = parts.flatMap(({ at }, i) =>
    i === 0 || i === parts.length - 1 || at !== undefined ? [i] : [],
  );
  return known.slice(1).map((to, i) => ({ from: itemAt(known, i), to }));
};

/**
 * Makes a run up. Pipes within one stretch, between two parts whose places are known, are all cut alike. Throws a `joint`
 * UserError where a stretch has no room for its parts, or is left open with no pipe to fill it.
 */
export const makeRun = (request: RunRequest): MadeRun => {
  const { run, parts, gasket } = request;
  if (parts.length < 2)
    throw requestError(
      'parts',
      'not-a-run',
      say`a run begins and ends with a part`,
      say`give start and finish, or parts`,
    );
  const sides = joinSides(parts);
  const last = parts.length - 1;
  const lengths = parts.map((_, i) => taken(parts, i));
  const links = parts
    .slice(1)
    .map((next, i) =>
      linkOf((sides[i] as [Joining, Joining])[1], (sides[i + 1] as [Joining, Joining])[0], next, request),
    );
  // A run that begins or ends at a flange is measured to the face it bolts to: the gasket lies between.
  const ends = [0, last].map((i) => (itemAt(parts, i).part.outer === 'face' ? gasket : 0)) as [
    number,
    number,
  ];
  const startOf = (i: number): number => {
    const { at } = itemAt(parts, i);
    if (i === 0) return ends[0];
    return i === last ? run - ends[1] - itemAt(lengths, i) : (at ?? 0) - itemAt(lengths, i) / 2;
  };
  const items: RunItem[] = [];
  const pipes: number[] = [];
  let sharesOut = false;
  const put = (kind: RunItem['kind'], from: number, length: number, name: string, part?: RunPart): number => {
    if (length > 0 || kind !== 'gap') items.push({ kind, from, to: from + length, name, part });
    return from + length;
  };
  if (ends[0] > 0) put('gap', 0, ends[0], say`gasket`);
  put('part', startOf(0), itemAt(lengths, 0), itemAt(parts, 0).part.designation, parts[0]?.part);
  for (const { from, to } of stretchesOf(parts)) {
    const begin = startOf(from) + itemAt(lengths, from);
    const room = startOf(to) - begin;
    const inside = links.slice(from, to);
    const fixed =
      inside.flatMap(({ gaps }) => gaps).reduce((sum, { length }) => sum + length, 0) +
      lengths.slice(from + 1, to).reduce((sum, length) => sum + length, 0);
    const count = inside.filter(({ piped }) => piped).length;
    const left = room - fixed;
    checkRoom(parts, { from, to }, left, count);
    sharesOut ||= count > 1;
    let at = begin;
    inside.forEach(({ gaps, piped }, k) => {
      const [first, second] = gaps;
      if (first) at = put('gap', at, first.length, first.name);
      if (piped) {
        pipes.push(left / count);
        at = put('pipe', at, left / count, `pipe ${pipes.length}`);
      }
      if (second) at = put('gap', at, second.length, second.name);
      const i = from + 1 + k;
      at = put('part', at, itemAt(lengths, i), itemAt(parts, i).part.designation, parts[i]?.part);
    });
  }
  if (ends[1] > 0) put('gap', run - ends[1], ends[1], say`gasket`);
  return { items, pipes, sharesOut };
};

/** How far off a stretch without pipe may be, mm: a tape is not read closer. */
const CLOSE = 0.5;

const checkRoom = (
  parts: readonly PlacedPart[],
  { from, to }: Stretch,
  left: number,
  count: number,
): void => {
  const name = (i: number): string => itemAt(parts, i).part.designation;
  const where = say`from ${name(from)} to ${name(to)}`;
  if (count === 0 && Math.abs(left) > CLOSE)
    throw jointError(
      'run',
      'no-pipe-to-fill',
      left > 0
        ? say`${where} the parts are ${told(left)} shorter than their place, and no pipe makes up for it`
        : say`${where} the parts are ${told(-left)} longer than their place, and no pipe makes up for it`,
      left > 0
        ? say`make the run ${told(left)} shorter, or put a comma where pipe stands`
        : say`make the run ${told(-left)} longer, or put a comma where pipe stands`,
    );
  if (count > 0 && left <= 0)
    throw jointError(
      'run',
      'no-room',
      say`${where} there is no room for pipe: parts, gaps and gaskets take ${told(-left)} more than there is`,
      say`give a run longer by more than ${told(-left)}, or shorter parts`,
    );
};
