import type { Fact, Sheet } from '../../../drawing/model.ts';
import { needed, onlyOne } from '../../../fields/among.ts';
import type { Values } from '../../../fields/field.ts';
import { choiceField, lengthField, parsedField, pipeField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import type { Pose } from '../../../geometry/pose-by-tape.ts';
import type { Vec3 } from '../../../geometry/vector.ts';
import { bandFields, pickBand } from '../../../sheets/band-fields.ts';
import { gapField } from '../../../sheets/contact.ts';
import { parseFlangeEnd } from '../../../stock/flange-length.ts';
import { PULL_BACK } from '../../../stock/run-part.ts';
import { angleOf, lengthOf, writeOnce } from '../../../units/quantity.ts';
import { type Setting, tapeMark } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { areFacing, solveStraight } from './closing-solve.ts';
import { straightFigures, type StraightRequest, straightSheets } from './closing-straight.ts';
import {
  namedResiduals,
  parseKnownEnd,
  poseBetween,
  solveTape,
  type TapedPose,
  tapeField,
} from './closing-tape.ts';
import { turnedFigures, type TurnedRequest, turnedSheets } from './closing-turned.ts';
import { tapeForm } from './tape-form.ts';

const knownEndField = (help: string) =>
  parsedField(help, {
    kind: 'designation',
    symbol: 'POINT / WAY',
    example: '0mm,0mm,0mm / 0,0,1',
    parse: parseKnownEnd,
    optional: true,
  });

const fields = {
  pipe: pipeField('the pipe of both ends and of the piece between', {
    example: 'NPS 6 sch 40',
    aliases: ['stock'],
  }),
  tape: tapeField(
    'taped distances from marks A1 A2 A3 (A4) on one end to B1 B2 B3 (B4) on the other, or a CSV file of them; left out, the form to fill in is printed',
    'A1-B1 1203.5mm, A1-B2 1210mm, A1-B3 1198mm, …',
  ),
  markRadius: lengthField(
    'center of the end to its marks, where they stand on bars or a disc clamped across it; left out, they are on the rim',
    { example: '300mm', above: 0, max: 20_000, optional: true },
  ),
  tapeError: lengthField('how far off one tape may be: two readings in three lie within it', {
    default: '1mm',
    example: '1mm',
    above: 0,
    max: 100,
  }),
  side: choiceField(
    'on which side of end A’s face the center of end B lies: the same tapes fit both; left out, ahead',
    ['ahead', 'behind'],
    { optional: true },
  ),
  from: knownEndField('instead of tapes, the center of end A and the direction out of it, in any one frame'),
  to: knownEndField('the same of end B'),
  turns: choiceField(
    'one straight piece, or two turns and three straights where the ends do not look at each other; left out, straight where that can be',
    ['straight', 'elbow', 'miter'],
    { optional: true },
  ),
  legs: lengthField(
    'with two turns: from face A to the center of the first, from face B to the center of the second; left out, the shortest',
    { example: '400mm,500mm', above: 0, list: 2, optional: true },
  ),
  least: lengthField(
    'with two turns and no legs: straight pipe kept beyond each turn; left out, one outside diameter',
    { example: '100mm', optional: true },
  ),
  gap: { ...gapField, help: 'root gap at each weld' },
  gasket: lengthField('gasket at each end, between flanges', { default: '0mm', example: '3mm', max: 50 }),
  flange: parsedField('flange that closes each end of the piece against the face it was taped at', {
    kind: 'designation',
    symbol: 'FLANGE',
    example: 'flange NPS 6 class 150 weld-neck',
    parse: (text, { path }) => parseFlangeEnd(text, { path }),
    optional: true,
  }),
  green: lengthField('length left on the end at B, to trim when the piece is offered up', {
    default: '0mm',
    example: '50mm',
    max: 1000,
  }),
  mismatch: lengthField('most that the edges of a joint may stand off one another before the sheet says so', {
    default: '1.5mm',
    example: '1.5mm',
    max: 50,
  }),
  ...bandFields,
} as const;

type ClosingValues = Values<typeof fields>;

/** Where end B stands, by tape or by coordinates; undefined where nothing was measured yet. */
const poseOf = (
  values: ClosingValues,
): { readonly pose: Pose; readonly taped: TapedPose | undefined } | undefined => {
  const { pipe, tape, markRadius, tapeError, side, from, to } = values;
  if (from !== undefined || to !== undefined) {
    onlyOne({ tape, coordinates: from ?? to }, say`give tape, or from and to`);
    const ends = [
      needed('from', from, say`give from and to`),
      needed('to', to, say`give from and to`),
    ] as const;
    return { pose: poseBetween(...ends), taped: undefined };
  }
  if (tape === undefined) return undefined;
  const taped = solveTape({ readings: tape, markRadius: markRadius ?? pipe.od / 2, tapeError, side });
  return { pose: taped.pose, taped };
};

/** What the tapes say of themselves. */
const knownFacts = (taped: TapedPose | undefined): readonly Fact[] => {
  if (!taped) return [];
  const { length, sideways, angle, roll } = taped.uncertainty;
  return [
    [say`Known within, length`, lengthOf(length)],
    [say`Known within, sideways`, lengthOf(sideways)],
    [say`Known within, angle`, angleOf(angle)],
    [say`Known within, roll`, angleOf(roll)],
  ];
};

const cautionsOf = (
  values: ClosingValues,
  taped: TapedPose | undefined,
  setting: Setting,
): readonly string[] => {
  const { uncertainty, again } = taped ?? {};
  const better = uncertainty?.betterRadius;
  const once = (length: number): string => writeOnce(lengthOf(length), setting);
  const slip = tapeMark(setting);
  return [
    ...(again === undefined
      ? []
      : [say`The tapes agree less well than they should: tape ${again} again before you cut.`]),
    ...(uncertainty === undefined
      ? []
      : [
          say`${once(slip)} of tape moves end B ${once(uncertainty.sidewaysPerMm * slip)} sideways from marks ${writeBoth(values.markRadius ?? values.pipe.od / 2, setting)} off center${better === undefined ? '.' : say`; from marks ${writeBoth(better, setting)} off center it would be under ${once(1.5 * slip)}.`}`,
          say`Known within: 19 times in 20, for tapes as accurate as was said.`,
        ]),
    setting.units === 'in'
      ? say`Measured cold, it fits cold: steel grows .08″ per 100 ft for each 10°F.`
      : say`Measured cold, it fits cold: steel grows 0.012 mm per meter for each °C.`,
    say`Whether this joint may be closed so, its gaps and its welds are decided by the code that rules the line and by qualified people.`,
  ];
};

const backOf = ({ gasket, flange }: ClosingValues): number =>
  gasket + (flange ? flange.takeOff + (flange.kind === 'socket' ? PULL_BACK : 0) : 0);

const betweenOf = ({ gap, gasket, flange, green }: ClosingValues, setting: Setting): readonly string[] => {
  const taken = [
    ...(gasket > 0 ? [say`gaskets ${writeBoth(gasket, setting)}`] : []),
    ...(flange ? [`${flange.designation}, ${writeBoth(flange.takeOff, setting)}`] : []),
    ...(gap > 0 ? [say`root gaps ${writeBoth(gap, setting)}`] : []),
  ];
  return [
    say`Taken off at each end: ${taken.length > 0 ? taken.join('; ') : say`nothing, it fits face to face`}${green > 0 ? say`. Green at B ${writeBoth(green, setting)}` : ''}`,
  ];
};

const straightRequest = (
  values: ClosingValues,
  pose: Pose,
  taped: TapedPose | undefined,
  setting: Setting,
): StraightRequest => ({
  pipe: values.pipe,
  straight: solveStraight(pose, backOf(values)),
  gap: values.gap,
  green: values.green,
  mismatch: values.mismatch,
  making: pickBand(values),
  between: betweenOf(values, setting),
  known: knownFacts(taped),
  cautions: cautionsOf(values, taped, setting),
});

const turnedRequest = (
  values: ClosingValues,
  turns: 'elbow' | 'miter',
  pose: Pose,
  taped: TapedPose | undefined,
  setting: Setting,
): TurnedRequest => {
  const { pipe, legs, least, gap, green } = values;
  return {
    pipe,
    pose,
    turns,
    legs,
    least: least ?? pipe.od,
    back: backOf(values),
    gap,
    green,
    making: pickBand(values),
    between: betweenOf(values, setting),
    known: knownFacts(taped),
    cautions: cautionsOf(values, taped, setting),
  };
};

/** What is made: what was asked for, else a straight piece; undefined where that cannot be. */
const kindOf = (values: ClosingValues, pose: Pose): 'straight' | 'elbow' | 'miter' | undefined =>
  values.turns ?? (areFacing(pose, backOf(values)) ? 'straight' : undefined);

const asList = ({ x, y, z }: Vec3): readonly [number, number, number] => [x, y, z];

/** The piece that closes a gap between two pipe ends that stand anyhow, measured with nothing but a tape. */
export const closing = defineLayout({
  id: 'closing',
  summary: 'the piece that closes the gap between two pipe ends, from tapes between marks on both',
  family: 'measured on the job',
  words: ['closing spool', 'make-up piece', 'pup', 'field fit', 'gap', 'tape', 'trilateration'],
  fields,
  sheets: ['tape form', 'closing', 'start end', 'finish end', 'elbow trim N'],
  examples: [
    'closing --pipe "NPS 6 sch 40"',
    'closing --pipe "DN 150 sch 40" --from "0mm,0mm,0mm / 0,0,1" --to "40mm,-25mm,1200mm / 0.03,0.02,-1" --gap 3mm',
    'closing --pipe "DN 150 sch 40" --mark-radius 300mm --gap 3mm --tape "A1-B1 1206.6mm, A1-B2 1310.4mm, A1-B3 1292.4mm, A2-B1 1327.0mm, A2-B2 1306.5mm, A2-B3 1199.2mm, A3-B1 1311.6mm, A3-B2 1201.9mm, A3-B3 1308.8mm"',
    'closing --pipe "NPS 4 sch 40" --from "0mm,0mm,0mm / 0,0,1" --to "500mm,300mm,900mm / -1,0,0" --turns elbow --gap 3mm -o closing.pdf',
  ],
  draw: (values, setting): readonly Sheet[] => {
    const { pipe, tape, markRadius } = values;
    const found = poseOf(values);
    const kind = found && kindOf(values, found.pose);
    const form = tapeForm(
      {
        pipe,
        markRadius: markRadius ?? pipe.od / 2,
        readings: tape ?? [],
        solved: found,
        askew: found !== undefined && kind === undefined,
      },
      setting,
    );
    if (!found || kind === undefined) return [form];
    const { pose, taped } = found;
    const sheets =
      kind === 'straight'
        ? straightSheets(straightRequest(values, pose, taped, setting), setting)
        : turnedSheets(turnedRequest(values, kind, pose, taped, setting), setting);
    return taped ? [...sheets, form] : sheets;
  },
  results: (values, setting) => {
    const found = poseOf(values);
    if (!found) return {};
    const { pose, taped } = found;
    const kind = kindOf(values, pose);
    const residuals = taped ? namedResiduals(values.tape ?? [], taped.residuals) : undefined;
    return {
      pose: { at: asList(pose.at), along: asList(pose.along), station0: asList(pose.station0), residuals },
      residuals,
      again: taped?.again,
      uncertainty: taped && { confidence: 0.95, ...taped.uncertainty },
      closing:
        kind === 'straight'
          ? straightFigures(straightRequest(values, pose, taped, setting), setting)
          : kind && turnedFigures(turnedRequest(values, kind, pose, taped, setting)),
    };
  },
});
