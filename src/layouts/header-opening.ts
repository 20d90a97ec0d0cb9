import { bigWord, hatchScrap } from '../drawing/scrap.ts';
import type { Box, Mark, Picture, Sheet, Table } from '../drawing/model.ts';
import { letteringBox, textWidth } from '../drawing/lettering.ts';
import {
  cubicPath,
  FINE,
  growBox,
  knockout,
  letter,
  MEDIUM,
  polylinePath,
  QUARTER,
  ruleLine,
  stroke,
  WIDE,
} from '../drawing/shape.ts';
import { cylinderMate } from '../geometry/mates/cylinder.ts';
import { developOpening, type Opening } from '../geometry/opening.ts';
import { circleOutline } from '../geometry/outline.ts';
import { vec3, type Vec2 } from '../geometry/vector.ts';
import { stretchCubics } from './cut-band.ts';
import type { BranchJoint } from './branch-joint.ts';
import { quarterWords } from './branch-joint.ts';
import type { Setting } from './layout.ts';
import {
  describePaper,
  describePipe,
  describeSource,
  girthFact,
  lengthCells,
  lengthColumns,
  paperGirth,
  roundBelow,
  wrapSteps,
  writeBoth,
} from './wrap-parts.ts';

/** Lines across the opening for tape layout, both tips included. */
const LINES = 13;
const BORDER = 22;

/**
 * The opening in the header's wall, in the header's frame: set-on, the branch's bore traced on the header's outside;
 * set-in, clear of the branch's outside and the gap through the whole header wall, for a cut square to the surface.
 */
export const traceOpening = ({ branch, header, angle, offset, set, gap }: BranchJoint): Opening => {
  const radius = header.girth / (2 * Math.PI);
  const body = cylinderMate(
    vec3(0, -offset, 0),
    vec3(-Math.sin(angle), 0, Math.cos(angle)),
    set === 'on' ? branch.od / 2 - branch.wall : branch.od / 2 + gap,
  );
  const outline = circleOutline(radius, header.wall);
  const centre = radius * Math.asin(Math.max(-1, Math.min(1, -offset / radius)));
  const opening = developOpening(outline, body, set === 'in', centre);
  if (!opening) throw new Error('the branch axis misses the header');
  return opening;
};

/** The header opening's sheet. */
export const headerOpening = (
  joint: BranchJoint,
  setting: Setting,
  subject: readonly string[],
  pictures: readonly Picture[],
): Sheet => {
  const { header, set, angle } = joint;
  const opening = traceOpening(joint);
  const stretch = paperGirth(header.girth, setting.paperThickness) / header.girth;
  const line = stretchCubics(opening.line, stretch);
  const ys = line.flatMap(({ start, c1, c2 }) => [start.y, c1.y, c2.y]);
  const inner: Box = {
    minX: opening.from * stretch,
    maxX: opening.to * stretch,
    minY: Math.min(...ys),
    maxY: Math.max(...ys),
  };
  const reference = roundBelow(Math.min(inner.minY, 0), BORDER, setting);
  const area: Box = {
    minX: Math.min(inner.minX, 0) - BORDER,
    maxX: Math.max(inner.maxX, 0) + BORDER,
    minY: reference,
    maxY: Math.max(inner.maxY, 0) + BORDER,
  };
  const lines = tapeLines(opening);
  const marks: Mark[] = [
    ...drawEdges(area),
    ...drawAxes(area, inner, angle),
    ...lines
      .slice(1, -1)
      .map(({ s, lower, upper }) =>
        ruleLine('station', { x: s * stretch, y: lower }, { x: s * stretch, y: upper }, FINE),
      ),
    ...numberLines(lines, stretch),
    ...hatchScrap(line, -1),
    stroke('cut', cubicPath(line, true), WIDE),
    letter('text', { x: area.minX + 4, y: area.minY + 11 }, 'KEEP', 5, { bold: true }),
    ...scrapWord(inner, opening, stretch),
  ];
  return {
    name: 'header opening',
    heading: 'Header opening',
    subject: [
      ...subject,
      describePipe(header, setting),
      set === 'on'
        ? 'Opening: the branch’s bore on the header’s outside'
        : 'Opening: clears the branch’s outside and the gap through the whole wall',
      `${describeSource(header)}. ${describePaper(setting)}`,
    ],
    marks,
    bounds: { minX: area.minX - 0.5, minY: area.minY - 0.5, maxX: area.maxX + 0.5, maxY: area.maxY + 0.5 },
    steps: [
      ...wrapSteps(header, setting),
      'Strike the header line that faces the branch, and a square line round the header through the work point.',
      'Lay the sheet printed side out, 0° line on the header line, square line on the square line, the end marked branch 0° toward station 0 of the branch. Tape it down.',
      'Mark along the cut line and punch it. Try the cut branch end over the mark before you cut.',
      'Cut square to the surface, inside the line, then bevel as the joint asks.',
    ],
    facts: [
      girthFact(header, setting),
      ['Opening along the header', writeBoth(inner.maxY - inner.minY, setting)],
      ['Opening round the header', writeBoth(opening.to - opening.from, setting)],
      ['Reference edge to square line', writeBoth(-reference, setting)],
    ],
    tables: [tapeTable(lines, setting)],
    pictures,
    cautions: [
      'An opening takes strength from the header: a qualified person checks the reinforcement it needs.',
      'Do not open a line or vessel that has held anything that burns until it is purged and tested safe.',
    ],
  };
};

