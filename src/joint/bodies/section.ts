import { beginAt, contourOutline } from '../../geometry/contour-outline.ts';
import { positionNear, type Outline } from '../../geometry/outline.ts';
import { crossEdge } from '../../geometry/section-crossing.ts';
import { runOf, turnSection, type Section, type SectionEdge } from '../../geometry/section.ts';
import { stockSkin } from '../../geometry/skin.ts';
import { SAME_LENGTH } from '../../geometry/tolerance.ts';
import { add2, add3, scale2, scale3, vec2, type Vec2, type Vec3 } from '../../geometry/vector.ts';
import { jointError } from '../../issue.ts';
import { parseOvalPipe } from '../../stock/oval-pipe.ts';
import { parseShaped, shapedKind } from '../../stock/shaped.ts';
import type { Stock } from '../../stock/stock.ts';
import { formatAngle } from '../../units/angle.ts';
import { told } from '../../units/format.ts';
import type { Reading } from '../../units/reading.ts';
import { say, translate, translateName } from '../../words/say.ts';
import { localAxes, type Ask, type Body, type BodySpec, type OpeningGround } from './body.ts';
import { readMove } from './move.ts';
import { readPlaced } from './read-placed.ts';
import {
  AXIS_WORDS,
  axisAngle,
  axisLabel,
  axisOffset,
  axisWords,
  describeAxis,
  drawnLength,
  readAxisLie,
  type AxisLie,
} from './straight.ts';

/** Closed stock lies with its first size across the branch; the depth of beams, channels and angles points to it. */
const ACROSS: readonly Stock['kind'][] = ['tube', 'flat', 'oval', 'ellipse', 'half-round'];

/** The stock of a body: `beam W 8x31` and `W 8x31` are the same, as are `tube HSS 6x4x1/4` and `HSS 6x4x1/4`. */
const readStock = (head: string, rest: string, reading: Reading): Stock => {
  if (head === 'pipe') return parseOvalPipe(rest, reading);
  return parseShaped(shapedKind(rest) === head ? rest : `${head} ${rest}`, reading);
};

/**
 * `beam W 8x31 angle 60 offset 10mm turned 90deg`: any straight stock that is not a round pipe. `turned` turns it about its
 * own axis, its side that faces the branch toward station 90. Station 0 of a pipe that is out of round faces the branch.
 */
export const readSectionBody = (text: string, reading: Reading): BodySpec => {
  const [, head = '', rest = ''] = /^\s*(EN 102\d\d|[a-z]+(?:-round)?)\s+(.*)$/is.exec(text) ?? [];
  const placed = readPlaced(rest, [...AXIS_WORDS, 'turned'], [], reading);
  const stock = readStock(head.toLowerCase(), placed.stock, reading);
  const lieOf = readAxisLie(placed, reading);
  const turned = placed.angle('turned', 0);
  const base = ACROSS.includes(stock.kind) ? Math.PI / 2 : 0;
  const section = turnSection(stock.section, base + turned);
  return {
    designation: stock.kind === 'pipe' ? `pipe ${stock.designation}` : stock.designation,
    ...readMove(placed),
    build: (ask, frame) => placeSection(stock, section, turned, lieOf(ask, frame), ask),
  };
};

/** Corners of a contour in order, and enough of its rounds to draw them. */
const contourPoints = (contour: readonly SectionEdge[]): readonly Vec2[] =>
  contour.flatMap((edge) => {
    const run = runOf(edge);
    const count = edge.kind === 'line' ? 1 : edge.kind === 'arc' ? 12 : 96;
    return Array.from({ length: count }, (_, i) => run.at((run.length * i) / count).point);
  });

