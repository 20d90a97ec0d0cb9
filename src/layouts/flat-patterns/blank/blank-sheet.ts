import type { Fact, Figure, Mark, Sheet, Table } from '../../../drawing/model.ts';
import { scenePictures } from '../../../drawing/scene-picture.ts';
import { boxPath, FINE, letter, NARROW, ruleLine } from '../../../drawing/paths.ts';
import { neutralFactor, type BendRule } from '../../../geometry/bend-allowance.ts';
import { vec2, type Vec2 } from '../../../geometry/vector.ts';
import { CHECK_PRINT } from '../../../sheets/band-words.ts';
import { fitFlat, sideFigures } from '../../../sheets/fit-record.ts';
import { drawHole, drawOutline, drawPunch } from '../../../sheets/flat-marks.ts';
import { plateSheet } from '../../../sheets/flat-sheet.ts';
import { apart, levelAt, rise, shown, widthOf } from '../../../sheets/measured.ts';
import { plateFacts } from '../../../sheets/pattern-fields.ts';
import { PLATE_CAUTION } from '../../../sheets/seam-step.ts';
import { lengthOf, sizeOf } from '../../../units/quantity.ts';
import type { Setting } from '../../../units/setting.ts';
import { writeBoth, writeGiven, writeSize } from '../../../units/writing.ts';
import { say } from '../../../words/say.ts';
import { blankScene } from './blank-scene.ts';
import { bendWords, type BlankAsked, type SolvedBend, type SolvedBlank } from './blank-shape.ts';

/** Width of the strip where none is given, mm. */
export const STRIP = 50;

/** The sheet of a folded strip: x along it from the left end, y across from the lower edge. */
export const blankSheet = (asked: BlankAsked, solved: SolvedBlank, setting: Setting): Sheet => {
  const { bends, length, holes } = solved;
  const both = (size: number): string => writeBoth(size, setting);
  const width = asked.width ?? STRIP;
  const centres = holes.map(({ at }) => at);
  const area = length * width - holes.reduce((sum, { diameter }) => sum + (Math.PI * diameter ** 2) / 4, 0);
  const marks: Mark[] = [
    ...bends.flatMap((bend, i) => bendMarks(bend, i + 1, width)),
    drawOutline(boxPath({ minX: 0, minY: 0, maxX: length, maxY: width })),
    ...holes.map(({ at, diameter }) => drawHole(at, diameter)),
    ...centres.flatMap((at) => drawPunch(at)),
  ];
  return plateSheet({
    name: 'blank',
    heading: say`Folded blank`,
    subject: [
      say`Legs ${asked.legs.map((leg) => writeGiven(leg, setting)).join(', ')}, measured ${MEASURED()[asked.measure]}`,
      say`Bends ${bends.map(bendWords).join(', ')}; plate ${writeSize(asked.thickness, setting)}`,
      describeRule(asked.rule, bends),
    ],
    marks,
    fit: fitFlat({
      circles: holes.map(({ at, diameter }) => ({ centre: at, radius: diameter / 2 })),
      ...sideFigures([
        { x: 0, y: 0 },
        { x: length, y: 0 },
        { x: length, y: width },
        { x: 0, y: width },
      ]),
      points: centres,
    }),
    steps: [
      CHECK_PRINT(),
      say`Check the pattern: ${both(length)} long${asked.width === undefined ? '' : say`, ${both(width)} wide`}.`,
      asked.width === undefined
        ? say`Lay the strip on the plate, this side up, and carry every bend line across.`
        : say`Lay the sheet on the plate, this side up. Prick the ends of the bend lines through. Cut on the outline.`,
      ...(holes.length > 0 ? [say`Punch and drill the holes before you bend.`] : []),
      say`Bend a test piece of the same plate first, measure it, and correct the allowance before you cut the rest.`,
      say`Set the punch on each bend line: it is the middle of the bend. Up is toward this side. Bend the outer legs first unless the tool cannot reach.`,
      say`Check each leg ${MEASURED()[asked.measure]}, and each angle with a protractor: plate springs back.`,
    ],
    facts: facts(asked, solved, area, width),
    tables: [bendTable(bends), deductionTable(bends), edgeTable(solved, width)],
    pictures: scenePictures(blankScene(solved, asked.thickness, width)),
    cautions: [
      PLATE_CAUTION(),
      say`Allowances differ by metal, tool and grain: the rule is a start, the test piece decides.`,
      say`Bends along the grain, sheared edges and cold plate crack sooner: take a larger radius.`,
    ],
  });
};

const MEASURED = (): Readonly<Record<BlankAsked['measure'], string>> => ({
  outside: say`over the outside`,
  inside: say`over the inside`,
  'mold-line': say`to where the outside faces would meet`,
});

