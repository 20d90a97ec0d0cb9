import { describe, expect, it } from 'vitest';
import { makeSheets, makeWrittenSheets, readRequest } from '../../../src/index.ts';
import { readPlaneCuts, seam, setOn, stay, type Motion, type PlaneCut } from '../../support/assembly.ts';
import type { PdfFile } from '../../support/pdf-reader.ts';
import { layerPoints, printAndRead } from '../../support/print.ts';
import { inner, minus, norm, plus, point, times } from '../../support/space.ts';

const DEGREE = Math.PI / 180;
/** Wide enough that every line of these sheets is one stroke. */
const PAPER = '3000x3000mm';

interface Built {
  readonly lower: PlaneCut;
  readonly upper: PlaneCut;
  readonly placed: Motion;
}

/** Puts the gores of a printed turn end to end, each on the one before, from nothing but their cut lines. */
const assemble = (file: PdfFile, pieces: number, od: number, paper = 0.1): readonly Built[] => {
  const built: Built[] = [];
  for (let i = 1; i <= pieces; i++) {
    const cuts = readPlaneCuts(file, `gore ${i}`, { od, paper });
    expect(cuts).toHaveLength(2);
    const [lower, upper] = cuts as [PlaneCut, PlaneCut];
    expect(Math.max(lower.miss, upper.miss)).toBeLessThan(0.005);
    const last = built[built.length - 1];
    const placed = last ? setOn(last.upper, last.placed, lower, od / 2) : stay;
    if (last) expect(seam(last.upper, last.placed, lower, placed, od / 2)).toBeLessThan(0.01);
    built.push({ lower, upper, placed });
  }
  return built;
};

describe('gores put end to end from their own print', () => {
  it.each([
    { od: 219.1, angle: 90, pieces: 5, radius: 304.8 },
    { od: 114.3, angle: 90, pieces: 3, radius: 152.4 },
    { od: 323.8, angle: 60, pieces: 4, radius: 457.2, tangent: [50, 120] },
    { od: 60.3, angle: 180, pieces: 9, radius: 76.2, seam: 90, stagger: 37 },
    { od: 168.3, angle: 75, pieces: 4, radius: 228.6, cuts: [10, 15, 12.5], tangent: [0, 30] },
    { od: 88.9, angle: 22, pieces: 2, radius: 400 },
    { od: 114.3, angle: 170, pieces: 20, radius: 228.6, seam: 180, stagger: 180 },
  ])(
    'closes: $od, $angle° in $pieces',
    async ({ od, angle, pieces, radius, ...more }) => {
      const [start, end] = more.tangent ?? [0, 0];
      const { file } = await printAndRead('turn', {
        pipe: `OD ${od}mm wall 5mm`,
        angle: String(angle),
        pieces: String(pieces),
        radius: `${radius}mm`,
        paper: PAPER,
        ...(more.tangent ? { tangent: `${start}mm,${end}mm` } : {}),
        ...(more.cuts ? { cuts: more.cuts.join(',') } : {}),
        seam: String(more.seam ?? 0),
        stagger: String(more.stagger ?? 0),
      });
      const built = assemble(file, pieces, od);
      const [first, last] = [built[0]!, built[built.length - 1]!];
      // Total angle: the arm of the bend radius makes 0.02 mm of it.
      const axis = last.placed.turn(point(0, 0, 1));
      expect(Math.abs(Math.atan2(axis.x, axis.z) - angle * DEGREE) * radius).toBeLessThan(0.02);
      expect(Math.abs(axis.y)).toBeLessThan(1e-6);
      // Bend radius: every centre line is tangent to the circle about the bend's centre, on the throat side.
      const foot = first.placed.move(point(0, 0, first.lower.mid));
      const centre = plus(foot, point(radius, 0, start!));
      for (const { placed } of built) {
        const along = placed.turn(point(0, 0, 1));
        const from = minus(centre, placed.move(point(0, 0, 0)));
        expect(Math.abs(norm(minus(from, times(along, inner(from, along)))) - radius)).toBeLessThan(0.02);
      }
      // The far end lies where the arc and the straight beyond it end.
      const a = angle * DEGREE;
      const arc = plus(centre, point(-radius * Math.cos(a), 0, radius * Math.sin(a)));
      const expected = plus(arc, times(point(Math.sin(a), 0, Math.cos(a)), end!));
      expect(norm(minus(last.placed.move(point(0, 0, last.upper.mid)), expected))).toBeLessThan(0.02);
      // Square ends are square, and each sheet's origin is at mid-length.
      for (const cut of [first.lower, last.upper]) expect(Math.hypot(cut.cos, cut.sin)).toBeLessThan(1e-4);
      for (const { lower, upper } of built) expect(lower.mid + upper.mid).toBeCloseTo(0, 4);
    },
    60_000,
  );
});

