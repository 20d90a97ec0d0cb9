import type { Measured } from '../../../drawing/measured.ts';
import type { Fact, Sheet } from '../../../drawing/model.ts';
import { mustBeAtMost, mustBeLess, mustBeMore } from '../../../fields/among.ts';
import { angleField, choiceField, lengthField, stockField } from '../../../fields/fields.ts';
import { defineLayout } from '../../../fields/layout.ts';
import { DEGREE } from '../../../geometry/angle-units.ts';
import { type CopeCut, solveCope } from '../../../geometry/cope.ts';
import { distance2 } from '../../../geometry/vector.ts';
import { jointError } from '../../../issue.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat } from '../../../sheets/fit-record.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { shown } from '../../../sheets/measured.ts';
import { flangeGage } from '../../../stock/gages.ts';
import type { Stock } from '../../../stock/stock.ts';
import { lengthOf, shareOf, sizeOf } from '../../../units/quantity.ts';
import { roundedUp, type Setting } from '../../../units/setting.ts';
import { writeBoth } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { copeCards, copeFigures, copeMeasures } from './cope-marks.ts';
import { copePicture } from './cope-picture.ts';
import { writeAngle } from '../../../units/angle.ts';
import { type CopedEnd, cutsOf, type Flanged, leanOf } from './coped-end.ts';
const INCH = 25.4;

const flangedOf = (stock: Stock): Flanged => {
  const { rolled } = stock;
  if (!rolled || rolled.kind === 'angle') throw new Error(`${stock.designation} has no flanges`);
  return rolled;
};

/** A beam's end cut free of the flanges of the beam it frames into. The origin is the beam's end at the top of its flange. */
export const cope = defineLayout({
  id: 'cope',
  summary:
    'beam end coped to frame into another beam: web and flange cuts (origin at the end, top of flange)',
  family: 'sections',
  words: ['beam cope', 'block', 'notch', 'flange cut', 'clip', 'connection', 'beam to beam', 'web'],
  fields: {
    stock: stockField('the beam or channel that is coped', { example: 'W 8x31', kinds: ['beam', 'channel'] }),
    to: stockField('the beam or channel it frames into', { example: 'W 12x40', kinds: ['beam', 'channel'] }),
    side: choiceField('which flange is coped', ['top', 'bottom', 'both'], { default: 'top' }),
    setback: lengthField('from the face of the other web to this beam’s end; left out, 1/2 in or 10 mm', {
      example: '10mm',
      max: 300,
      optional: true,
    }),
    clearance: lengthField(
      'between the other flange’s edge and the coped flange; left out, 1/2 in or 10 mm',
      { example: '10mm', max: 300, optional: true },
    ),
    radius: lengthField('radius in the corner of the cut; left out, 1/2 in or 12 mm', {
      example: '12mm',
      min: 3,
      max: 100,
      optional: true,
    }),
    angle: angleField('angle between the beams seen from above, on the left with the joint at your back', {
      default: '90',
      example: '60',
      min: 20 * DEGREE,
      max: 160 * DEGREE,
    }),
    slope: angleField('rise of the coped beam from level, away from the joint; negative falls', {
      default: '0',
      example: '1:12',
      min: -45 * DEGREE,
      max: 45 * DEGREE,
    }),
    drop: lengthField('how far its top lies under the other’s top; 0 is flush', {
      default: '0mm',
      example: '20mm',
      min: -500,
      max: 2000,
    }),
  },
  examples: [
    'cope --stock "W 8x31" --to "W 12x40"',
    'cope --stock "IPE 200" --to "HE 200 B" --side both --radius 15mm',
    'cope --stock "W 10x39" --to "W 10x39" --angle 60 --clearance 1/4in -o cope.pdf',
  ],
  draw: (asked, setting) => {
    const inches = setting.units === 'in';
    const { stock, to, side, angle, slope, drop } = asked;
    const [beam, other] = [flangedOf(stock), flangedOf(to)];
    const setback = asked.setback ?? (inches ? INCH / 2 : 10);
    const clearance = asked.clearance ?? (inches ? INCH / 2 : 10);
    const radius = asked.radius ?? (inches ? INCH / 2 : 12);
    const solved = solveCope({
      depth: beam.depth,
      to: other,
      setback,
      clearance,
      angle,
      rise: Math.tan(slope),
      drop,
      radius,
      step: inches ? INCH / 8 : 5,
    });
    const end = { beam, to: other, cope: solved, side, setback, clearance, radius, angle, slope, drop };
    checkCope(end, setting);
    return [copeSheet(end, stock, to, setting)];
  },
});

