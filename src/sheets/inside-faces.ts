import type { Figure, Mark, Sheet } from '../drawing/model.ts';
import { bigWord, hatchScrap } from '../drawing/scrap.ts';
import { cubicPath, letter, linePath, MEDIUM, QUARTER, ruleLine, stroke, WIDE } from '../drawing/paths.ts';
import { developEnd, type Development, type End } from '../geometry/development.ts';
import type { Outline } from '../geometry/outline.ts';
import type { LineEdge, SectionEdge } from '../geometry/section.ts';
import { add2, distance2, scale2, sub2, vec2, vec3, type Vec3 } from '../geometry/vector.ts';
import { localAxes } from '../joint/bodies/body.ts';
import { moveSolid } from '../joint/move-solid.ts';
import type { Solid } from '../joint/solid.ts';
import type { Stock } from '../stock/stock.ts';
import { lengthOf } from '../units/quantity.ts';
import type { Setting } from '../units/setting.ts';
import { writeBoth, writeShort } from '../units/writing.ts';
import { roundBelow } from './band-paper.ts';
import { CHECK_PRINT, describeStock } from './band-words.ts';
import { referenceUnder } from './cut-band.ts';
import { linearDimension, onPaper } from './flat-marks.ts';
import { plateSheet } from './flat-sheet.ts';
import { hatchClear } from './keep-and-scrap.ts';
import { say, translate, translateName } from '../words/say.ts';
import { apart, endAt, ends, shown, uprightAt } from './measured.ts';

/** A face narrower than this takes no template, mm. */
const NARROWEST = 8;
/** Paper kept under the cut and over it, mm. */
const KEPT = 30;
const BEYOND = 12;

/** A flat face that the band around the outside does not reach, and what lies beside it. */
interface InsideFace {
  readonly edge: LineEdge;
  readonly left: string;
  readonly right: string;
}

const sideName = (edge: SectionEdge | undefined): string =>
  edge?.face.startsWith('toe') ? say`TOE` : edge?.face.startsWith('fillet') ? say`FILLET` : say`CORNER`;

const insideFaces = ({ section: { outside } }: Stock): readonly InsideFace[] =>
  outside.flatMap((edge, i) =>
    edge.kind === 'line' && edge.inner && distance2(edge.from, edge.to) > NARROWEST
      ? [{ edge, left: sideName(outside.at(i - 1)), right: sideName(outside[(i + 1) % outside.length]) }]
      : [],
  );

const capital = (text: string): string => `${text[0]?.toUpperCase() ?? ''}${text.slice(1)}`;

/** Where a template's reference edge lies, `ahead` mm past the band's. */
const placeOf = (ahead: number, setting: Setting): string =>
  Math.abs(ahead) < 1e-9
    ? say`level with the band’s`
    : say`${writeBoth(Math.abs(ahead), setting)} from the band’s, ${ahead > 0 ? say`toward` : say`away from`} the cut end`;

/** The face as an outline of its own: position 0 where it begins, counter-clockwise seen facing the cut end. */
const faceOutline = ({ from, to, wall }: LineEdge, thickness: number): Outline => {
  const girth = distance2(from, to);
  const along = scale2(sub2(to, from), 1 / girth);
  return {
    girth,
    wall: wall ?? thickness,
    joints: [],
    at: (s, depth) => {
      const p = add2(from, scale2(along, s));
      return vec2(p.x - depth * along.y, p.y + depth * along.x);
    },
  };
};

/**
 * A small template for each inside face of an angle, a channel or a beam, cut to what the end meets. x = 0 is the face's left
 * edge seen facing it with the cut end up, y as on the band.
 * @param of what stands before the sheets' names, where a part has two cut ends
 */
export const insideSheets = (
  stock: Stock,
  end: End,
  solids: readonly Solid[],
  about: readonly string[],
  setting: Setting,
  of = '',
): readonly Sheet[] => {
  const faces = insideFaces(stock);
  if (faces.length === 0) return [];
  const reference = referenceUnder(developEnd(stock.outline, end).low, setting);
  return faces.map((face) => insideSheet(face, { stock, end, solids, about, reference, of }, setting));
};

