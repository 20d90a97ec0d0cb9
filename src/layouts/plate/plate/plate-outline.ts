import { onlyOne } from '../../../fields/among.ts';
import {
  arcEdge,
  circleContour,
  contourPoints,
  lineEdge,
  rectangleContour,
  type Contour,
  type Corners,
} from '../../../geometry/contour.ts';
import { jointError } from '../../../issue.ts';
import { ofArc, rise, shown, taken, widthOf } from '../../../sheets/measured.ts';
import type { Stock } from '../../../stock/stock.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven } from '../../../units/writing.ts';
import { say, translate } from '../../../words/say.ts';
import { gussetBody } from './gusset.ts';
import type { PlateAsked } from './plate-fields.ts';
import { lengthOf } from '../../../units/quantity.ts';
import { checkOwners, need, type PlateBody } from './plate-part.ts';

/** The corners asked for. Throws where they are given twice or larger than the sides let them. */
const readCorners = (
  { cornerRadius, snip }: PlateAsked,
  width: number,
  height: number,
  setting: Setting,
): Corners => {
  onlyOne({ cornerRadius, snip }, say`give one of them`);
  const size = cornerRadius ?? snip ?? 0;
  const most = Math.min(width, height) / 2;
  if (size > most)
    throw jointError(
      snip === undefined ? 'corner-radius' : 'snip',
      'corners-too-large',
      say`corners of ${writeBoth(size, setting)} do not fit on ${writeBoth(width, setting)} by ${writeBoth(height, setting)}`,
      say`at most ${writeBoth(most, setting)}`,
    );
  return { kind: snip === undefined ? 'round' : 'snip', size };
};

const describeCorners = ({ kind, size }: Corners, setting: Setting): string =>
  size === 0
    ? say`square corners`
    : kind === 'round'
      ? say`corners rounded ${writeGiven(size, setting)}`
      : say`corners snipped ${writeGiven(size, setting)} at 45°`;

const RECTANGLE_STEPS = () => [
  say`Lay the sheet to the plate’s straightest edge, TOP up, and square it from there; tape it down.`,
  say`Prick the corners and every cross. Lift the sheet, punch, strike the outline through the corners.`,
];

const roundSteps = (diameter: number, setting: Setting): readonly string[] => [
  say`Lay the sheet on the plate, tape it down. Punch the center and every cross. Lift the sheet.`,
  say`Strike the outline from the center with dividers or trammel: radius ${writeBoth(diameter / 2, setting)}.`,
];

const rectangleBody = (
  heading: string,
  width: number,
  height: number,
  corners: Corners,
  setting: Setting,
): PlateBody => ({
  heading,
  contour: rectangleContour(width, height, corners),
  width,
  height,
  round: false,
  datum: { x: -width / 2, y: -height / 2, words: say`the left and lower edge` },
  subject: [
    say`${writeBoth(width, setting)} wide, ${writeBoth(height, setting)} high, ${describeCorners(corners, setting)}`,
  ],
  facts: [
    [say`Width`, shown(lengthOf(width), widthOf('x'))],
    [say`Height`, shown(lengthOf(height), rise())],
    [say`Both diagonals, corner to corner`, lengthOf(Math.hypot(width, height))],
  ],
  steps: RECTANGLE_STEPS(),
});

const discBody = (
  heading: string,
  diameter: number,
  setting: Setting,
  edge = { centre: { x: 0, y: 0 }, radius: diameter / 2 },
): PlateBody => ({
  heading,
  contour: circleContour({ x: 0, y: 0 }, diameter),
  width: diameter,
  height: diameter,
  round: true,
  datum: { x: 0, y: 0, words: say`the center: right and up are +` },
  subject: [`⌀ ${writeBoth(diameter, setting)}`],
  facts: [
    [say`Diameter`, shown(lengthOf(diameter), taken(ofArc('radius', edge), 2))],
    [
      say`Around the edge, by tape`,
      shown(lengthOf(Math.PI * diameter), taken(ofArc('radius', edge), 2 * Math.PI)),
    ],
  ],
  steps: roundSteps(diameter, setting),
});

/** The pipe or tube that is given, at most one. */
const readStock = ({ pipe, tube }: PlateAsked): void => {
  onlyOne({ pipe, tube }, say`give one of them`);
};

const tubeContour = (tube: Stock | undefined): Contour | undefined =>
  tube?.section.outside.flatMap((edge) =>
    edge.kind === 'line'
      ? [lineEdge(edge.from, edge.to)]
      : edge.kind === 'arc'
        ? [arcEdge(edge.centre, edge.radius, edge.start, edge.sweep)]
        : [],
  );

const stockContour = ({ pipe, tube }: PlateAsked): Contour | undefined =>
  pipe ? circleContour({ x: 0, y: 0 }, pipe.od) : tubeContour(tube);

