import { factFinding, type Finding } from './finding.ts';
import { BeyondLimit, limits, needPairs } from './limits.ts';
import { isInside, samplePath, type Path } from './paths.ts';
import type { PdfFill, PdfFile, PdfPage, PdfStroke } from './pdf-reader.ts';
import type { Vec2 } from './space.ts';
import { say } from '../words/say.ts';

const MM = 25.4 / 72;

/** What the program writes on a page, and `q`, `Q`, which other programs put round it. */
const known = new Set('q Q cm w j d m l c h S f g BT Tf Tm Tj ET BDC EMC'.split(' '));

/** Line widths, mm: ISO 128-2 from the narrowest that prints to the widest used, a printer's correction allowed for. */
const narrowest = 0.17;
const widest = 1.05;
/** So much of a line may lie under white, mm: a sign's paper that only touches it. */
const hidden = 1.5;
/** Steps along a line that may lie under a fill, points of the page. */
const STEP = 1;

const isSteel = ({ layer }: PdfStroke): boolean => layer === 'cut' || layer === 'punch';

interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Of a path's points, those that steer its curves too: no part of it lies outside. */
export const hull = (path: Path): Box => {
  let box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  const take = ({ x, y }: Vec2): void => {
    box = {
      minX: Math.min(box.minX, x),
      minY: Math.min(box.minY, y),
      maxX: Math.max(box.maxX, x),
      maxY: Math.max(box.maxY, y),
    };
  };
  for (const { start, segments } of path) {
    take(start);
    for (const segment of segments) {
      take(segment.to);
      if (segment.kind === 'curve') [segment.c1, segment.c2].forEach(take);
    }
  }
  return box;
};

const meet = (a: Box, b: Box): boolean =>
  a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY;

/** How much of a line lies inside a fill, mm. */
const under = (fill: PdfFill, { path }: PdfStroke, box: Box): number => {
  let length = 0;
  for (const subpath of path) {
    const points = samplePath([subpath], STEP);
    points.forEach((p, i) => {
      const last = points[i - 1];
      if (last === undefined || !meet(box, { minX: p.x, maxX: p.x, minY: p.y, maxY: p.y })) return;
      if (isInside(fill.path, p, STEP)) length += Math.hypot(p.x - last.x, p.y - last.y) * MM;
    });
  }
  return length;
};

/** The most of one line that steel is cut or punched by which lies under later paint, mm. */
const mostHidden = ({ fills, strokes }: PdfPage): number => {
  const steel = strokes.filter(isSteel).map((stroke) => ({ stroke, box: hull(stroke.path) }));
  needPairs(fills.length * steel.length, say`fills over lines`);
  let most = 0;
  for (const fill of fills) {
    const box = hull(fill.path);
    for (const one of steel)
      if (one.stroke.order < fill.order && meet(box, one.box))
        most = Math.max(most, under(fill, one.stroke, box));
  }
  return most;
};

/** Places inside the first sign of a run, right of its start and above its foot, shares of the em. */
const insideSign = [
  [0.2, 0.1],
  [0.2, 0.35],
  [0.2, 0.6],
] as const;

/** White that lies over lettering: a number under it cannot be read. */
const hidesLettering = ({ fills, letterings }: PdfPage): boolean => {
  const white = fills.filter(({ colour }) => !isBlack(colour));
  needPairs(white.length * letterings.length, say`fills over lettering`);
  return white.some((fill) => {
    const box = hull(fill.path);
    return letterings.some(({ at, angle, size, order }) => {
      if (order > fill.order) return false;
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      return insideSign.some(([right, above]) => {
        const [along, up] = [(right * size) / MM, (above * size) / MM];
        const p = { x: at.x + along * c - up * s, y: at.y + along * s + up * c };
        return meet(box, { minX: p.x, maxX: p.x, minY: p.y, maxY: p.y }) && isInside(fill.path, p, STEP);
      });
    });
  });
};

const isBlack = (colour: readonly number[]): boolean => colour.every((part) => part === 0);
const isWhite = (colour: readonly number[]): boolean => colour.length === 1 && colour[0] === 1;

/** Everything wrong with how a page is painted. */
const pageFaults = (page: PdfPage): readonly string[] => {
  const { strokes, fills, letterings, operators, mediaBox } = page;
  const faults = new Set<string>();
  const strange = [...operators].filter((operator) => !known.has(operator));
  if (strange.length > 0) faults.add(say`operators no print has: ${strange.slice(0, 5).join(' ')}`);
  for (const { clips } of [...strokes, ...fills]) if (clips.length > 0) faults.add(say`a clip hides marks`);
  for (const { colour, width, dash, layer } of strokes) {
    if (!isBlack(colour)) faults.add(say`a line on layer ${layer} that is not black`);
    if (!(width >= narrowest && width <= widest)) faults.add(say`a line ${width.toFixed(2)} mm wide`);
    if (layer === 'cut' && dash.length > 0) faults.add(say`a cut line with gaps`);
  }
  for (const { colour } of fills)
    if (!isBlack(colour) && !isWhite(colour)) faults.add(say`a fill neither black nor white`);
  if (letterings.some(({ colour }) => !isBlack(colour))) faults.add(say`lettering that is not black`);
  const paper = { ...mediaBox };
  for (const { path } of [...strokes, ...fills]) {
    const box = hull(path);
    const isOn =
      box.minX >= paper.minX && box.minY >= paper.minY && box.maxX <= paper.maxX && box.maxY <= paper.maxY;
    if (!isOn) faults.add(say`marks off the paper`);
  }
  return [...faults];
};

/** True where the lines on layers that reach the steel are longer than paper has room for. */
const isBlackened = ({ strokes, mediaBox }: PdfPage): boolean => {
  let length = 0;
  for (const { layer, path } of strokes) {
    if (layer !== 'cut' && layer !== 'punch' && layer !== 'bend') continue;
    for (const { start, segments } of path) {
      let from = start;
      for (const segment of segments) {
        // A curve is no longer than the lines to and between the points that steer it.
        const through = segment.kind === 'curve' ? [segment.c1, segment.c2, segment.to] : [segment.to];
        for (const to of through) {
          length += Math.hypot(to.x - from.x, to.y - from.y) * MM;
          from = to;
        }
      }
    }
  }
  const area = (mediaBox.maxX - mediaBox.minX) * (mediaBox.maxY - mediaBox.minY) * MM * MM;
  return length > limits.ink || length > limits.inkPerArea * area;
};

/** Every page is painted as the program paints: black lines of its widths, nothing clipped, nothing painted over. */
export const checkInk = (file: PdfFile): readonly Finding[] => {
  const told: string[] = [];
  let most = 0;
  for (const page of file.pages) {
    const faults = [...pageFaults(page)];
    if (isBlackened(page)) throw new BeyondLimit(say`page ${page.label} has more lines than paper`);
    most = Math.max(most, mostHidden(page));
    if (hidesLettering(page)) faults.push(say`white over lettering`);
    if (faults.length > 0 && told.length < 5) told.push(`${page.label}: ${faults.join(', ')}`);
  }
  return [
    factFinding(
      say`ink`,
      say`all pages`,
      told.length === 0,
      told.length === 0 ? say`black, unclipped` : told.join('; '),
      say`black lines of the widths that prints have, nothing clipped, nothing off the paper`,
    ),
    factFinding(
      say`cut lines and punch marks in sight`,
      say`all pages`,
      most <= hidden,
      say`${most.toFixed(2)} mm painted over`,
      say`at most ${hidden} mm of a line`,
    ),
  ];
};