describe('published figures', () => {
  /** Longfield 1921 p. 59: 5 pieces of 90°, 8 backsets of 11 1/4°; miter lines rise 11.25, 33.75, 56.25, 78.75°. */
  it('has the miter lines of the five-piece elbow', async () => {
    const { file } = await printAndRead('turn', {
      pipe: 'OD 219.1mm wall 8.18mm',
      pieces: '5',
      radius: '304.8mm',
      paper: PAPER,
    });
    const rises = assemble(file, 5, 219.1)
      .slice(0, -1)
      .map(({ upper, placed }) => {
        const across = placed.turn(point(1, 0, upper.cos / (219.1 / 2)));
        return -Math.atan2(across.z, across.x) / DEGREE;
      });
    [11.25, 33.75, 56.25, 78.75].forEach((rise, i) => expect(rises[i]).toBeCloseTo(rise, 3));
  });

  /** Longfield 1921 p. 59, problems 13D to 13K: n pieces have 2 (n - 1) backsets, 6° each for these totals. */
  it.each([
    [2, 12],
    [3, 24],
    [4, 36],
    [5, 48],
    [6, 60],
    [7, 72],
    [8, 84],
  ])('%d pieces turning %d° are cut at 6°', (pieces, angle) => {
    const sheets = makeWrittenSheets(
      readRequest('turn', {
        pipe: 'NPS 6 sch 40',
        angle: String(angle),
        pieces: String(pieces),
        radius: '2ft',
      }),
    );
    expect(sheets).toHaveLength(pieces);
    sheets
      .slice(0, -1)
      .forEach((sheet) => expect(sheet.facts).toContainEqual(['Cut above, from square', '6°']));
  });

  /** Longfield 1921, problems 13B and 13C: miter lines at 12.5, 37.5, 62.5° and at 22.5, 67.5° (answers computed). */
  it.each([
    [4, 75, '12.5°'],
    [3, 90, '22.5°'],
  ])('%d pieces turning %d° are cut at %s', (pieces, angle, cut) => {
    const [sheet] = makeWrittenSheets(
      readRequest('turn', {
        pipe: 'NPS 6 sch 40',
        angle: String(angle),
        pieces: String(pieces),
        radius: '2ft',
      }),
    );
    expect(sheet?.facts).toContainEqual(['Cut above, from square', cut]);
  });

  /** Atkins ch. VI: pipe 5 in across with 120° between its legs has joint lines at 30°, 2.9 in from back to throat. */
  it('has the back and throat of the two-piece elbow', async () => {
    const { file } = await printAndRead('turn', {
      pipe: 'OD 5in wall 0.1in',
      angle: '60',
      pieces: '2',
      radius: '6in',
      paper: PAPER,
    });
    const [, upper] = readPlaneCuts(file, 'gore 1', { od: 127, paper: 0.1 });
    expect((-2 * upper!.cos) / 25.4).toBeCloseTo(2.8868, 3);
  });

  /** Elementary geometry of the segmental bend, R (tan a) with R ± r on heel and throat, worked out by hand. */
  it.each([
    [323.8, 457.2, 4, 122.506, 165.887, 79.125],
    [219.1, 304.8, 5, 60.628, 82.419, 38.838],
    [610, 914.4, 5, 181.885, 242.554, 121.217],
    [114.3, 152.4, 3, 63.126, 86.798, 39.454],
  ])(
    'OD %d, R %d, %d pieces of 90°',
    async (od, radius, pieces, centre, heel, throat) => {
      const { file } = await printAndRead('turn', {
        pipe: `OD ${od}mm wall 5mm`,
        pieces: String(pieces),
        radius: `${radius}mm`,
        paper: PAPER,
      });
      for (let i = 1; i <= pieces; i++) {
        const [lower, upper] = readPlaneCuts(file, `gore ${i}`, { od, paper: 0.1 }) as [PlaneCut, PlaneCut];
        const times2 = i === 1 || i === pieces ? 1 : 2;
        const slant = upper.cos - lower.cos;
        expect(upper.mid - lower.mid).toBeCloseTo(times2 * centre, 2);
        expect(upper.mid - lower.mid - slant).toBeCloseTo(times2 * heel, 2);
        expect(upper.mid - lower.mid + slant).toBeCloseTo(times2 * throat, 2);
      }
    },
    60_000,
  );

  /** ASME B31.3 304.2.3 at second hand: 22.5°, R1 = A / tan cut + D/2 with A = 25 mm, M = 2.5 sqrt(r2 T) by hand. */
  it('sets the published limits beside the turn', () => {
    const ask = (pieces: string) =>
      makeSheets(readRequest('turn', { pipe: 'OD 219.1mm wall 8mm', pieces, radius: '300mm' }));
    const [first] = ask('5');
    const advice = first?.tables.find(({ title }) => title.includes('B31.3'));
    expect(advice?.title).toMatch(/second hand.*no rating/);
    // 25 / tan 11.25° + 109.55 = 235.2; the larger of 2.5 sqrt(105.55 × 8) = 72.6 and tan 11.25° (300 - 105.55) = 38.7.
    expect(advice?.rows[1]?.[1]).toMatch(/^235\.2 mm/);
    expect(advice?.rows[2]?.[1]).toMatch(/^72\.6 mm/);
    expect(advice?.rows.map((row) => row[3])).toEqual(['kept', 'kept', 'NOT KEPT']);
    expect(ask('2')[0]?.cautions.join(' ')).toMatch(/22\.5°/);
  });
});

