import { describe, expect, it } from 'vitest';
import { markBounds } from '../../../src/drawing/extent.ts';
import { clipStroke } from '../../../src/drawing/path-clip.ts';
import { growBox } from '../../../src/drawing/paths.ts';
import { makeBook, makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { readCut } from '../../support/cut-line.ts';
import type { Vec2 } from '../../support/space.ts';

const TURN = 2 * Math.PI;

/** Corners of a swage's cut line: where it turns sharply, between darts and tongues. */
const corners = (points: readonly Vec2[], od: number): readonly Vec2[] =>
  points.filter((p, i) => {
    const [a, b] = [points[i - 1], points[i + 1]];
    if (!a || !b) return false;
    const angle = (from: Vec2, to: Vec2): number => Math.atan2(to.y - from.y, (to.x - from.x) * Math.PI * od);
    return Math.abs(angle(a, p) - angle(p, b)) > 0.5;
  });

describe('a swage, from the bytes of its print', () => {
  it.each([
    [219.1, 8.18, 168.3, 152, 8, 'eccentric'],
    [114.3, 6.02, 88.9, 102, 5, 'eccentric'],
    [168.3, 7.11, 114.3, 140, 5, 'concentric'],
    [88.9, 5.49, 33.4, 60, 6, 'concentric'],
  ] as const)('OD %d wall %d to %d', async (od, wall, to, length, darts, form) => {
    const points = await readCut(
      'swage',
      {
        pipe: `OD ${od}mm wall ${wall}mm`,
        to: `OD ${to}mm wall 3mm`,
        length: `${length}mm`,
        darts: String(darts),
        form,
        seam: '0',
      },
      od,
    );
    const [large, small] = [(od - wall) / 2, (to - wall) / 2];
    const shift = form === 'eccentric' ? large - small : 0;
    const turns = corners(points, od);
    const tops = turns.filter(({ y }) => y > length / 2);
    // Every corner at the small end lies on the small end's circle once its tongue is bent straight in from the dart.
    const roots = Array.from({ length: darts }, (_, i) => 0.5 + (i + 0.5) / darts).flatMap((x) => [x - 1, x]);
    for (const { x, y } of tops) {
      const root = roots.reduce((best, at) => (Math.abs(at - x) < Math.abs(best - x) ? at : best));
      const inward = Math.sqrt(y * y - length * length);
      const angle = root * TURN;
      const at = { x: (large - inward) * Math.cos(angle) + shift, y: (large - inward) * Math.sin(angle) };
      expect(Math.abs(Math.hypot(at.x, at.y) - small)).toBeLessThan(0.02);
    }
    // Their widths make the small end's girth at mid-wall; the pipe's outside is cut by the same angle.
    const stops = tops.map(({ x }) => x).sort((a, b) => a - b);
    const [first, last] = [stops[0]!, stops[stops.length - 1]!];
    const spans = [...stops.slice(1).map((x, i) => [stops[i]!, x] as const), [last - 1, first] as const];
    expect(spans).toHaveLength(2 * darts);
    const open = spans.filter(([from, to_]) => roots.some((root) => root > from && root < to_));
    expect(open).toHaveLength(darts);
    const cutOut = open.reduce((sum, [from, to_]) => sum + to_ - from, 0);
    expect((1 - cutOut) * TURN * large).toBeCloseTo(TURN * small, 2);
    // The bottom tongue of an eccentric one is straight: as long as the taper.
    const bottom = points.filter(({ x, y }) => Math.abs(x - 0.5) < 0.005 && y > 0);
    const expected = form === 'eccentric' ? length : Math.hypot(length, large - small);
    for (const { y } of bottom) expect(y).toBeCloseTo(expected, 1);
    const top = points.reduce((most, { y }) => Math.max(most, y), 0);
    expect(top).toBeCloseTo(
      Math.hypot(length, form === 'eccentric' ? 2 * (large - small) : large - small),
      2,
    );
  });

  it('closes its tongues in one plane: every point of a small end is as far up as its tongue is long', async () => {
    const [od, wall, to, length, darts] = [219.1, 8.18, 168.3, 152, 6];
    const points = await readCut(
      'swage',
      {
        pipe: `OD ${od}mm wall ${wall}mm`,
        to: `OD ${to}mm wall 3mm`,
        length: `${length}mm`,
        darts: String(darts),
        form: 'eccentric',
        seam: '30',
      },
      od,
    );
    const [large, small] = [(od - wall) / 2, (to - wall) / 2];
    const shift = large - small;
    // The tongue about station 90: its centre line meets the small circle straight in from there.
    const centre = 120 / 360;
    const reach = (angle: number): number =>
      -shift * Math.cos(angle) + Math.sqrt(small * small - (shift * Math.sin(angle)) ** 2);
    const angle = centre * TURN;
    const start = Math.atan2(reach(angle) * Math.sin(angle), reach(angle) * Math.cos(angle) + shift);
    const tip = points.filter(({ x, y }) => Math.abs(x - centre) < 0.03 && y > length);
    expect(tip.length).toBeGreaterThan(20);
    for (const { x, y } of tip) {
      // Girth at mid-wall is kept: so far round the small circle from the tongue's middle.
      const about = start + ((x - centre) * TURN * large) / small;
      const at = { x: small * Math.cos(about) - shift, y: small * Math.sin(about) };
      const inward = large - Math.hypot(at.x, at.y);
      expect(y).toBeCloseTo(Math.hypot(length, inward), 2);
    }
  });
});

it.each([
  [{ stock: 'DN 200 sch 40', to: 'DN 150 sch 40', length: '152mm', darts: '8', paper: 'a4' }],
  [{ stock: 'DN 200 sch 40', to: 'DN 150 sch 40', length: '152mm', darts: '8', paper: 'letter' }],
  [{ stock: 'NPS 3 sch 40', to: 'NPS 2 sch 40', length: '3-1/2in', paper: 'letter' }],
])('the taping check of an eccentric swage runs through no dart and beside no bend line: %j', (texts) => {
  const { pages } = makeBook(readRequest('swage', { form: 'eccentric', ...texts }));
  let found = 0;
  for (const { marks } of pages)
    for (const mark of marks) {
      if (mark.kind !== 'stroke' || mark.role !== 'scale') continue;
      const box = markBounds(mark);
      // The scale checks are 101.6 mm at most.
      if (box.maxX - box.minX < 105) continue;
      found += 1;
      const around = growBox(box, 1.5);
      const met = marks.filter(
        (other) =>
          other.kind === 'stroke' &&
          (other.role === 'cut' || other.role === 'bend') &&
          clipStroke(other.path, around).length > 0,
      );
      expect(met).toEqual([]);
    }
  expect(found).toBeGreaterThan(0);
});

it.each([
  ['concentric', '5'],
  ['eccentric', '8'],
])('a %s swage lists its tongues and darts in the order of the stations', (form, darts) => {
  const request = readRequest('swage', {
    stock: 'NPS 6 sch 40',
    to: 'NPS 4 sch 40',
    length: '140mm',
    form,
    darts,
  });
  const [sheet] = makeWrittenSheets(request);
  expect(sheet?.tables).toHaveLength(2);
  for (const { rows } of sheet?.tables ?? []) {
    const stations = rows.map(([station]) => parseFloat(station ?? ''));
    expect(stations).toHaveLength(Number(darts));
    expect(stations).toEqual(stations.toSorted((a, b) => a - b));
  }
});

it('says the smaller pipe as its table does, and stations to a hundredth of a degree', () => {
  const texts = { stock: 'NPS 1-1/2 sch 80', to: 'NPS 3/4 sch 80', length: '2in', darts: '7' };
  const [sheet] = makeWrittenSheets(readRequest('swage', texts));
  // ASME B36.10M: NPS 3/4 is 1.050 in outside, 26.67 mm.
  expect(sheet!.subject.join()).toContain('Small end: outside 1.05″ (26.67 mm)');
  const darts = sheet!.tables.find(({ title }) => title.startsWith('Darts'))!;
  expect(darts.rows.map(([at]) => at)).toEqual([
    '0°',
    '51.43°',
    '102.86°',
    '154.29°',
    '205.71°',
    '257.14°',
    '308.57°',
  ]);
});