/** A tube's sides and the radius of its corners by its section, mm. */
const tubeSizes = (
  tube: Stock | undefined,
): { readonly width: number; readonly height: number; readonly corner: number } => {
  const points = contourPoints(tubeContour(tube) ?? []);
  const across = (values: readonly number[]): number => Math.max(0, ...values) - Math.min(0, ...values);
  const corner = tube?.section.outside.find((edge) => edge.kind === 'arc');
  return {
    width: across(points.map(({ x }) => x)),
    height: across(points.map(({ y }) => y)),
    corner: corner?.radius ?? 0,
  };
};

const stockWords = ({ pipe, tube }: PlateAsked): string => pipe?.designation ?? tube?.designation ?? '';

const fitWords = () =>
  ({
    flush: say`flush with the outside`,
    inside: say`inside the bore`,
    over: say`over the end`,
  }) as const;

/** A cap on the end of a pipe or tube: flush, dropped in, or laid over it with a ledge for the weld. */
const capBody = (asked: PlateAsked, setting: Setting): PlateBody => {
  const { pipe, tube, fit, clearance, overhang } = asked;
  readStock(asked);
  const wall = pipe?.wall ?? tube?.wall ?? 0;
  const grow = fit === 'flush' ? 0 : fit === 'over' ? overhang : -(wall + clearance);
  const { width, height, corner } = tubeSizes(tube);
  const least = pipe ? pipe.od : Math.min(width, height);
  if ((pipe ?? tube) && least + 2 * grow <= 0)
    throw jointError(
      'clearance',
      'no-cap-left',
      say`a clearance of ${writeBoth(clearance, setting)} leaves nothing to drop into the bore`,
      say`it must be less than ${writeBoth(least / 2 - wall, setting)}`,
    );
  const more =
    fit === 'flush'
      ? ''
      : fit === 'over'
        ? say`, ${writeBoth(overhang, setting)} past it all around`
        : say`, ${writeBoth(clearance, setting)} clear all around`;
  const subject = [say`For ${stockWords(asked)}, ${fitWords()[fit]}${more}`];
  const steps =
    fit === 'inside'
      ? [say`Try the cap in the end before you cut the rest: bore and seam differ from the table.`]
      : [say`Hold the cap on the end before you weld: the outside differs from the table.`];
  const footprint = fit === 'over' ? footprintOf(asked) : undefined;
  const finish = (body: PlateBody): PlateBody => ({
    ...body,
    subject: [...subject, ...body.subject],
    steps: [...body.steps, ...steps],
    footprint,
  });
  if (pipe) return finish(discBody(say`End cap`, pipe.od + 2 * grow, setting));
  need(tube, 'pipe', say`a cap is for a pipe or a tube`, say`"NPS 4 sch 40" or tube "tube 100x100x6mm"`);
  const [w, h] = [width + 2 * grow, height + 2 * grow];
  const chosen = asked.cornerRadius !== undefined || asked.snip !== undefined || fit === 'over';
  const corners: Corners = chosen
    ? readCorners(asked, w, h, setting)
    : { kind: 'round', size: Math.max(0, corner + grow) };
  return finish(rectangleBody(say`End cap`, w, h, corners, setting));
};

const footprintOf = (asked: PlateAsked): PlateBody['footprint'] => {
  const contour = stockContour(asked);
  return contour && { contour, words: stockWords(asked) };
};

/** The outline of the part asked for. Throws where an input is missing or impossible. */
export const readBody = (asked: PlateAsked, setting: Setting): PlateBody => {
  const { shape } = asked;
  checkOwners(asked);
  if (shape === 'gusset') return gussetBody(asked, setting);
  if (shape === 'cap') return capBody(asked, setting);
  if (shape === 'disc' || shape === 'ring') {
    const diameter = need(
      asked.diameter,
      'diameter',
      say`a ${translate(shape)} has an outside diameter`,
      '300mm',
    );
    if (shape === 'ring') need(asked.bore, 'bore', say`a ring has an inside diameter`, '200mm');
    return discBody(shape === 'disc' ? say`Disc` : say`Ring`, diameter, setting);
  }
  const width = need(
    asked.width,
    'width',
    say`a ${shape === 'base' ? say`base plate` : say`rectangle`} has a width`,
    '300mm',
  );
  const height = need(asked.height, 'height', say`and a height`, '200mm');
  readStock(asked);
  const body = rectangleBody(
    shape === 'base' ? say`Base plate` : say`Plate`,
    width,
    height,
    readCorners(asked, width, height, setting),
    setting,
  );
  const footprint = footprintOf(asked);
  return footprint
    ? {
        ...body,
        footprint,
        subject: [...body.subject, say`${footprint.words} stands in the middle`],
        steps: [
          ...body.steps,
          say`Mark where the ${asked.pipe ? say`pipe` : say`tube`} stands: prick around its line and punch it lightly on the center lines.`,
        ],
      }
    : body;
};