describe('gores nested on one pipe', () => {
  it.each([
    [219.1, 90, 5, 304.8, 3],
    [114.3, 90, 3, 152.4, 0],
    [60.3, 120, 7, 120, 5],
  ])(
    'OD %d: %d° in %d',
    async (od, angle, pieces, radius, kerf) => {
      const { file } = await printAndRead('turn', {
        pipe: `OD ${od}mm wall 4mm`,
        angle: String(angle),
        pieces: String(pieces),
        radius: `${radius}mm`,
        kerf: `${kerf}mm`,
        nest: 'yes',
        paper: PAPER,
      });
      const wrap = { od, paper: 0.1 };
      const own = Array.from({ length: pieces }, (_, i) => readPlaneCuts(file, `gore ${i + 1}`, wrap));
      const lines = readPlaneCuts(file, 'nested gores', wrap);
      const pairs =
        kerf > 0 ? lines : [lines[0]!, ...lines.slice(1, -1).flatMap((cut) => [cut, cut]), lines.at(-1)!];
      expect(pairs).toHaveLength(2 * pieces);
      const cut = (angle * DEGREE) / (2 * (pieces - 1));
      own.forEach(([lower, upper], i) => {
        const [below, above] = [pairs[2 * i]!, pairs[2 * i + 1]!];
        // Every other gore lies half round, as it is on its own sheet otherwise.
        const sign = i % 2 === 0 ? 1 : -1;
        expect(above.mid - below.mid).toBeCloseTo(upper!.mid - lower!.mid, 3);
        expect(below.cos * sign).toBeCloseTo(lower!.cos, 3);
        expect(above.cos * sign).toBeCloseTo(upper!.cos, 3);
        const next = pairs[2 * i + 2];
        // The saw's two faces are parallel, its width apart.
        if (next) expect((next.mid - above.mid) * Math.cos(cut)).toBeCloseTo(kerf, 3);
      });
      const length = pairs.at(-1)!.mid - pairs[0]!.mid;
      const centres = own.reduce((sum, [lower, upper]) => sum + upper!.mid - lower!.mid, 0);
      const cutback = od * Math.tan(cut);
      expect(length).toBeLessThanOrEqual(centres + (pieces - 1) * kerf + cutback);
      expect(length).toBeGreaterThanOrEqual(centres + (pieces - 1) * kerf - 1e-3);
    },
    60_000,
  );

  /**
   * With first touch through the wall a gore is held back at its heel, where the bore touches. Closed forms for a miter's plane at a
   * radius: heel 2 (R + bore) tan 15°, throat 2 (R - outside) tan 15°, both less the gap square to the faces: 3 / cos 15°.
   */
  it.each(['0mm', '3mm'])('lengths and lines of a contact through the wall, kerf %s', async (kerf) => {
    const [od, wall, radius, gap] = [168.3, 10.97, 200, 3];
    const request = {
      pipe: `OD ${od}mm wall ${wall}mm`,
      pieces: '4',
      radius: `${radius}mm`,
      gap: `${gap}mm`,
      contact: 'wall',
      nest: 'yes',
      kerf,
      paper: PAPER,
    };
    const tan = Math.tan(15 * DEGREE);
    const off = gap / Math.cos(15 * DEGREE);
    const heel = 2 * (radius + od / 2 - wall) * tan - off;
    const throat = 2 * (radius - od / 2) * tan - off;
    const sheets = makeWrittenSheets(readRequest('turn', request));
    const nest = sheets.find(({ name }) => name === 'nested gores')!;
    const titles = nest.tables.map(({ title }) => title);
    const lengths = nest.tables[titles.indexOf('Lengths of the pieces, cut to cut')]!.rows[1]!;
    expect(lengths[1]).toBe(heel.toFixed(1));
    expect(lengths[5]).toBe(throat.toFixed(1));
    const gore = sheets.find(({ name }) => name === 'gore 2')!;
    expect(gore.facts.find(([label]) => label === 'Heel, cut to cut')![1]).toContain(`${heel.toFixed(1)} mm`);
    const view = gore.pictures.flatMap(({ marks }) =>
      marks.flatMap((m) => (m.kind === 'text' ? [m.text] : [])),
    );
    expect(view).toContain(heel.toFixed(1));
    // What is sawn is cut in a plane: no saw cuts are listed for lines that lie in none.
    expect(titles).not.toContain('Middle of each saw cut, from the square end');
    expect(nest.steps.join(' ')).toContain('Cut on both lines of each cut');
    // Along the heel of gore 2, which lies half around, its own two lines stand that far apart.
    const { file } = await printAndRead('turn', request);
    const at = layerPoints(file, 'nested gores', 'cut').filter(({ x }) => Math.abs(x) < 1e-6);
    const heights = [...new Set(at.map(({ y }) => y.toFixed(3)))].map(Number).sort((a, b) => a - b);
    const gaps = heights.flatMap((low, i) => heights.slice(i + 1).map((high) => high - low));
    expect(Math.min(...gaps.map((gap) => Math.abs(gap - heel)))).toBeLessThan(0.002);
  });

  it('names a weld by the faces of a tube', () => {
    const sheets = makeWrittenSheets(
      readRequest('turn', {
        stock: 'tube 100x60x5mm',
        angle: '45',
        pieces: '3',
        radius: '300mm',
        nest: 'yes',
      }),
    );
    const facts = sheets.find(({ name }) => name === 'nested gores')!.facts;
    expect(facts).toContainEqual(['A weld along the length at face 2', 'falls on face 2 and face 4 in turn']);
  });

  it('is left out for plate, which is cut flat', () => {
    const sheets = makeWrittenSheets(
      readRequest('turn', { pipe: 'NPS 8 sch 40', pieces: '3', radius: '1ft', 'made-from': 'plate' }),
    );
    expect(sheets.map(({ name }) => name)).toEqual(['gore 1', 'gore 2', 'gore 3']);
  });
});