const flangeName = (side: 'top' | 'bottom'): string =>
  side === 'top' ? say`top flange` : say`bottom flange`;
const copeName = (side: 'top' | 'bottom'): string => (side === 'top' ? say`top cope` : say`bottom cope`);
const factName = (side: 'top' | 'bottom'): string => (side === 'top' ? say`Cope, top` : say`Cope, bottom`);
const otherOf = (side: 'top' | 'bottom'): 'top' | 'bottom' => (side === 'top' ? 'bottom' : 'top');

const checkCope = (end: CopedEnd, setting: Setting): void => {
  const both = (length: number): string => writeBoth(length, setting);
  const { beam, to, setback, clearance, radius, drop } = end;
  mustBeLess('drop', drop, to.depth, say`puts the beam under the other one`, setting);
  mustBeMore('drop', drop, -beam.depth, say`puts the beam over the other one`, setting);
  const cuts = cutsOf(end);
  mustBeLess(
    'setback',
    setback,
    to.width / 2 - to.web / 2 + clearance,
    say`already clears the other flange: no cope is needed`,
    setting,
  );
  for (const [name, { corners, depth, shoulder }] of cuts) {
    if (depth === 0)
      throw jointError(
        'side',
        'nothing-to-cope',
        say`the ${flangeName(name)} clears the other beam’s as it is`,
        end.cope[otherOf(name)].depth === 0
          ? say`the end needs no cope: neither flange is in the way`
          : say`side must be ${otherOf(name)}: only that flange is in the way`,
      );
    const room = Math.min(distance2(corners[0], corners[1]), shoulder);
    mustBeAtMost('radius', radius, room, say`does not fit the cope`, setting);
  }
  const deep = beam.depth - end.cope.left[end.side];
  if (deep >= beam.depth)
    throw jointError(
      'stock',
      'cope-past-depth',
      say`copes ${both(deep)} deep leave nothing of a beam ${both(beam.depth)} deep`,
      say`cope less than ${both(beam.depth)}: a deeper beam, or the top alone`,
    );
};

/** Says so where the flange that is not coped is in the way as well. */
const stillInTheWay = ({ cope, side }: CopedEnd): readonly string[] => {
  if (side === 'both' || cope[otherOf(side)].depth === 0) return [];
  return [
    say`The ${flangeName(otherOf(side))}, not coped here, is in the way of the other beam too: cope both, or be sure that the end is brought in past it.`,
  ];
};

const gageFact = (name: string, width: number): readonly Fact[] => {
  const gage = flangeGage(width);
  return gage === undefined ? [] : [[say`${name}, flange gage: verify`, sizeOf(gage)]];
};

/** How deep a cope is where its two cuts meet, square to the beam, mm: on a sloped beam not what it is at the end. */
const cornerDepth = ({ corners: [, corner, outside] }: CopeCut): number => Math.abs(outside.y - corner.y);

/** The depth of a cope: one on a level beam, which is measured; on a sloped one those at the end and at the corner. */
const depthFacts = (name: string, cut: CopeCut, measured: Measured | undefined): readonly Fact[] =>
  measured
    ? [[say`${name}: depth as drawn`, shown(lengthOf(cut.depth), measured)]]
    : [
        [say`${name}: depth at the beam’s end, plumb`, lengthOf(cut.depth)],
        [say`${name}: depth at the corner, square to the beam`, lengthOf(cornerDepth(cut))],
      ];