/** What the sheets of all inside faces of one end share. */
interface Inside {
  readonly stock: Stock;
  readonly end: End;
  readonly solids: readonly Solid[];
  readonly about: readonly string[];
  /** The band's reference edge. */
  readonly reference: number;
  readonly of: string;
}

const insideSheet = (
  inside: InsideFace,
  { stock, end, solids, about, reference, of }: Inside,
  setting: Setting,
): Sheet => {
  const { edge, left, right } = inside;
  const outline = faceOutline(edge, stock.wall);
  const width = outline.girth;
  const developed = developEnd(outline, end);
  const { ordinate } = developed;
  const base = roundBelow(developed.low, KEPT, setting);
  const along = scale2(sub2(edge.to, edge.from), 1 / width);
  const flat = (x: number, y: number): Vec3 => vec3(x, y, 0);
  const local = localAxes(
    flat(edge.from.x, edge.from.y),
    flat(along.y, -along.x),
    flat(along.x, along.y),
    vec3(0, 0, 1),
  );
  const upAt = (x: number): Figure =>
    shown(
      lengthOf(ordinate(x) - base),
      apart(endAt('reference', x, base), uprightAt('cut', x, ordinate(x)), 'y'),
    );
  return plateSheet({
    name: `${of}${edge.face}`,
    heading: capital(
      `${translate(of)}${edge.face.startsWith('web') ? say`web (${translateName(edge.face)})` : translateName(edge.face)}`,
    ),
    subject: [
      ...about,
      describeStock(stock, setting),
      say`Small template for the ${translateName(edge.face)}`,
    ],
    marks: faceMarks(inside, outline, developed, base, setting),
    steps: [
      CHECK_PRINT(),
      say`Cut the template out along its three straight edges and lay it into the ${translateName(edge.face)}, ${left === right ? say`its middle line on the middle of the face` : say`${left.toLowerCase()} on the left with the cut end up`}.`,
      say`Its reference edge lies ${placeOf(base - reference, setting)}: square that line across first.`,
      say`Mark along the cut line. It meets the band’s line at the edges.`,
    ],
    facts: [
      [say`Width of the face`, shown(lengthOf(width), ends(vec2(0, base), vec2(width, base), 'reference'))],
      [say`Up at the left edge`, upAt(0)],
      [say`Up at the right edge`, upAt(width)],
    ],
    cautions: [],
    fit: {
      lay: { kind: 'flat' },
      wall: outline.wall,
      lines: [
        {
          which: 'upper',
          contact: end.contact,
          gap: end.gap,
          solids: solids.map((solid) => moveSolid(solid, local)),
        },
      ],
    },
  });
};

/** The template's straight edges and cut line, from `base` up, which edge of the face is which, and what is kept. */
const faceMarks = (
  { left, right }: InsideFace,
  { girth: width }: Outline,
  { line, high, ordinate }: Development,
  base: number,
  setting: Setting,
): Mark[] => {
  const top = high + BEYOND;
  const beside = (x: number, text: string): Mark[] =>
    onPaper(
      letter('text', vec2(x, base + KEPT / 2 + 4), text, 2.5, {
        align: 'centre',
        valign: 'middle',
        angle: Math.PI / 2,
      }),
    );
  return [
    ruleLine('reference', vec2(0, base), vec2(width, base), MEDIUM),
    ruleLine('reference', vec2(0, base), vec2(0, top), QUARTER),
    ruleLine('reference', vec2(width, base), vec2(width, top), QUARTER),
    ruleLine('reference', vec2(0, top), vec2(width, top), QUARTER),
    stroke(
      'station',
      linePath(vec2(width / 2, base), vec2(width / 2, ordinate(width / 2))),
      QUARTER,
      'long-dash-dot',
    ),
    ...hatchScrap(line, 1).filter(hatchClear(0, width)),
    stroke('cut', cubicPath(line), WIDE),
    ...(width > 30 ? [...beside(3, left), ...beside(width - 3, right)] : []),
    ...bigWord(vec2(width / 2, base + KEPT * 0.62), say`KEEP`, width > 40 ? 5 : 3.5),
    ...linearDimension(vec2(0, base), vec2(width, base), -8, writeShort(width, setting)),
  ];
};