/** Refuses a branch that hangs over the body's side. */
const checkWidth = (
  designation: string,
  [low, high]: readonly [number, number],
  lie: AxisLie,
  ask: Ask,
): void => {
  const wide = high - low;
  const [from, to] = ask.across;
  if (to - from > wide + SAME_LENGTH)
    throw jointError(
      'branch',
      'branch-too-large',
      say`the branch, ${told(to - from)} across, is wider than the ${designation}, which is ${told(wide)} across it`,
      say`choose a branch of at most ${told(wide)}, or larger stock`,
    );
  // The body's axis lies `offset` toward station 90 of the branch.
  if (from - lie.offset < low - SAME_LENGTH || to - lie.offset > high + SAME_LENGTH)
    throw jointError(
      'offset',
      'branch-overhangs',
      say`with an offset of ${told(lie.offset)} the branch hangs over the side of the ${designation}`,
      say`this branch may be offset from ${told(to - high)} to ${told(from - low)}`,
    );
};

const placeSection = (stock: Stock, section: Section, turned: number, lie: AxisLie, ask: Ask): Body => {
  const { designation } = stock;
  const points = contourPoints(section.outside);
  const [ys, xs] = [points.map(({ y }) => y), points.map(({ x }) => x)];
  const across = [Math.min(...ys), Math.max(...ys)] as const;
  const [back, front] = [Math.min(...xs), Math.max(...xs)];
  checkWidth(designation, across, lie, ask);
  const [from, to] = drawnLength(lie, ask.drawn, Math.max(front, -back));
  const prism = (contour: readonly SectionEdge[]) =>
    ({
      kind: 'prism',
      through: lie.origin,
      along: lie.d,
      across: lie.u,
      section: { outside: contour, thickness: section.thickness },
    }) as const;
  const [outside, inside] = [prism(section.outside), section.inside && prism(section.inside)];
  const tall = Math.max(front, -back);
  return {
    designation,
    outside,
    inside,
    words: axisWords(lie),
    placing: (setting) =>
      `${describeAxis(lie, setting, false)}${turned === 0 ? '' : say`, ${translate(stock.kind)} turned ${formatAngle(turned)} about its axis`}`,
    datum: datumOf(stock),
    view: {
      drawn: { outside, ...(inside && { inside }), reach: [from, to] },
      centers: [[lie.at(from, 0, 0), lie.at(to, 0, 0)]],
      labels: [axisLabel(lie, [from, to], tall, designation, ask.main)],
      lengths: [
        {
          from: lie.at(to, back, 0),
          to: lie.at(to, front, 0),
          length: front - back,
          sign: '',
          view: 'side',
        },
        {
          from: lie.at(from, back, across[0]),
          to: lie.at(from, back, across[1]),
          length: across[1] - across[0],
          sign: '',
          view: 'end',
        },
        ...axisOffset(lie, tall),
      ],
      angles: [axisAngle(lie)],
      right: lie.d,
      up: lie.u,
    },
    opening: section.outside.some(({ inner }) => inner)
      ? openFaceGround(stock, section, lie)
      : (lift) => closedGround(stock, section, lie, lift),
    cautions:
      stock.kind === 'tube' && stock.source !== 'given' && !stock.measured
        ? [
            say`Corners differ from mill to mill: measure the girth, or give the corner, where the line runs around one.`,
          ]
        : [],
  };
};

const datumOf = ({ kind }: Stock): string =>
  kind === 'angle'
    ? say`heel of the angle`
    : kind === 'channel'
      ? say`back of the web`
      : say`center of the ${translate(kind)}`;

/** Where the line from the branch toward the body's axis, `aside` from it, first meets the section: the edge, and how far along it. */
const faceAt = (
  { outside }: Section,
  aside: number,
): { readonly edge: SectionEdge; readonly at: Vec2; readonly out: Vec2 } | undefined => {
  const [origin, direction] = [vec2(1e5, aside), vec2(-1, 0)];
  let first: { t: number; edge: SectionEdge; out: Vec2 } | undefined;
  for (const edge of outside)
    for (const { t, out, entering } of crossEdge(edge, origin, direction))
      if (entering && (!first || t < first.t)) first = { t, edge, out };
  return first && { edge: first.edge, out: first.out, at: add2(origin, scale2(direction, first.t)) };
};

