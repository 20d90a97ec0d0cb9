import { boxesMeet } from '../drawing/clear.ts';
import { markBounds } from '../drawing/extent.ts';
import { textWidth } from '../drawing/lettering.ts';
import type { Box, Mark, Stroke } from '../drawing/model.ts';
import { bigWord, bigWordBox, hatchScrap } from '../drawing/scrap.ts';
import {
  cubicPath,
  FINE,
  growBox,
  knockout,
  letter,
  linePath,
  MEDIUM,
  NARROW,
  polylinePath,
  QUARTER,
  ruleLine,
  stroke,
  WIDE,
} from '../drawing/paths.ts';
import type { Cubic } from '../geometry/cubic.ts';
import { STEP } from '../geometry/development.ts';
import { clipLine, repeatLine } from '../geometry/line.ts';
import { checkSize } from '../geometry/size-limit.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { say } from '../words/say.ts';
import {
  edgeRange,
  LINES_FROM,
  ORDINATE_LENGTH,
  type CutEdge,
  type PlacedLabel,
  type Strip,
} from './band-edges.ts';
import { writeKeep, writeScrap } from './keep-and-scrap.ts';
import { drawStations } from './station-marks.ts';

/** A band in sheet mm: it wraps round a stock, or lies on a plate that will be rolled. */
export interface FlatBand extends Strip {
  /** Height of the paper's upper edge. */
  readonly top: number;
  /** Height of the paper's lower edge; left out, the reference line is that edge. */
  readonly bottom?: number;
  /** How the sides are made: a tab that goes under the other end, or cuts with an allowance past the right seam. */
  readonly sides: Sides;
  /** What joins above and below, named at the paper's edges. */
  readonly beyond?: { readonly x: number; readonly above: string; readonly below: string };
  /** Where the cut parts two pieces that are both kept: their names, the lower first. There is no scrap then. */
  readonly pair?: readonly [lower: string, upper: string];
}

export type Sides = { readonly kind: 'tab' } | { readonly kind: 'cut'; readonly allowance: number };

/** Least height of the kept part of a band: numbers, ordinates and KEEP one above the other, mm. */
export const LEAST_KEEP = 40;
/** Least height of the scrap beyond a cut line's farthest point, mm. */
export const LEAST_SCRAP = 14;
/** Width of the overlap tab, mm. */
const TAB = 10;

/** Sheet x where the paper ends on the right. */
const paperEnd = ({ to, sides }: Pick<FlatBand, 'to' | 'sides'>): number =>
  sides.kind === 'tab' ? to + TAB : Math.max(to, to + sides.allowance);

/** The area a band takes. */
export const bandBounds = (band: FlatBand): Box => ({
  minX: band.from - 0.5,
  maxX: paperEnd(band) + 0.5,
  minY: (band.bottom ?? band.reference) - 0.5,
  maxY: band.top + 0.5,
});

const corner = (x: number, y: number): Vec2 => ({ x, y });

const edgesPaper = (stroked: Stroke): Stroke => ({ ...stroked, edgesPaper: true });

/** The paper of a band: its edges, and the overlap tab. */
export const drawPaper = (band: FlatBand): Mark[] => {
  const { from, to, reference, top, upper, sides } = band;
  const bottom = band.bottom ?? reference;
  const marks: Mark[] = [
    upper && !band.pair
      ? edgesPaper(ruleLine('reference', corner(from, top), corner(to, top), FINE))
      : ruleLine('reference', corner(from, top), corner(to, top), MEDIUM),
  ];
  if (bottom < reference)
    marks.push(edgesPaper(ruleLine('reference', corner(from, bottom), corner(to, bottom), FINE)));
  if (sides.kind === 'cut') return marks;
  return [
    ...marks,
    ruleLine('reference', corner(from, bottom), corner(from, top), NARROW),
    ruleLine('reference', corner(to, bottom), corner(to, top), NARROW),
    edgesPaper(
      stroke(
        'reference',
        polylinePath([corner(to, bottom), corner(to + TAB, bottom), corner(to + TAB, top), corner(to, top)]),
        FINE,
      ),
    ),
    nameTab(corner(to + TAB / 2, (bottom + top) / 2), top - bottom),
  ];
};

