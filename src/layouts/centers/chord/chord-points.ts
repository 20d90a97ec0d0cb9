import type { Mark, Picture, Sheet } from '../../../drawing/model.ts';
import { circlePath, FINE } from '../../../drawing/paths.ts';
import { makePicture, viewPath, viewRule, viewText } from '../../../drawing/view.ts';
import { arcByAngle } from '../../../geometry/chord-arc.ts';
import { arcSpanned, circleErrors, fitCircle, type CircleFit } from '../../../geometry/circle-fit.ts';
import { itemAt } from '../../../lists.ts';
import type { Vec2 } from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { formatAngle } from '../../../units/angle.ts';
import { angleOf, decimalOf, lengthOf, writeOnce } from '../../../units/quantity.ts';
import { type Setting, tapeMark } from '../../../units/setting.ts';
import { writeBoth, writeDecimal } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { chordFigures, chordMarks, shownHalf } from './chord-marks.ts';

/** A circle through measured points. Lengths in mm, angles in radians. */
export interface PointsCircle {
  readonly fit: CircleFit;
  /** How far round the points go. */
  readonly spanned: number;
  /** What 1 mm in every point, square to the edge, does to radius and center. */
  readonly errors: { readonly radius: number; readonly center: number } | undefined;
}

/** The circle nearest to all points. Throws a `joint` UserError where they lie on one line. */
export const circleOfPoints = (points: readonly Vec2[]): PointsCircle => {
  const fit = fitCircle(points);
  // Farther from any point than this the edge is practically straight.
  if (!fit || fit.radius > 1e6)
    throw jointError(
      'points',
      'on-a-line',
      say`the ${points.length} points lie on one straight line, as near as they were measured`,
      say`measure points further around the edge`,
    );
  return { fit, spanned: arcSpanned(points, fit.center), errors: circleErrors(points, fit) };
};

/** Points on less of the circle than this give it only roughly. */
const SHORT = Math.PI / 2;

/** How far a point lies outside the circle, in the reader's unit: `+0.125`, `−0.0049`. */
const writeOff = (off: number, { units }: Setting): string =>
  `${off < 0 ? '−' : '+'}${units === 'in' ? (Math.abs(off) / 25.4).toFixed(4) : Math.abs(off).toFixed(3)}`;

/** The sheet of a circle through points. */
export const pointsSheet = (points: readonly Vec2[], shown: number | undefined, setting: Setting): Sheet => {
  const { fit, spanned, errors } = circleOfPoints(points);
  const slip = tapeMark(setting);
  const { center, radius, residuals } = fit;
  const arc = arcByAngle(radius, Math.min(spanned, 2 * Math.PI - 1e-3));
  const half = shownHalf(arc, shown);
  const [most, least] = [Math.max(...residuals), Math.min(...residuals)];
  const rms = Math.sqrt(fit.squares / points.length);
  const exact = points.length === 3;
  return plateSheet({
    name: 'chord',
    heading: say`Circle through measured points`,
    subject: [
      say`${points.length} points, least squares of their distances to the circle`,
      say`Diameter ${writeDecimal(2 * radius, setting)}, radius ${writeDecimal(radius, setting)}`,
      half === undefined
        ? say`Drawn: the arc from the first to the last point on its chord`
        : say`Drawn: the middle ${writeBoth(2 * half, setting)} of the arc, to try on the edge`,
    ],
    marks: chordMarks(arc, half, setting),
    fit: fitFlat(chordFigures(arc, half)),
    steps: [
      CHECK_PRINT(),
      say`Look at the table: a point that lies far off was read or written down wrong, or the edge has a dent there.`,
      say`The center is ${writeDecimal(center.x, setting)} along x and ${writeDecimal(center.y, setting)} along y from where you measured.`,
      say`Prove it: from the center to the edge is ${writeBoth(radius, setting)} everywhere.`,
      say`Cut along the arc and try it before you trust the figures.`,
    ],
    facts: [
      [say`Diameter`, decimalOf(2 * radius)],
      [say`Radius`, decimalOf(radius)],
      [say`Center, x`, decimalOf(center.x)],
      [say`Center, y`, decimalOf(center.y)],
      [say`Points off the circle, typical`, exact ? say`none: three points always fit` : decimalOf(rms, 3)],
      [say`Out-of-round, farthest out less farthest in`, decimalOf(most - least, 3)],
      [say`Points go around the edge`, angleOf(spanned, 1)],
      ...(errors
        ? ([
            [
              say`${writeOnce(lengthOf(slip), setting)} in the points moves the radius`,
              lengthOf(errors.radius * slip),
            ],
            [say`and the center`, lengthOf(errors.center * slip)],
          ] as const)
        : []),
    ],
    tables: [
      {
        title: say`Points, and how far each lies outside the circle (− inside)`,
        header: [say`Point`, 'x', 'y', setting.units === 'in' ? say`off, in` : say`off, mm`],
        rows: points.map(({ x, y }, i) => [
          String(i + 1),
          lengthOf(x),
          lengthOf(y),
          writeOff(itemAt(residuals, i), setting),
        ]),
      },
    ],
    pictures: [pointsPicture(points, fit)],
    cautions: [
      ...(spanned < SHORT
        ? [
            say`The points go around only ${formatAngle(spanned, 0)} of the circle: a small error in them is a large one in the radius. Measure further around where you can.`,
          ]
        : []),
      ...(exact ? [say`Three points fit any error of theirs: measure five or more to see it.`] : []),
    ],
  });
};

/** The circle, its center and the points, how far they lie off drawn larger. */
const pointsPicture = (points: readonly Vec2[], { center, radius, residuals }: CircleFit): Picture => {
  const R = 22;
  const worst = Math.max(...residuals.map(Math.abs), 1e-9);
  const place = (p: Vec2, i: number): Vec2 => {
    const angle = Math.atan2(p.y - center.y, p.x - center.x);
    const r = R + (4 * itemAt(residuals, i)) / Math.max(worst, radius * 1e-6);
    return { x: r * Math.cos(angle), y: r * Math.sin(angle) };
  };
  const numbered = points.length <= 24;
  const marks: Mark[] = [
    viewPath(circlePath({ x: 0, y: 0 }, R)),
    ...[0, Math.PI / 2].map((angle) => {
      const [x, y] = [(R + 3) * Math.cos(angle), (R + 3) * Math.sin(angle)];
      return viewRule({ x: -x, y: -y }, { x, y }, FINE, 'long-dash-dot');
    }),
    ...points.flatMap((p, i) => {
      const at = place(p, i);
      const size = Math.hypot(at.x, at.y);
      return [
        viewPath(circlePath(at, 0.7)),
        ...(numbered
          ? viewText({ x: (at.x * (size + 4.5)) / size, y: (at.y * (size + 4.5)) / size }, String(i + 1))
          : []),
      ];
    }),
  ];
  return makePicture(say`The points on the circle; how far they lie off is drawn larger`, marks);
};
