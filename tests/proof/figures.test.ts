import { describe, expect, it } from 'vitest';
import type { Texts } from '../../src/index.ts';
import type { SheetFit } from '../../src/proof/record.ts';
import type { SheetFigures } from '../../src/proof/record.ts';
import { readFit } from '../../src/proof/fit-record.ts';
import { proveFile } from '../../src/proof/prove.ts';
import { checkSheet } from '../../src/proof/sheet-checks.ts';
import { printAndRead } from '../support/print.ts';

/** Twice what a figure may lie off. */
const OFF = 0.02;

const prints: readonly (readonly [string, Texts, number, number])[] = [
  ['bolt-circle', { flange: 'NPS 6 class 150', bore: '168.3mm' }, 8 + 2, 8],
  ['bolt-circle', { holes: '6', circle: '300mm', hole: '18mm', slot: '30mm', paper: 'a4' }, 0, 18],
  [
    'hole-grid',
    { columns: '4', 'column-pitch': '75mm', rows: '2', 'row-pitch': '100mm', hole: '18mm' },
    8,
    8,
  ],
  [
    'plate',
    { shape: 'disc', diameter: '250mm', bore: '60mm', hole: '14mm', holes: '6', circle: '200mm' },
    8,
    6,
  ],
  // Over several pages, its rings parted by their edges.
  ['center', { diameter: '400mm', rings: '380mm,380.4mm', punch: '0,22.5', paper: 'a4' }, 3, 5],
];

const moved = <T extends { readonly x: number; readonly y: number }>({ x, y }: T) => ({ x: x + OFF, y });

describe('figures of a flat print', () => {
  it.each(prints)(
    '%s %j: %d circles and %d crosses prove, and no other',
    async (id, texts, circles, points) => {
      const { bytes, file } = await printAndRead(id, texts);
      expect(proveFile(bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
      const [sheet] = file.record?.sheets ?? [];
      const fit = readFit(sheet?.fit) as SheetFit;
      const figures = fit.figures as SheetFigures;
      expect([figures.circles.length, figures.points.length]).toEqual([circles, points]);

      const failed = (changed: SheetFigures): readonly string[] =>
        checkSheet(file, { name: sheet?.name ?? '', fit: { ...fit, figures: changed } })
          .filter(({ ok }) => !ok)
          .map(({ check }) => check);
      figures.circles.forEach((_, i) => {
        for (const change of [
          (c: SheetFigures['circles'][number]) => ({ ...c, radius: c.radius + OFF }),
          (c: SheetFigures['circles'][number]) => ({ ...c, centre: moved(c.centre) }),
        ])
          expect(
            failed({ ...figures, circles: figures.circles.map((c, k) => (k === i ? change(c) : c)) }),
          ).toEqual([`${circles} circles where they belong`]);
      });
      figures.points.forEach((_, i) => {
        expect(
          failed({ ...figures, points: figures.points.map((p, k) => (k === i ? moved(p) : p)) }),
        ).toEqual([`${points} punch marks where they belong`]);
      });
    },
  );
});