/** What the overlap tab is for, up along it; its name alone where the band is too low for more. */
export const nameTab = (at: Vec2, room: number): Mark => {
  const text = say`TAB: goes under the other end`;
  return letter('text', at, textWidth(text, 2.5, false) < room - 1 ? text : say`TAB`, 2.5, {
    align: 'centre',
    valign: 'middle',
    angle: Math.PI / 2,
  });
};

/** The sides of a plate as cut lines, the right one moved by its allowance from the seam. */
const cutSides = (band: FlatBand, end: number): Mark[] => {
  const { from, to, reference, lower, top } = band;
  const upper = band.pair ? undefined : band.upper;
  const low = lower?.at(from) ?? reference;
  const span = to - from;
  const heightAt = (edge: CutEdge, x: number): number => edge.at(x > to ? x - span : x);
  const side = (x: number): Mark =>
    stroke(
      'cut',
      linePath(
        corner(x, lower ? heightAt(lower, x) : reference),
        corner(x, upper ? heightAt(upper, x) : top),
      ),
      WIDE,
    );
  const marks = [side(from), side(end)];
  if (end - to < 1e-6) return marks;
  marks.push(ruleLine('reference', corner(to, low), corner(to, upper?.at(to) ?? top), QUARTER, 'dashed'));
  if (end - to >= 6)
    marks.push(
      letter('text', corner((to + end) / 2, reference + LINES_FROM), say`ALLOWANCE`, 2.5, {
        angle: Math.PI / 2,
        valign: 'middle',
      }),
    );
  return marks;
};

/** How far a name keeps from a cut line on the kept side, mm. */
const NAME_CLEAR = 5;

/** Where along the band a name is tried, nearest first, mm. */
const ASIDE = [0, 8, -8, 16, -16, 24, -24, 36, -36, 48, -48];

/** What joins above and below, named on the part that is kept, or in the scrap where no room is clear of the figures. */
const nameBeyond = (band: FlatBand, stations: readonly Mark[]): Mark[] => {
  const { beyond, upper, lower, top, bottom, reference, from, to } = band;
  if (!beyond) return [];
  const taken = stations.filter(({ kind }) => kind === 'text').map((mark) => growBox(markBounds(mark), 0.4));
  const name = (text: string, edge: CutEdge | undefined, side: 1 | -1, limit: number): Mark[] => {
    const half = textWidth(text, 3.5, true) / 2 + 1;
    const heightAt = (x: number): number =>
      (edge ? edgeRange(band, edge, x, half)[side > 0 ? 0 : 1] : limit) - side * NAME_CLEAR;
    const spot = ASIDE.map((aside) => corner(beyond.x + aside, heightAt(beyond.x + aside))).find(
      (at) =>
        at.x - half > from &&
        at.x + half < to &&
        side * (at.y - reference) > 4 &&
        taken.every((box) => !boxesMeet(box, bigWordBox(at, text, 3.5))),
    );
    return bigWord(spot ?? corner(beyond.x, limit - side * 3.7), text, 3.5);
  };
  return [
    ...name(`▲ ${beyond.above}`, upper, 1, top),
    ...name(`▼ ${beyond.below}`, lower, -1, bottom ?? reference),
  ];
};

/** The names of two pieces parted by one cut, and the station lines of the upper one. */
const namePair = (band: FlatBand, names: readonly [string, string]): Mark[] => {
  const { from, to, reference, top, upper, stations } = band;
  const x = from + (to - from) / 16;
  const lines = stations.map(({ x: at, quarter }) =>
    ruleLine(
      'station',
      corner(at, upper?.at(at) ?? top),
      corner(at, top),
      quarter ? QUARTER : FINE,
      quarter ? 'long-dash-dot' : 'continuous',
    ),
  );
  return [
    ...lines,
    ...bigWord(corner(x, reference + LEAST_KEEP - 8), names[0], 5),
    ...bigWord(corner(x, top - 8), names[1], 5),
  ];
};

