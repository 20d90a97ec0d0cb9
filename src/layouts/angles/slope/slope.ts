import type { Sheet, Table } from '../../../drawing/model.ts';
import { mustBeAtMost, needed, onlyOne } from '../../../fields/among.ts';
import type { Values } from '../../../fields/field.ts';
import { angleField, lengthField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { itemAt } from '../../../lists.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { angleOf, lengthOf, sizeOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeSize } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { LEAST_STRING, slopeCardFigures, slopeCardMarks } from './slope-card.ts';
import { once, worded } from '../../../drawing/worded.ts';
import { writeAngle } from '../../../units/angle.ts';
import { cardPicture, dropPicture } from './slope-picture.ts';

const fields = {
  string: lengthField('length of the string from its pin to the degree scale; left out, 100 mm or 3-3/4 in', {
    example: '150mm',
    min: LEAST_STRING,
    max: 1500,
    optional: true,
  }),
  slope: angleField('a slope to work out', { example: '1:50', above: 0, max: 80 * DEGREE, optional: true }),
  run: lengthField('level run for the drops; left out, 3 m or 10 ft', {
    example: '6m',
    above: 0,
    optional: true,
  }),
  drop: lengthField('drop over the run, instead of a slope', { example: '60mm', above: 0, optional: true }),
  level: lengthField('length of the level that is shimmed; left out, 600 mm and 1200 mm, or 2 ft and 4 ft', {
    example: '4ft',
    above: 0,
    max: 10_000,
    optional: true,
  }),
  shim: lengthField('shim under the low end of that level when it reads level, instead of a slope', {
    example: '1/2in',
    above: 0,
    max: 5000,
    optional: true,
  }),
  reading: lengthField('the least the eye can see at the string', {
    default: '0.5mm',
    example: '0.5mm',
    above: 0,
    max: 10,
  }),
} as const;

type Shimmed = Values<typeof fields>;

/** A plumb-line card that reads slope four ways; the string's pin is the sheet's origin. */
export const slope = defineLayout({
  id: 'slope',
  summary:
    'plumb-line card for slope in degrees, in/ft, mm/m and percent, conversions and drops (origin at the pin)',
  family: 'angles and squares',
  words: ['grade', 'fall', 'pitch', 'plumb', 'level', 'percent', 'drain'],
  fields,
  examples: [
    'slope --slope 1:50 --run 6m',
    'slope --slope 1/4in/ft --run 20ft',
    'slope --level 4ft --shim 1/2in',
    'slope --drop 60mm --run 4m --string 150mm -o slope.pdf',
  ],
  draw: (asked, setting) => {
    const inches = setting.units === 'in';
    const run = asked.run ?? (inches ? 120 * 25.4 : 3000);
    onlyOne({ slope: asked.slope, drop: asked.drop }, say`give one: with the run, each gives the other`);
    if (asked.drop !== undefined)
      needed('run', asked.run, say`a drop has no slope without its level run: --run 4m`);
    mustBeAtMost(
      'drop',
      asked.drop,
      run * Math.tan(80 * DEGREE),
      say`over that run is steeper than 80°`,
      setting,
    );
    const levels = asked.level === undefined ? usualLevels[setting.units] : [asked.level];
    const angle =
      shimmed(asked, setting) ?? (asked.drop === undefined ? asked.slope : Math.atan(asked.drop / run));
    return [
      drawSheet(
        { string: asked.string ?? (inches ? 95.25 : 100), run, angle, reading: asked.reading, levels },
        setting,
      ),
    ];
  },
});

/** Levels most often at hand, mm. */
const usualLevels = { mm: [600, 1200], in: [24 * 25.4, 48 * 25.4] } as const;

/** The slope that a shim under a level gives: tan = shim / level. */
const shimmed = ({ slope, drop, level, shim }: Shimmed, setting: Setting): number | undefined => {
  if (shim === undefined) return undefined;
  onlyOne({ slope, drop, shim }, say`give one: a shim under a level gives the slope already`);
  const length = needed(
    'level',
    level,
    say`a shim has no slope without the length of its level: --level 4ft`,
  );
  mustBeAtMost(
    'shim',
    shim,
    length * Math.tan(80 * DEGREE),
    say`under that level is steeper than 80°`,
    setting,
  );
  return Math.atan(shim / length);
};

interface Gauge {
  /** Lengths of the levels that the shims go under. */
  readonly levels: readonly number[];
  readonly string: number;
  readonly run: number;
  /** The slope asked about. */
  readonly angle?: number;
  readonly reading: number;
}

const trim = (value: number, places: number): string => String(Number(value.toFixed(places)));

/** A slope in the four ways, and as one in so many. */
const fourWays = (angle: number): readonly string[] => {
  const rise = Math.tan(angle);
  return [
    writeAngle(angle),
    trim(12 * rise, 3),
    trim(1000 * rise, 1),
    `${trim(100 * rise, 2)} %`,
    `1:${trim(1 / rise, 2)}`,
  ];
};

const drawSheet = (gauge: Gauge, setting: Setting): Sheet => {
  const { string, run, angle, reading, levels } = gauge;
  const both = (length: number): string => writeBoth(length, setting);
  const tells = Math.atan(reading / string);
  const [, readInFt = '', readMmM = ''] = fourWays(tells);
  const fall = setting.units === 'in' ? `${readInFt} in/ft` : `${readMmM} mm/m`;
  const [degrees, inFt, mmM, percent, oneIn] = angle === undefined ? [] : fourWays(angle);
  return plateSheet({
    name: 'slope',
    heading: say`Slope card`,
    subject: [
      say`Plumb line ${both(string)} long`,
      say`Reads to ${writeAngle(tells)} (${fall}) where the eye can see ${writeSize(reading, setting)} at the string`,
      ...(angle === undefined
        ? []
        : [
            say`Slope asked for: ${degrees ?? ''}, ${inFt ?? ''} in/ft, ${mmM ?? ''} mm/m, ${percent ?? ''}, ${oneIn ?? ''}`,
          ]),
    ],
    marks: slopeCardMarks(string, angle),
    fit: fitFlat(slopeCardFigures(string)),
    steps: [
      CHECK_PRINT(),
      say`Glue the sheet to stiff board, cut it out exactly along the foot and the two 45° edges.`,
      say`Prick the pin through the cross. Hang a thin string with a nut on it, so that it swings free of the card.`,
      say`Stand the foot on the work. Let the string come to rest just off the card, look square at it, read any scale. The line hangs toward the low end.`,
      say`Prove it every time: read, turn the card end for end on the same spot, read again. The slope is the middle of both; half their difference is the card’s own error.`,
      say`Near 45°: stand a 45° edge on the work. Level reads 45, so a reading of 40 or 50 is a slope of 5°. On a true 45° brace the same edge reads 0.`,
      say`Foot on work that should lie at 45°: read on the degree scale how far off 45 it is.`,
    ],
    facts: [
      ...(angle === undefined
        ? []
        : ([
            [
              say`Drop over the run`,
              worded((value) => say`${value(lengthOf(run * Math.tan(angle)))} over ${value(lengthOf(run))}`),
            ],
            [say`Length along the slope`, lengthOf(run / Math.cos(angle))],
            [say`Line swings, on this string`, lengthOf(string * Math.sin(angle))],
            ...levels.map(
              (level) =>
                [
                  say`Shim under ${writePlainLevel(level, setting)} of level`,
                  lengthOf(level * Math.tan(angle)),
                ] as const,
            ),
          ] as const)),
      [say`One degree at the string`, sizeOf(string * DEGREE)],
    ],
    tables: [conversionTable(gauge, setting), accuracyTable(gauge, setting), shimTable(gauge, setting)],
    pictures: [cardPicture(), dropPicture(angle ?? Math.atan(1 / 50), run, setting)],
    cautions: [
      say`Wind and a stiff string pull the line aside: shelter it, use thread. For long falls trust a level and a tape.`,
    ],
  });
};

/** Slopes the trades use, as what names them. */
const usual: readonly number[] = [
  ...[1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 6, 12].map((inches) => Math.atan(inches / 12)),
  ...[1, 2, 5, 10].map((percent) => Math.atan(percent / 100)),
  ...[1, 2, 3, 5, 10, 15, 22.5, 30].map((degrees) => degrees * DEGREE),
];

const conversionTable = ({ run, angle }: Gauge, setting: Setting): Table => {
  const all = [...usual, ...(angle === undefined ? [] : [angle])].sort((a, b) => a - b);
  const rows = all.filter((slope, i) => i === 0 || slope - itemAt(all, i - 1) > 1e-9);
  return {
    title: say`Slopes, and the drop over a level run of ${writeBoth(run, setting)}`,
    header: [say`degrees`, 'in/ft', 'mm/m', say`percent`, say`one in`, say`drop`],
    rows: rows.map((slope) => [
      ...fourWays(slope).map((text) => text.replace(/°| %|1:/, '')),
      lengthOf(run * Math.tan(slope)),
    ]),
  };
};

/** A level's length as it is called: `2 ft`, `1200 mm`. */
const writePlainLevel = (level: number, { units }: Setting): string => {
  const feet = level / 304.8;
  if (units === 'mm') return `${trim(level, 1)} mm`;
  return Math.abs(feet - Math.round(feet)) < 1e-9 ? `${Math.round(feet)} ft` : `${trim(level / 25.4, 3)} in`;
};

/** Shims under the low end of a level that then reads level: level × rise over run, held square to the level. */
const shimTable = ({ levels, angle }: Gauge, setting: Setting): Table => {
  const all = [...usual.filter((slope) => slope < 12 * DEGREE), ...(angle === undefined ? [] : [angle])].sort(
    (a, b) => a - b,
  );
  const rows = all.filter((slope, i) => i === 0 || slope - itemAt(all, i - 1) > 1e-9);
  const inches = setting.units === 'in';
  return {
    title: say`Shim under the low end of a level, square to it, so that it reads level`,
    header: [
      inches ? 'in/ft' : 'mm/m',
      ...levels.map((level) => say`under ${writePlainLevel(level, setting)}`),
    ],
    rows: rows.map((slope) => [
      inches ? trim(12 * Math.tan(slope), 3) : trim(1000 * Math.tan(slope), 1),
      ...levels.map((level) => lengthOf(level * Math.tan(slope))),
    ]),
  };
};

const strings = { mm: [100, 200, 300, 1000], in: [4, 8, 12, 36] } as const;

/** What a longer string is worth. */
const accuracyTable = ({ reading, string }: Gauge, setting: Setting): Table => {
  const unit = setting.units === 'in' ? 25.4 : 1;
  const lengths = [...strings[setting.units].map((length) => length * unit), string].sort((a, b) => a - b);
  return {
    title: say`What ${writeSize(reading, setting)} at the string is worth`,
    header: [say`string`, say`degrees`, 'mm/m', 'in/ft'],
    rows: lengths
      .filter((length, i) => i === 0 || length - itemAt(lengths, i - 1) > 1e-6)
      .map((length) => {
        const ratio = reading / length;
        return [
          once(lengthOf(length)),
          angleOf(Math.atan(ratio), 3),
          trim(1000 * ratio, 2),
          trim(12 * ratio, 3),
        ];
      }),
  };
};
