import {
  Colors,
  DxfWriter,
  LWPolylineFlags,
  point2d,
  point3d,
  SplineFlags,
  TextHorizontalAlignment,
  TextVerticalAlignment,
  Units,
  type CommonEntityOptions,
  type vec3_t,
} from '@tarikjabiri/dxf';
import { checkAreSheets } from '../drawing/check-sheets.ts';
import { dashPattern } from '../drawing/dash.ts';
import type { Lettering, LineType, Path, Sheet } from '../drawing/model.ts';
import { roles, type Role } from '../drawing/role.ts';
import { NARROW } from '../drawing/paths.ts';
import { modulo } from '../geometry/angle-units.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { findCircle, tracePieces, type Piece } from './path-pieces.ts';
import { spreadSheets } from './side-by-side.ts';

/** DXF numbers must not be written with a power of ten, so they stop at 1e-6 mm. */
const round = (value: number): number => {
  const rounded = Math.round(value * 1e6) / 1e6;
  return rounded === 0 ? 0 : rounded;
};

/** So fine that a chord of 10 m stays true to 1e-6 mm; the last digits of a tangent are not the same on every machine. */
const roundBulge = (value: number): number => Number(value.toFixed(10)) + 0;

const flat = ({ x, y }: Vec2) => point2d(round(x), round(y));
const solid = ({ x, y }: Vec2): vec3_t => point3d(round(x), round(y), 0);
const degrees = (radians: number): number => round(modulo((radians * 180) / Math.PI, 360));

/** Lines and arcs as one polyline; an arc's bulge is the tangent of a quarter of its sweep (DXF Reference, LWPOLYLINE). */
const addPolyline = (
  dxf: DxfWriter,
  pieces: readonly Exclude<Piece, { kind: 'curve' }>[],
  closed: boolean,
  line: CommonEntityOptions,
): void => {
  const vertices = pieces.map((piece) => ({
    point: flat(piece.from),
    bulge: piece.kind === 'arc' ? roundBulge(Math.tan(piece.sweep / 4)) : 0,
  }));
  const last = pieces[pieces.length - 1];
  if (!closed && last) vertices.push({ point: flat(last.to), bulge: 0 });
  dxf.addLWPolyline(vertices, {
    ...line,
    flags: closed ? LWPolylineFlags.Closed : LWPolylineFlags.None,
  });
};

/** Cubics end to end as one cubic spline: inner knots three deep, so that every Bézier stays exactly itself. */
const addSpline = (dxf: DxfWriter, path: Path, line: CommonEntityOptions): void => {
  const points: Vec2[] = [path.start];
  let from = path.start;
  for (const segment of path.segments) {
    const { to } = segment;
    const third = (k: number): Vec2 => ({
      x: from.x + ((to.x - from.x) * k) / 3,
      y: from.y + ((to.y - from.y) * k) / 3,
    });
    points.push(...(segment.kind === 'curve' ? [segment.c1, segment.c2] : [third(1), third(2)]), to);
    from = to;
  }
  const count = path.segments.length;
  const inner = Array.from({ length: count - 1 }, (_, i) => [i + 1, i + 1, i + 1]).flat();
  dxf.addSpline(
    {
      controlPoints: points.map(solid),
      degreeCurve: 3,
      knots: [0, 0, 0, 0, ...inner, count, count, count, count],
      flags: path.closed ? SplineFlags.Closed | SplineFlags.Planar : SplineFlags.Planar,
    },
    line,
  );
};

const addPath = (dxf: DxfWriter, path: Path, line: CommonEntityOptions): void => {
  const circle = findCircle(path);
  if (circle) {
    dxf.addCircle(solid(circle.centre), round(circle.radius), line);
    return;
  }
  const pieces = tracePieces(path);
  const straight = pieces.filter((piece) => piece.kind !== 'curve');
  if (straight.length < pieces.length) addSpline(dxf, path, line);
  else if (pieces.length === 1 && pieces[0]?.kind === 'line')
    dxf.addLine(solid(pieces[0].from), solid(pieces[0].to), line);
  else if (pieces.length === 1 && pieces[0]?.kind === 'arc') {
    const { from, to, centre, radius, sweep } = pieces[0];
    const angle = (p: Vec2): number => degrees(Math.atan2(p.y - centre.y, p.x - centre.x));
    const [start, end] = sweep > 0 ? [from, to] : [to, from];
    dxf.addArc(solid(centre), round(radius), angle(start), angle(end), line);
  } else addPolyline(dxf, straight, path.closed, line);
};

const across = {
  left: TextHorizontalAlignment.Left,
  centre: TextHorizontalAlignment.Center,
  right: TextHorizontalAlignment.Right,
} as const;
const upright = {
  baseline: TextVerticalAlignment.BaseLine,
  middle: TextVerticalAlignment.Middle,
  top: TextVerticalAlignment.Top,
} as const;

/**
 * Text as a reader of the format shows it letter by letter: two percent signs begin a code for a sign or a style, and are each
 * written `%%%`; a caret begins a control character, and is followed by a blank (DXF Reference, from memory).
 */
const writeText = (text: string): string =>
  text.replace(/%{2,}/g, (signs) => '%%%'.repeat(signs.length)).replaceAll('^', '^ ');

const addLettering = (dxf: DxfWriter, { at, text, height, align, valign, angle }: Lettering): void => {
  dxf.addText(solid(at), height, writeText(text), {
    rotation: degrees(angle),
    horizontalAlignment: across[align],
    verticalAlignment: upright[valign],
    secondAlignmentPoint: solid(at),
  });
};

/** The line of a role's layer (ISO 128-2: bends long-dashed double-dotted, center lines long-dashed dotted). */
const layerLine = (role: Role): LineType =>
  role === 'bend' ? 'long-dash-double-dot' : role === 'centre' ? 'long-dash-dot' : 'continuous';

const dashed = ['dashed', 'long-dash-dot', 'long-dash-double-dot'] as const;

/** A line type's name in the file; the format has its own for a continuous one. */
const lineName = (line: LineType): string => (line === 'continuous' ? 'Continuous' : line);

/** Dashes as the format has them: gaps are negative. */
const addLineTypes = (dxf: DxfWriter): void => {
  for (const line of dashed) {
    const pattern = dashPattern(line, NARROW);
    dxf.addLType(
      line,
      line.replaceAll('-', ' '),
      pattern.map((element, i) => round(i % 2 === 0 ? element : -element)),
    );
  }
};

/**
 * Sheets as one DXF in millimetres ($INSUNITS 4), the first sheet's origin at (0, 0), layers by role. Lines, arcs and
 * circles are entities of their own kind, outlines closed polylines, other curves cubic splines. Layers bear the line type of their
 * role; what is drawn otherwise on one says so.
 */
export const renderDxf = (sheets: readonly Sheet[]): string => {
  checkAreSheets(sheets);
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  dxf.setVariable('$LASTSAVEDBY', { 1: 'Soapstone' });
  addLineTypes(dxf);
  for (const role of roles) dxf.addLayer(role, Colors.White, lineName(layerLine(role)));
  for (const { marks } of spreadSheets(sheets)) {
    for (const mark of marks) {
      dxf.setCurrentLayerName(mark.role);
      if (mark.kind === 'text') addLettering(dxf, mark);
      else if (mark.kind === 'stroke' || mark.ink === 'black') {
        const line = mark.kind === 'stroke' ? mark.line : 'continuous';
        addPath(dxf, mark.path, line === layerLine(mark.role) ? {} : { lineType: lineName(line) });
      }
    }
  }
  return dxf.stringify();
};
