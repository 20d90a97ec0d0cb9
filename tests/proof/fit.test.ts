import { describe, expect, it } from 'vitest';
import { offsetSection } from '../../src/geometry/section-offset.ts';
import { type SectionEdge, type Texts } from '../../src/index.ts';
import { readFit } from '../../src/proof/fit-record.ts';
import { readPdf, type PdfFile } from '../../src/proof/pdf-reader.ts';
import { proveFile } from '../../src/proof/prove.ts';
import type { FitLine, SheetFit, Solid } from '../../src/proof/record.ts';
import { checkSheet } from '../../src/proof/sheet-checks.ts';
import { printAndRead } from '../support/print.ts';
import { direction, plus, times } from '../support/space.ts';

/** Twice what a cut line may lie off: a proof that does not see this is none. */
const OFF = 0.02;

const branch = (on: string, more: Texts = {}): readonly [string, Texts] => [
  'branch',
  { branch: 'OD 60.3mm wall 5mm', on, ...more },
];
const plate = { 'made-from': 'plate' };

const prints: readonly (readonly [string, Texts])[] = [
  ['miter', { pipe: 'DN 80 sch 40', cut: '30', contact: 'wall', gap: '2mm' }],
  ['miter', { pipe: 'OD 168.3mm wall 8mm', cut: '30', ...plate, 'seam-allowance': '25mm', seam: '90' }],
  ['miter', { pipe: 'OD 168.3mm wall 8mm', cut: '30', ...plate, 'seam-allowance': '-3mm' }],
  ['branch', { branch: 'DN 50 sch 40', header: 'DN 100 sch 40', angle: '60', set: 'in', gap: '2mm' }],
  ['turn', { pipe: 'NPS 4 sch 40', pieces: '3', radius: '6in', gap: '3mm', contact: 'wall', nest: 'yes' }],
  // The upper cut of its end gores dips under mid-length, so that only their order tells the lines apart.
  [
    'turn',
    { pipe: 'DN 150 sch 40', pieces: '4', radius: '100mm', cuts: '10,20,15', kerf: '0mm', nest: 'yes' },
  ],
  ['turn', { pipe: 'OD 323.9mm wall 8mm', pieces: '4', radius: '500mm', ...plate, stagger: '180' }],
  ['wye', { pipe: 'NPS 3 sch 40', leg: ['0', '120', '240 up 20'], gap: '2mm' }],
  ['wye', { pipe: 'NPS 4 sch 40', leg: ['0', '180', '100 up 30 NPS 2 sch 40'] }],
  ['wye', { pipe: 'DN 80 sch 40', header: 'DN 150 sch 40', leg: ['45', '135'] }],
  ['rolling-offset', { pipe: 'DN 100 sch 40', set: '400mm', roll: '300mm', run: '600mm' }],
  ['rolling-offset', { pipe: 'DN 100 sch 40', travel: '800mm', turn: '60', turns: 'miter' }],
  [
    'piece',
    {
      pipe: 'DN 80 sch 40',
      start: 'on elbow DN 200 LR round 30deg at 20deg',
      finish: 'on tube 200x150x8mm angle 70 offset 10mm gap 2mm',
      length: '900mm',
      roll: '37',
    },
  ],
  [
    'piece',
    { pipe: 'DN 80 sch 40', start: 'on miter DN 200 sch 40 45deg heel', finish: 'square', length: '900mm' },
  ],
  branch('pipe OD 219.1mm wall 8mm angle 60 offset 10mm', { set: 'in', gap: '2mm' }),
  branch('tube 150x100x6mm corner 12mm angle 70 turned 30deg', { set: 'in', gap: '2mm' }),
  branch('tube 100x100x5mm corner 0mm turned 270deg offset 10mm'),
  branch('plate 12mm angle 50', { set: 'in' }),
  branch('plate 300x250x12mm angle 60 offset 10mm'),
  branch('cone OD 300mm to 200mm over 250mm wall 6mm at 100mm', { set: 'in', gap: '2mm' }),
  branch('reducer DN 200 x 150 eccentric flat 90deg'),
  branch('elbow NPS 8 LR sch 40 extrados', { set: 'in' }),
  branch('elbow NPS 8 SR 45deg angle 20'),
  branch('miter NPS 8 sch 40 45deg throat'),
  branch('sphere OD 600mm wall 10mm offset 100mm', { set: 'in' }),
  branch('head ellipsoidal OD 1000mm offset 300mm square'),
  branch('head torispherical OD 1000mm crown 1000mm knuckle 100mm wall 8mm offset 400mm', { set: 'in' }),
  branch('pipe OD 168.3mm wall 8mm angle 45 + pipe OD 88.9mm wall 5mm angle 135 ahead -60mm'),
  // Wider than the second pipe: past its sides the line steps back to the first.
  [
    'branch',
    {
      branch: 'DN 100 sch 40',
      on: 'pipe OD 168.3mm wall 8mm angle 45 + pipe OD 88.9mm wall 5mm angle 135 ahead -60mm',
    },
  ],
  ['bull-plug', { pipe: 'NPS 4 sch 40' }],
  ['orange-peel', { pipe: 'NPS 4 sch 40' }],
  ['swage', { pipe: 'NPS 6 sch 40', to: 'NPS 4 sch 40', length: '150mm' }],
  // Where a slanting flange passes the depth that counts, the line breaks.
  ['branch', { branch: 'UPN 160', on: 'beam W 8x31 angle 60' }],
  ['notch', { stock: 'angle 50x50x5mm', turn: '81.66', relief: '7.172mm' }],
  ['notch', { stock: 'UPN 160', turn: '45', gap: '2mm' }],
  ['notch', { stock: 'tube 4x3x1/4in', turn: '60', 'bend-radius': '1/4in', relief: '1/4in' }],
];