/** True for a stroke of hatching that stays in the scrap, even of a narrow dart, and between the sides. */
const inScrap =
  ({ at }: CutEdge, side: 1 | -1, from: number, to: number) =>
  (mark: Mark): boolean => {
    const { minX, maxX } = markBounds(mark);
    if (mark.kind !== 'stroke' || minX < from || maxX > to) return false;
    const { start, segments } = mark.path;
    const tip = segments[0]?.to ?? start;
    return [0, 0.5, 1, 1.2].every((t) => {
      const [x, y] = [start.x + (tip.x - start.x) * t, start.y + (tip.y - start.y) * t];
      return side * (y - at(x)) > 0;
    });
  };

/** The parts of a cut line that have steel under them. */
const onSteel = (
  line: readonly Cubic[],
  { from, to, openings = [] }: FlatBand,
): readonly (readonly Cubic[])[] => {
  if (openings.length === 0) return [line];
  const edges = openings.flat().sort((a, b) => a - b);
  const ends = [from, ...edges.filter((x) => x > from && x < to), to];
  return ends
    .slice(1)
    .map((right, i) => [ends[i] ?? from, right] as const)
    .filter(([a, b]) => openings.every(([left, right]) => (a + b) / 2 < left || (a + b) / 2 > right))
    .map(([a, b]) => withoutSteps(clipLine(line, a, b)))
    .filter((part) => part.length > 0);
};

/** Thick paper spreads a step at a sharp corner over so much, mm. */
const SPREAD = 0.2;

/** A part of a line without a step from the steel's edge to what stands over the mouth. */
const withoutSteps = (part: readonly Cubic[]): readonly Cubic[] => {
  const isStep = ({ start, end }: Cubic): boolean => {
    const [run, rise] = [end.x - start.x, Math.abs(end.y - start.y)];
    return run < STEP || (run < SPREAD && rise > 2 * run);
  };
  const first = part.findIndex((cubic) => !isStep(cubic));
  const last = part.findLastIndex((cubic) => !isStep(cubic));
  return first < 0 ? part : part.slice(first, last + 1);
};

/** The bridged stretches: a broken line at each edge of the steel, and what the paper does there. */
const drawOpenings = ({ openings = [], reference, top, from, to }: FlatBand): Mark[] =>
  openings.flatMap(([a, b]): Mark[] => {
    const [left, right] = [Math.max(a, from), Math.min(b, to)];
    if (right - left < 12) return [];
    return [
      letter('text', corner((left + right) / 2, (reference + top) / 2), say`OPEN: no steel here`, 2.5, {
        align: 'centre',
        valign: 'middle',
        angle: right - left < 45 ? Math.PI / 2 : 0,
      }),
    ];
  });

/** Draws a band: edges, stations, cut lines, hatching, KEEP and SCRAP. */
export const drawBandMarks = (band: FlatBand): { readonly marks: readonly Mark[]; readonly bounds: Box } => {
  const bounds = bandBounds(band);
  checkSize(bounds);
  const { from, to, reference, top, upper, lower, sides } = band;
  const bottom = band.bottom ?? reference;
  const end = sides.kind === 'tab' ? to : to + sides.allowance;
  const stations = drawStations(band, top);
  const marks: Mark[] = [
    ...drawPaper(band),
    ruleLine('reference', corner(from, reference), corner(Math.max(to, end), reference), MEDIUM),
    ...stations,
    ...nameBeyond(band, stations),
    ...drawOpenings(band),
  ];
  const edges: readonly (readonly [CutEdge | undefined, 1 | -1, number])[] = [
    [upper, 1, top],
    [lower, -1, bottom],
  ];
  const words = band.pair ? namePair(band, band.pair) : writeKeep(band, marks, [top, bottom]);
  const isOnWord = (mark: Mark): boolean =>
    words.some((word) => word.kind === 'fill' && boxesMeet(markBounds(word), markBounds(mark)));
  // Drawn last, so that the white paper behind a word never lies over a cut.
  const cuts: Mark[][] = [];
  for (const [edge, side, limit] of edges) {
    if (!edge) continue;
    const line = end === to ? edge.line : repeatLine(edge.line, to - from, from, end);
    if (!band.pair) words.push(...writeScrap(band, edge, side, limit, [...marks, ...words]));
    for (const part of onSteel(line, band)) {
      if (!band.pair)
        cuts.push(
          hatchScrap(part, side)
            .filter(inScrap(edge, side, from, end))
            .filter((line) => !isOnWord(line)),
        );
      cuts.push([stroke('cut', cubicPath(part), WIDE)]);
    }
  }
  if (sides.kind === 'cut') cuts.push(cutSides(band, end));
  return {
    marks: [marks, words, drawLabels(band, stations), ...cuts].flat(),
    bounds,
  };
};