const describeRule = (rule: BendRule, bends: readonly SolvedBend[]): string => {
  const factors = bends.map((bend) => neutralFactor(bend, rule));
  const [low, high] = [Math.min(...factors), Math.max(...factors)].map((k) => k.toFixed(3));
  const neutral = low === high ? say`neutral line at ${low} T` : say`neutral line at ${low} to ${high} T`;
  switch (rule.kind) {
    case 'factor':
      return say`Neutral line ${rule.k} thicknesses from the inside, as given`;
    case 'empirical':
      return say`Allowance (0.01743 R + 0.0078 T) a degree, US FAA-H-8083-31; ${neutral}`;
    case 'din':
      return say`Allowance after DIN 6935; ${neutral}`;
    case 'table':
      return say`Allowance by Machinery’s Handbook for ${METALS()[rule.metal]}; ${neutral}`;
  }
};

const METALS = () =>
  ({
    soft: say`soft brass and copper`,
    medium: say`half-hard copper and brass, mild steel, aluminum`,
    hard: say`bronze, hard copper, cold-rolled and spring steel`,
  }) as const;

/** The bend's middle on layer `bend`, its ends thin, its number and words along it. */
const bendMarks = (bend: SolvedBend, number: number, width: number): readonly Mark[] => {
  const line = (x: number): readonly [Vec2, Vec2] => [vec2(x, 0), vec2(x, width)];
  const text = `${number} ${bendWords(bend)}`;
  return [
    ...[bend.from, bend.to].map((x) => ruleLine('reference', ...line(x), FINE)),
    ruleLine('bend', ...line(bend.middle), NARROW, 'long-dash-double-dot'),
    letter('text', vec2(bend.from - 1.5, width / 2), text, 2.5, {
      align: 'centre',
      angle: Math.PI / 2,
    }),
  ];
};

const facts = (
  asked: BlankAsked,
  { bends, length }: SolvedBlank,
  area: number,
  width: number,
): readonly Fact[] => {
  const radii = [...new Set(bends.map(({ radius }) => radius))];
  const least = leastRadius(asked.thickness);
  return [
    [say`Developed length`, shown(sizeOf(length), widthOf('x'))],
    ...(asked.width === undefined ? [] : ([[say`Width`, shown(lengthOf(width), rise())]] as const)),
    [say`Legs together`, lengthOf(asked.legs.reduce((sum, leg) => sum + leg, 0))],
    ...radii.map((radius): Fact => [say`Inside radius`, sizeOf(radius)]),
    [say`Least inside radius, A36-like plate, common practice`, sizeOf(least)],
    ...(asked.width === undefined
      ? ([[say`Plate`, sizeOf(asked.thickness)]] as const)
      : plateFacts(area, { thickness: asked.thickness, density: asked.density, sizes: 'outside' })),
  ];
};

/** Thicknesses of inside radius for mild structural plate: 1, 1.5 and 2 as it grows past 1/4 and 1/2 in (common practice, no source). */
const leastRadius = (thickness: number): number =>
  thickness * (thickness <= 6.35 + 0.01 ? 1 : thickness <= 12.7 + 0.01 ? 1.5 : 2);

const bendTable = (bends: readonly SolvedBend[]): Table => ({
  title: say`Bends: from where a leg is measured back to the bend, and length of the bend`,
  header: [say`Bend`, say`bent`, say`setback`, say`allowance`],
  rows: bends.map((bend, i) => [
    String(i + 1),
    bendWords(bend),
    sizeOf(bend.setback),
    sizeOf(bend.allowance),
  ]),
});

/** What the flat is shorter than each two legs together. */
const deductionTable = (bends: readonly SolvedBend[]): Table => ({
  title: say`Deduction from the two legs together`,
  header: [say`Bend`, say`radius`, say`deduction`],
  rows: bends.map((bend, i) => [String(i + 1), sizeOf(bend.radius), sizeOf(bend.deduction)]),
});

const edgeTable = ({ bends, length }: SolvedBlank, height: number): Table => ({
  title: say`From the left end by tape`,
  header: [say`Bend`, say`begins`, say`middle`, say`ends`],
  rows: [
    ...bends.map(({ from, middle, to }, i) => {
      const at = (x: number, on: 'reference' | 'bend'): Figure =>
        shown(sizeOf(x), apart(levelAt('cut', 0, height / 3), levelAt(on, x, height / 3), 'x'));
      return [String(i + 1), at(from, 'reference'), at(middle, 'bend'), at(to, 'reference')];
    }),
    [say`end`, '', '', shown(sizeOf(length), widthOf('x'))],
  ],
});