/** The body with every face moved out by `by`. */
const grow = (solid: Solid, by: number): Solid => {
  switch (solid.kind) {
    case 'prism':
      return {
        ...solid,
        section: {
          ...solid.section,
          outside: offsetSection(solid.section.outside as readonly SectionEdge[], by),
        },
      };
    case 'plane':
      return { ...solid, through: plus(solid.through, times(direction(solid.normal), by)) };
    case 'cylinder':
    case 'sphere':
    case 'bend':
      return { ...solid, radius: solid.radius + by };
    case 'cone':
      return { ...solid, radiusFrom: solid.radiusFrom + by, radiusTo: solid.radiusTo + by };
    case 'bar':
      return { ...solid, width: solid.width + 2 * by, depth: solid.depth + 2 * by };
    case 'ellipsoidal head':
      return { ...solid, radius: solid.radius + by, depth: solid.depth + by };
    case 'torispherical head':
      return {
        ...solid,
        radius: solid.radius + by,
        crown: solid.crown + by,
        knuckle: solid.knuckle + by,
      };
  }
};

/** The checks that fail on a sheet as it is printed, where it is said to meet something else. */
const failedAs = (
  file: PdfFile,
  sheet: NonNullable<PdfFile['record']>['sheets'][number],
  fit: SheetFit,
): readonly string[] =>
  checkSheet(file, { ...sheet, fit })
    .filter(({ ok }) => !ok)
    .map(({ check }) => check);

const withLine = (fit: SheetFit, i: number, change: (line: FitLine) => FitLine): SheetFit => ({
  ...fit,
  lines: fit.lines.map((line, k) => (k === i ? change(line) : line)),
});

describe('every kind of print', () => {
  it.each(prints)('%s %j proves, and fails where it should meet what lies 0.02 mm off', async (id, texts) => {
    const { bytes } = await printAndRead(id, texts);
    const { findings } = proveFile(bytes);
    expect(findings.filter(({ ok }) => !ok)).toEqual([]);

    const file = readPdf(bytes);
    const sheets = file.record?.sheets ?? [];
    const fits = sheets.flatMap((sheet) => {
      const fit = readFit(sheet.fit);
      return fit === undefined ? [] : [{ sheet, fit }];
    });
    expect(fits.length).toBeGreaterThan(0);
    for (const { sheet, fit } of fits) {
      fit.lines.forEach((line, i) => {
        if (line.solids.length === 0) return;
        const grown = withLine(fit, i, (own) => ({
          ...own,
          solids: own.solids.map((solid) => grow(solid, OFF)),
        }));
        const moved = withLine(fit, i, (own) => ({ ...own, gap: own.gap + 5 * OFF }));
        expect(failedAs(file, sheet, grown).join()).toContain('against what it meets');
        if (line.which !== 'closed')
          expect(failedAs(file, sheet, moved).join()).toContain('against what it meets');
      });
      const { lay } = fit;
      if (lay.kind !== 'round' || fit.lines.some(({ which }) => which === 'closed')) continue;
      const longer = { ...fit, lay: { ...lay, sheetGirth: lay.sheetGirth + OFF } };
      const expected = ['girth, first to last station', 'once round'].slice(
        0,
        fit.lines.length === 0 ? 1 : 2,
      );
      for (const check of expected) expect(failedAs(file, sheet, longer).join()).toContain(check);
    }
  });

  it('tells the lines of a gore apart: neither meets what the other should', async () => {
    const { file } = await printAndRead('turn', {
      pipe: 'NPS 4 sch 40',
      pieces: '3',
      radius: '6in',
      nest: 'yes',
    });
    for (const sheet of file.record?.sheets ?? []) {
      const fit = readFit(sheet.fit) as SheetFit;
      expect(fit.lines.length).toBe(sheet.name === 'nested gores' ? 6 : 2);
      const swapped = {
        ...fit,
        lines: fit.lines.map((line, i) => ({
          ...line,
          which: [...fit.lines].reverse()[i]?.which ?? line.which,
        })),
      };
      expect(failedAs(file, sheet, swapped).length).toBeGreaterThanOrEqual(2);
    }
  });
});