interface TapeLine {
  readonly s: number;
  readonly lower: number;
  readonly upper: number;
}

const tapeLines = (opening: Opening): readonly TapeLine[] =>
  Array.from({ length: LINES }, (_, i) => {
    const s = i === LINES - 1 ? opening.to : opening.from + ((opening.to - opening.from) * i) / (LINES - 1);
    return { s, lower: opening.lower(s), upper: opening.upper(s) };
  });

const tapeTable = (lines: readonly TapeLine[], setting: Setting): Table => ({
  title: 'By tape: round from the 0° line (right is +), along from the square line (up is +)',
  header: [
    'Line',
    ...lengthColumns('round', setting),
    ...lengthColumns('lower', setting),
    ...lengthColumns('upper', setting),
  ],
  rows: lines.map(({ s, lower, upper }, i) => [
    String(i + 1),
    ...lengthCells(s, setting),
    ...lengthCells(lower, setting),
    ...lengthCells(upper, setting),
  ]),
});

const drawEdges = ({ minX, minY, maxX, maxY }: Box): Mark[] => {
  const corners: Vec2[] = [
    { x: minX, y: minY },
    { x: minX, y: maxY },
    { x: maxX, y: maxY },
    { x: maxX, y: minY },
  ];
  return [
    stroke('reference', polylinePath(corners), FINE),
    ruleLine('reference', { x: minX, y: minY }, { x: maxX, y: minY }, MEDIUM),
  ];
};

/** The header line that faces the branch, the square line, and which way the branch leans. */
const drawAxes = (area: Box, inner: Box, angle: number): Mark[] => {
  const [heel, side, crotch] = quarterWords(angle).map((word) => word.replace(' · TDC', ''));
  return [
    ruleLine('centre', { x: 0, y: area.minY }, { x: 0, y: area.maxY }, QUARTER, 'long-dash-dot'),
    ruleLine('centre', { x: area.minX, y: 0 }, { x: area.maxX, y: 0 }, QUARTER, 'long-dash-dot'),
    ...bigWord({ x: 0, y: area.maxY - 4.5 }, `▲ 0° ${heel ?? ''}`, 3.5),
    ...bigWord({ x: 0, y: area.minY + 4.5 }, `▼ 180° ${crotch ?? ''}`, 3.5),
    letter('text', { x: area.maxX - 1.5, y: 1.2 }, '90°', 3.5, { align: 'right', bold: true }),
    letter('text', { x: area.maxX - 1.5, y: -4.8 }, side ?? '', 2.5, { align: 'right' }),
    letter('text', { x: area.minX + 1.5, y: 1.2 }, '270°', 3.5, { bold: true }),
    letter('text', { x: area.minX + 1.5, y: -4.8 }, side ?? '', 2.5),
    letter('text', { x: 1.2, y: inner.minY - 9 }, '0° line of the header', 2.5),
  ];
};

/** Numbers of the tape lines, outside the opening, on white where an axis would run through them. */
const numberLines = (lines: readonly TapeLine[], stretch: number): Mark[] =>
  lines.flatMap(({ s, upper }, i) => {
    const x = s * stretch;
    const tip = i === 0 ? 'right' : i === LINES - 1 ? 'left' : undefined;
    const at =
      tip === undefined ? { x, y: upper + 1.6 } : { x: tip === 'right' ? x - 1.6 : x + 1.6, y: upper };
    const number = letter('text', at, String(i + 1), 2.5, {
      align: tip ?? 'centre',
      valign: tip === undefined ? 'baseline' : 'middle',
    });
    return [knockout('text', growBox(letteringBox(number), 0.3)), number];
  });

const scrapWord = (inner: Box, opening: Opening, stretch: number): Mark[] => {
  const s = (opening.from + opening.to) / 2;
  const [lower, upper] = [opening.lower(s), opening.upper(s)];
  const room = Math.min(inner.maxX - inner.minX - 16, (upper - lower - 8) * 2);
  const height = [7, 5, 3.5].find((h) => textWidth('SCRAP', h, true) + 2 < room);
  return height === undefined ? [] : bigWord({ x: s * stretch, y: (lower + upper) / 2 }, 'SCRAP', height);
};