const copeSheet = (end: CopedEnd, stock: Stock, to: Stock, setting: Setting): Sheet => {
  const { beam, setback, clearance, radius, angle, slope, drop } = end;
  const both = (length: number): string => writeBoth(length, setting);
  const cuts = cutsOf(end);
  const left = end.cope.left[end.side];
  const skew = Math.abs(angle - Math.PI / 2) > 1e-9;
  const long = leanOf(end);
  return plateSheet({
    name: 'cope',
    heading: say`Cope`,
    subject: [
      say`${stock.designation} framed into ${to.designation}, ${drop === 0 ? say`tops flush` : say`top ${both(Math.abs(drop))} ${drop > 0 ? say`lower` : say`higher`}`}`,
      say`${cuts
        .map(([name, cut]) =>
          slope === 0
            ? say`${copeName(name)} ${both(cut.length)} long, ${both(cut.depth)} deep`
            : say`${copeName(name)} ${both(cut.length)} long, ${both(cut.depth)} deep at the end and ${both(cornerDepth(cut))} at the corner`,
        )
        .join('; ')}; radius ${both(radius)}`,
      say`End ${both(setback)} off the other web, flange ${both(clearance)} clear of the other flange`,
      ...(skew ? [say`Beams at ${writeAngle(angle)} seen from above`] : []),
      ...(slope === 0
        ? []
        : [
            slope > 0
              ? say`Rises ${writeAngle(slope)} from level away from the joint; cuts level and plumb`
              : say`Falls ${writeAngle(-slope)} from level away from the joint; cuts level and plumb`,
          ]),
    ],
    ...copeCards(end, setting),
    fit: fitFlat(copeFigures(end)),
    steps: [
      CHECK_PRINT(),
      say`Measure both beams: depth, flange width and web. The coped one is drawn ${both(beam.depth)} deep, the other’s flange ${both(end.to.width)} wide; mills may differ by 1/8 in (3 mm) and more.`,
      say`Cut both cards out. Square the end line around the beam.`,
      say`Web card: end line on the end line, its upper edge level with the outside of the top flange. Mark the cope; punch the center of the radius.`,
      say`Flange card: middle line over the web, end line on the end line. Mark the flange cut. Both marks meet at the flange’s edge.`,
      say`Drill or cut the radius first, then cut to it. No notch in the corner: grind it smooth.`,
    ],
    facts: [
      ...cuts.flatMap(([name, cut], nth): readonly Fact[] => {
        const measured = copeMeasures(end, nth);
        return [
          [say`${factName(name)}: length`, shown(lengthOf(cut.length), measured.length)],
          ...(skew
            ? ([
                [
                  say`${factName(name)}: long side of flange`,
                  shown(lengthOf(cut.length + long), measured.long),
                ],
                [
                  say`${factName(name)}: short side of flange`,
                  shown(lengthOf(cut.length - long), measured.short),
                ],
              ] as const)
            : []),
          ...(cut.least > 0
            ? ([[say`${factName(name)}: depth, at least`, lengthOf(roundedUp(cut.least, setting))]] as const)
            : []),
          ...depthFacts(factName(name), cut, slope === 0 ? measured.depth : undefined),
        ];
      }),
      [say`Web left`, lengthOf(left)],
      [say`Web left, of the depth`, shareOf(left / beam.depth)],
      [say`Center of the other web to this end`, lengthOf((end.to.web / 2 + setback) / Math.sin(angle))],
      ...gageFact(stock.designation, beam.width),
      ...(to.designation === stock.designation ? [] : gageFact(to.designation, end.to.width)),
    ],
    pictures: [copePicture(end, both)],
    cautions: [
      ...stillInTheWay(end),
      say`A cope weakens the beam’s end: web left, block shear and buckling of the coped web are for a qualified person to check.`,
      say`Re-entrant corners crack from a notch: radius at least 1/2 in (12 mm), ground smooth.`,
    ],
  });
};