describe('gores of rolled plate', () => {
  it('are laid out on the mean diameter, with the seam allowance at the right', async () => {
    const [od, wall, allowance] = [610, 12.7, 25];
    const { file } = await printAndRead('turn', {
      pipe: `OD ${od}mm wall ${wall}mm`,
      pieces: '4',
      radius: '915mm',
      paper: PAPER,
      'made-from': 'plate',
      'seam-allowance': `${allowance}mm`,
      seam: '90',
      stagger: '180',
    });
    const { sheetStrokes, samplePath } = await import('../../support/pdf-reader.ts');
    for (const [name, seamAt] of [
      ['gore 2', -90],
      ['gore 3', 90],
    ] as const) {
      const strokes = sheetStrokes(file, name, 'cut').map((stroke) => samplePath(stroke.path, 1));
      expect(strokes).toHaveLength(4);
      const xs = strokes.flat().map((p) => p.x);
      const girth = Math.PI * (od - wall);
      expect(Math.min(...xs)).toBeCloseTo((seamAt / 360) * girth, 3);
      expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(girth + allowance, 3);
      // A middle gore's upper line: 915 tan 15° at mid-length and (610/2) tan 15° of swing, on the mean girth.
      for (const p of strokes.flat().filter(({ x, y }) => y > 160 && x < Math.max(...xs) - 0.01)) {
        const station = (p.x / girth) * 2 * Math.PI;
        const due = (915 - 305 * Math.cos(station)) * Math.tan(15 * DEGREE);
        if (p.x > Math.min(...xs) + 0.01) expect(Math.abs(p.y - due)).toBeLessThan(0.005);
      }
    }
  });
});