/**
 * The outside of closed stock, unrolled from where it faces the branch.
 * @param section its section with +x toward the branch
 * @param lift how far above the outside the print lies, mm
 */
export const closedGround = (
  stock: Stock,
  section: Section,
  lie: Pick<AxisLie, 'origin' | 'u' | 'y' | 'd'>,
  lift: number,
): OpeningGround => {
  const face = faceAt(section, 0);
  const outline = contourOutline(section);
  const begun = face ? beginAt(section, positionNear(outline, face.at)) : section;
  const ground = contourOutline(begun);
  const local = localAxes(lie.origin, lie.u, lie.y, lie.d);
  return {
    skin: stockSkin(ground),
    local,
    middle: 0,
    facing: [-ground.girth / 4, ground.girth / 4],
    level: () => 0,
    place: (s, t) => ({ x: s + lift * ground.turningAt(s), y: t }),
    parallel: true,
    girth: stock.girth,
    facts: [],
    strike: say`Strike the line along the ${translate(stock.kind)} that faces the branch, and a square line around it through the work point.`,
    name: say`the ${translate(stock.kind)}`,
    sheet: 'opening',
    stock,
    back: { lay: { kind: 'section', section: begun, lift }, local },
  };
};

/** The face of open stock that the branch's axis meets, flat; a sentence where there is none. */
const openFaceGround = (stock: Stock, section: Section, lie: AxisLie): Body['opening'] => {
  const found = faceAt(section, -lie.offset);
  if (found?.edge.kind !== 'line' || found.edge.face.startsWith('toe'))
    return say`The branch’s axis meets no flat face of the ${stock.designation} that an opening could be laid out on`;
  const { edge, at, out } = found;
  // A face that begins at position 0 is two edges.
  const along = section.outside
    .flatMap((other) => (other.kind === 'line' && other.face === edge.face ? [other.from, other.to] : []))
    .map((p) => (p.x - at.x) * -out.y + (p.y - at.y) * out.x);
  const [from, to] = [Math.min(...along), Math.max(...along)];
  const inward = scale2(out, -1);
  const faceAlong = vec2(-out.y, out.x);
  // A numbered face needs no article: flange 1, but the web, side 2.
  const name = /^\w+ \d$/.test(edge.face) ? translateName(edge.face) : say`the ${translateName(edge.face)}`;
  /** How much steel lies under the face at `s` from where the axis meets it. */
  const wallAt = (s: number): number => {
    const exits = section.outside
      .flatMap((other) => crossEdge(other, add2(at, scale2(faceAlong, s)), inward))
      .filter(({ t, entering }) => !entering && t > 1e-6)
      .map(({ t }) => t);
    return Math.min(...exits, 3 * section.thickness);
  };
  const inSpace = ({ x, y }: Vec2): Vec3 => add3(scale3(lie.u, x), scale3(lie.y, y));
  return () => {
    const local = localAxes(add3(lie.origin, inSpace(at)), inSpace(out), inSpace(faceAlong), lie.d);
    const flat: Outline = {
      girth: Infinity,
      wall: wallAt(0),
      wallAt,
      at: (s, depth) => vec2(-depth, s),
      joints: [],
    };
    return {
      skin: stockSkin(flat),
      local,
      facing: [from, to],
      middle: 0,
      level: () => 0,
      place: (s, t) => ({ x: s, y: t }),
      parallel: true,
      girth: undefined,
      facts: [
        [say`0° line to one edge of the face`, -from],
        [say`0° line to the other edge`, to],
      ],
      strike: say`Strike the line along ${name} of the ${translate(stock.kind)} where the branch’s axis meets it, and a square line across it through the work point.`,
      name,
      sheet: 'opening',
      stock,
      back: { lay: { kind: 'flat' }, local },
    };
  };
};