/** Heights of the labels along their lines, mm: the larger where there is room. */
const LABEL_HEIGHTS = [3.5, 2.5] as const;

/** Labels from the left; those of one line in one. */
const joinLabels = (labels: readonly PlacedLabel[]): readonly PlacedLabel[] =>
  labels
    .toSorted((a, b) => a.x - b.x)
    .reduce<PlacedLabel[]>((joined, next) => {
      const last = joined.at(-1);
      if (last && next.x - last.x < 1e-6)
        joined[joined.length - 1] = { ...last, text: `${last.text} · ${next.text}` };
      else joined.push(next);
      return joined;
    }, []);

/**
 * The ground of a label that reads upward beside its line: at its left or else at its right, as low as the labels before it
 * leave room, in lettering that goes in under the band's edge. Undefined where it goes nowhere: the table names the line too.
 */
const placeLabel = (
  { from, to, upper, top }: FlatBand,
  { x, text, short = text }: PlacedLabel,
  foot: number,
  before: readonly Box[],
): { readonly box: Box; readonly written: string; readonly height: number } | undefined => {
  const end = upper ? upper.at(x) : top;
  for (const [written, height] of [text, short].flatMap((one) =>
    LABEL_HEIGHTS.map((high) => [one, high] as const),
  )) {
    const [breadth, length] = [height + 1.3, textWidth(written, height, true) + 1.2];
    for (const minY of [foot - 0.6, ...before.map(({ maxY }) => maxY + 0.8)].sort((a, b) => a - b))
      for (const minX of [x - 0.6 - breadth, x + 0.6]) {
        const box = { minX, maxX: minX + breadth, minY, maxY: minY + length };
        const isOnBand = minX >= from && box.maxX <= to && box.maxY <= end;
        if (isOnBand && !before.some((other) => boxesMeet(other, box))) return { box, written, height };
      }
  }
  return undefined;
};

/** A line up to its end, left out where it would run through a station's number. */
const lineClearOf = (numbers: readonly Box[], x: number, low: number, end: number): Mark[] => {
  const lines: Mark[] = [];
  let y = low;
  for (const { minY, maxY } of numbers
    .filter((box) => x > box.minX && x < box.maxX && box.maxY < end)
    .sort((a, b) => a.minY - b.minY)) {
    if (minY > y) lines.push(ruleLine('station', { x, y }, { x, y: minY }, MEDIUM));
    y = Math.max(y, maxY);
  }
  return [...lines, ruleLine('station', { x, y }, { x, y: end }, MEDIUM)];
};

/** Labelled lines at any angle, each with its text beside it. */
const drawLabels = (band: FlatBand, stations: readonly Mark[]): Mark[] => {
  const numbers = stations
    .filter(({ kind }) => kind === 'text')
    .map((mark) => growBox(markBounds(mark), 0.4));
  const foot = band.reference + LINES_FROM + ORDINATE_LENGTH + 2;
  const taken: Box[] = [];
  const [lines, words]: [Mark[], Mark[]] = [[], []];
  for (const label of joinLabels(band.labels ?? [])) {
    const { x } = label;
    lines.push(...lineClearOf(numbers, x, band.reference, band.upper ? band.upper.at(x) : band.top));
    const place = placeLabel(band, label, foot, taken);
    if (!place) continue;
    const { box, written, height } = place;
    taken.push(box);
    words.push(
      knockout('text', box),
      letter('text', { x: box.maxX - 0.6, y: box.minY + 0.6 }, written, height, {
        angle: Math.PI / 2,
        bold: true,
      }),
    );
  }
  return [...lines, ...words];
};
