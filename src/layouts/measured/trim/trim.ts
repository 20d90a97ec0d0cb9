import type { Fact, Said, Sheet, Table } from '../../../drawing/model.ts';
import { cubicPath, NARROW, stroke } from '../../../drawing/paths.ts';
import type { Values } from '../../../fields/field.ts';
import { lengthField, pipeField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { roundAngle, TURN } from '../../../geometry/angle-units.ts';
import { developEnd } from '../../../geometry/development.ts';
import { type Tilt, tiltOf } from '../../../geometry/tilt.ts';
import { vec3 } from '../../../geometry/vector.ts';
import { requestError } from '../../../issue.ts';
import { solidMate } from '../../../joint/solid-mate.ts';
import type { Solid } from '../../../joint/solid.ts';
import { bandFields, pickBand } from '../../../sheets/band-fields.ts';
import { bandSheet } from '../../../sheets/band-sheet.ts';
import { drawBand, seamPosition } from '../../../sheets/cut-band.ts';
import { endPicture } from '../../../sheets/end-picture.ts';
import { stationNumber, stationOf } from '../../../stock/station.ts';
import { writeAngle } from '../../../units/angle.ts';
import { angleOf, lengthOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { worded } from '../../../drawing/worded.ts';
import { diametersField, outOfRoundSheet, ovalityFigures, writeStation } from './out-of-round.ts';
const WORDS = () => [say`TOP · TDC`, say`LEFT`, say`BOTTOM`, say`RIGHT`] as const;

const fields = {
  pipe: pipeField('the pipe whose end is measured', { example: 'NPS 10 sch 40', aliases: ['stock'] }),
  readings: lengthField(
    'how far the end stands from a square or level at top, bottom, left and right, facing it, in this order; a long reading is a low place',
    { example: '152mm,148.5mm,149mm,151.5mm', list: 4, optional: true },
  ),
  readingDiameter: lengthField(
    'diameter of the circle the readings were taken on; left out, the outside diameter',
    { example: '280mm', above: 0, max: 20_000, optional: true },
  ),
  allowance: lengthField('how far below the lowest place of the end the cut is set', {
    default: '0mm',
    example: '1mm',
    max: 200,
  }),
  diameters: diametersField(
    'for out-of-round: stations and diameters measured there, two that stand 90° apart or several',
  ),
  ...bandFields,
} as const;

type TrimValues = Values<typeof fields>;

/** The readings as a tilt; undefined where none were taken. */
const tiltFrom = ({ pipe, readings, readingDiameter }: TrimValues): Tilt | undefined => {
  if (readings === undefined) return undefined;
  const [top, bottom, left, right] = readings;
  if (
    top === undefined ||
    bottom === undefined ||
    left === undefined ||
    right === undefined ||
    readings.length > 4
  )
    throw requestError(
      'readings',
      'not-four',
      say`${readings.length} readings are given`,
      say`give four: top, bottom, left, right, such as 152mm,148.5mm,149mm,151.5mm`,
    );
  // Facing the end, stations run from the top to the left.
  return tiltOf({ at0: top, at90: left, at180: bottom, at270: right }, readingDiameter ?? pipe.od);
};

/** Readings whose sums across differ by more than this were not taken well, mm. */
const CLOSE = 1;

/** A plane square to the pipe at a height, or leaning as the end does, lowest toward the largest reading. */
const leaningPlane = (tilt: Tilt, height: number, lean: number): Solid => ({
  kind: 'plane',
  through: vec3(0, 0, height),
  normal: vec3(
    -Math.cos(tilt.station) * Math.sin(lean),
    -Math.sin(tilt.station) * Math.sin(lean),
    -Math.cos(lean),
  ),
});

const trimSheet = (values: TrimValues, tilt: Tilt, setting: Setting): Sheet => {
  const { pipe, allowance, ...rest } = values;
  const making = pickBand(rest);
  const radius = pipe.od / 2;
  const rise = radius * Math.tan(tilt.total);
  const square = leaningPlane(tilt, 0, 0);
  const seam = seamPosition(pipe, making, setting);
  const upper = developEnd(pipe.outline, { mate: solidMate(square), contact: 'od', gap: 0 }, seam);
  const end = developEnd(
    pipe.outline,
    { mate: solidMate(leaningPlane(tilt, rise + allowance, tilt.total)), contact: 'od', gap: 0 },
    seam,
  );
  const band = drawBand(pipe, { upper }, making, WORDS(), setting);
  const edge = stroke('reference', cubicPath(band.paper.lay(end.line)), NARROW, 'long-dash-double-dot');
  const across = 2 * rise;
  const sheet = bandSheet(
    {
      name: 'trim',
      heading: say`Trim an end square`,
      stock: pipe,
      band,
      making,
      about: [
        say`The end is ${writeAngle(tilt.total)} out of square, ${writeBoth(across, setting)} across the pipe, lowest at station ${writeStation(tilt.station)}`,
      ],
      aboutMore: [
        allowance > 0
          ? say`The cut goes ${writeBoth(allowance, setting)} below its lowest place`
          : say`The cut goes through its lowest place: the least that is lost`,
        say`Long-dash double-dot: the end as it was measured`,
      ],
      lines: [{ which: 'upper', contact: 'od', gap: 0, solids: [square] }],
      before: [
        say`Turn the square or level around and read all four again: half the difference is its own error.`,
        say`Check: top and bottom together and left and right together differ by ${writeBoth(Math.abs(tilt.closure), setting)}; on a flat end by nothing.`,
      ],
      wrap: say`Wrap it printed side out, station 0 at the top, until the reference edge meets itself, and shift it along until the double-dot line lies on the end all around; at station ${writeStation(tilt.station)} the cut line comes to ${allowance > 0 ? say`${writeBoth(allowance, setting)} below the end` : say`the end`}.`,
      after: [
        allowance > 0
          ? say`Cut on the line: ${writeBoth(allowance, setting)} comes off at station ${writeStation(tilt.station)}, ${writeBoth(across + allowance, setting)} across from it.`
          : say`Cut on the line: nothing comes off at station ${writeStation(tilt.station)}, ${writeBoth(across, setting)} across from it.`,
        say`Read all four again, then bevel.`,
      ],
      facts: [
        [say`Out of square, in all`, angleOf(tilt.total)],
        [say`Lowest at station`, stationOf(roundAngle(tilt.station, 10))],
        [say`Out of square across the pipe`, lengthOf(across)],
        ...leanFacts(tilt),
        [say`Comes off at most`, lengthOf(across + allowance)],
        [say`Readings off by`, lengthOf(Math.abs(tilt.closure))],
      ],
      tables: [offTable((angle) => end.ordinate((angle / TURN) * pipe.girth))],
      pictures: [
        endPicture(
          say`Facing the end`,
          pipe,
          [say`top`, say`left`, say`bottom`, say`right`],
          [{ angle: tilt.station, text: say`lowest` }],
        ),
      ],
      cautions: [
        ...(Math.abs(tilt.closure) > CLOSE
          ? [
              say`The readings do not agree: top and bottom add up to ${writeBoth(Math.abs(tilt.closure), setting)} ${tilt.closure > 0 ? say`more` : say`less`} than left and right. Read again, or the end is not flat.`,
            ]
          : []),
        say`How far an end or a flange face may be out of square is decided by the code or standard that rules the line.`,
      ],
      marks: [edge],
    },
    setting,
  );
  return { ...sheet, bounds: { ...sheet.bounds, maxY: Math.max(sheet.bounds.maxY, end.high + 2) } };
};

/** How far the face leans across the pipe both ways, and which side stands out. */
const leanFacts = ({ across0, across90 }: Tilt): readonly Fact[] => {
  const lean = (angle: number, write: (shown: string) => string): Said =>
    writeAngle(Math.abs(angle)) === '0°'
      ? angleOf(0)
      : worded((value) => write(value(angleOf(Math.abs(angle)))));
  return [
    [
      say`Top to bottom`,
      lean(across0, (shown) =>
        across0 > 0 ? say`${shown}, bottom stands out` : say`${shown}, top stands out`,
      ),
    ],
    [
      say`Left to right`,
      lean(across90, (shown) =>
        across90 > 0 ? say`${shown}, right stands out` : say`${shown}, left stands out`,
      ),
    ],
  ];
};

/** What comes off around an end that stands over the cut by so much at an angle. */
const offTable = (standsOver: (angle: number) => number): Table => ({
  title: say`By tape: what comes off the end as it stands`,
  header: [say`Station`, say`comes off`],
  rows: Array.from({ length: 16 }, (_, i) => (i * TURN) / 16).map((station) => [
    stationNumber(station),
    lengthOf(Math.max(0, standsOver(station))),
  ]),
});

/** An end that is not square or not round, from readings taken on it. */
export const trim = defineLayout({
  id: 'trim',
  summary: 'true an end that is not square, from four readings; out-of-round from measured diameters',
  family: 'measured on the job',
  words: ['square an end', 'out of square', 'ovality', 'egged pipe', 'face', 'four readings', 'level'],
  fields,
  sheets: ['trim', 'out-of-round'],
  examples: [
    'trim --pipe "NPS 10 sch 40" --readings 152mm,148.5mm,149mm,151.5mm',
    'trim --pipe "DN 250 sch 40" --readings 152mm,148.5mm,149mm,151.5mm --reading-diameter 280mm --allowance 1mm',
    'trim --pipe "DN 150 sch 40" --diameters "0 169.8mm, 45 168.4mm, 90 166.9mm, 135 168.2mm" -o round.pdf',
  ],
  draw: (values, setting) => {
    const { pipe, diameters } = values;
    const tilt = tiltFrom(values);
    if (tilt === undefined && diameters === undefined)
      throw requestError(
        'readings',
        'missing',
        say`nothing was measured`,
        say`give four readings of the end, or diameters across it`,
      );
    return [
      ...(tilt ? [trimSheet(values, tilt, setting)] : []),
      ...(diameters ? [outOfRoundSheet(pipe, diameters, setting)] : []),
    ];
  },
  results: (values) => ({
    tilt: tiltFrom(values),
    ovality: values.diameters && ovalityFigures(values.diameters),
  }),
});
