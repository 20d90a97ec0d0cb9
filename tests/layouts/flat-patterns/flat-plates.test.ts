import { describe, expect, it } from 'vitest';
import { makeBook, makeSheets, readRequest } from '../../../src/index.ts';
import { proveFile } from '../../../src/proof/prove.ts';
import { mergeEqual } from '../../../src/sheets/equal.ts';
import { textsOf } from '../../paging/page-checks.ts';
import { patternOf, PAPER, readPattern, ringDistance } from '../../support/fold.ts';
import { readPolygons } from '../../support/polygons.ts';
import { samplePath, sheetStrokes } from '../../support/pdf-reader.ts';
import { printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';
import { norm, minus, point, type Vec2, type Vec3 } from '../../support/space.ts';

const DEGREE = Math.PI / 180;
const from = (p: Vec2, q: Vec2): number => Math.hypot(p.x - q.x, p.y - q.y);

describe('a hopper from its print', () => {
  it.each([
    [300, 300, 120, 120, 200, 0, 0],
    [1200, 900, 300, 200, 800, 100, -50],
    [300, 200, 500, 400, 250, 0, 0],
  ])(
    'top %dx%d, bottom %dx%d, %d high, offset %d,%d: four plates that meet',
    async (tx, ty, bx, by, h, ox, oy) => {
      const { file } = await printAndRead('hopper', {
        top: `${tx}x${ty}mm`,
        bottom: `${bx}x${by}mm`,
        height: `${h}mm`,
        offset: `${ox}mm,${oy}mm`,
        equal: 'each',
        paper: PAPER,
      });
      // Corners from above, counter-clockwise from the front left.
      const ring = (x: number, y: number, cx: number, cy: number, z: number): Vec3[] =>
        [
          [-1, -1],
          [1, -1],
          [1, 1],
          [-1, 1],
        ].map(([sx, sy]) => point(cx + (sx! * x) / 2, cy + (sy! * y) / 2, z));
      const [top, bottom] = [ring(tx, ty, 0, 0, h), ring(bx, by, ox, oy, 0)];
      for (const [i, side] of ['front', 'right', 'back', 'left'].entries()) {
        const polygons = readPolygons(file, `hopper ${side}`);
        expect(polygons).toHaveLength(1);
        const [bl, br, tr, tl] = polygons[0]!;
        // Seen from outside the plate runs from this corner to the next one.
        const space = [bottom[i]!, bottom[(i + 1) % 4]!, top[(i + 1) % 4]!, top[i]!];
        const flat = [bl!, br!, tr!, tl!];
        for (let a = 0; a < 4; a++)
          for (let b = a + 1; b < 4; b++)
            expect(from(flat[a]!, flat[b]!)).toBeCloseTo(norm(minus(space[a]!, space[b]!)), 3);
        // Not mirrored: bottom edge level, the plate above it.
        expect(tl!.y).toBeGreaterThan(bl!.y);
        expect(br!.x).toBeGreaterThan(bl!.x);
      }
    },
  );

  it.each([
    ['square', { top: '300x300mm', bottom: '120x120mm' }, ['FRONT, RIGHT, BACK, LEFT'], [4]],
    ['oblong', { top: '300x200mm', bottom: '120x120mm' }, ['FRONT, BACK', 'RIGHT, LEFT'], [2, 2]],
    [
      'square, of plate',
      { top: '300x300mm', bottom: '120x120mm', thickness: '3mm' },
      ['FRONT, BACK', 'RIGHT, LEFT'],
      [2, 2],
    ],
    [
      'askew',
      { top: '300x300mm', bottom: '120x120mm', offset: '40mm,0mm' },
      ['FRONT', 'RIGHT', 'BACK', 'LEFT'],
      [1, 1, 1, 1],
    ],
  ])('%s: plates that are one are drawn once, under the names of all', (_what, texts, names, counts) => {
    const sheets = mergeEqual(makeSheets(readRequest('hopper', { ...texts, height: '200mm' })));
    const said = sheets.map(({ marks }) =>
      marks.flatMap((mark) => (mark.kind === 'text' && mark.bold ? [mark.text] : [])),
    );
    expect(said.map(([name]) => name)).toEqual(names);
    expect(sheets.map(({ make = 1 }) => make)).toEqual(counts);
  });

  it('large plates bear their names on a page that is printed', () => {
    const request = readRequest('hopper', {
      top: '24x18in',
      bottom: '6x6in',
      height: '20in',
      offset: '4in,0in',
      paper: 'letter',
    });
    const texts = makeBook(request).pages.flatMap(textsOf);
    for (const name of ['FRONT', 'RIGHT', 'BACK', 'LEFT']) expect(texts).toContain(name);
    expect(texts.filter((text) => text === 'outside, top up')).toHaveLength(4);
  });

  it('300 to 120 square, 200 high: plates stand 65.772° to level, corners 99.695°', () => {
    const sheets = makeSheets(
      readRequest('hopper', { top: '300x300mm', bottom: '120x120mm', height: '200mm' }),
    );
    for (const { facts } of sheets) {
      const degrees = (label: string): number => {
        const said = new Map(facts).get(label);
        return typeof said === 'object' && said.kind === 'angle' ? said.radians / DEGREE : NaN;
      };
      // atan(200 / 90), and cos = -cos² of it where two meet in a square corner (closed forms).
      expect(degrees('Plate to level')).toBeCloseTo(65.772, 3);
      expect(degrees('Left corner, between inside faces')).toBeCloseTo(99.695, 3);
    }
  });

  it('laps the front and back by the thickness over the sine of the corner, and turns the flange out', async () => {
    const texts = { top: '300x300mm', bottom: '120x120mm', height: '200mm', thickness: '3mm', paper: PAPER };
    const { file } = await printAndRead('hopper', texts);
    const [front, right] = ['hopper front', 'hopper right'].map((name) => readPolygons(file, name)[0]!);
    // Corner between inside faces 99.695°: cos = -cos²(slope), slope = atan(200 / 90).
    const slope = Math.atan2(200, 90);
    const corner = Math.acos(-(Math.cos(slope) ** 2));
    expect(corner / DEGREE).toBeCloseTo(99.695, 3);
    const lap = 3 / Math.sin(corner);
    const lean = Math.atan2(90, Math.hypot(200, 90));
    expect(from(front![0]!, front![1]!)).toBeCloseTo(120 + (2 * lap) / Math.cos(lean), 3);
    expect(from(right![0]!, right![1]!)).toBeCloseTo(120, 3);
    const flanged = await printAndRead('hopper', { ...texts, flange: '30mm' });
    const outline = readPolygons(flanged.file, 'hopper right')[0]!;
    expect(outline).toHaveLength(6);
    expect(from(outline[3]!, outline[4]!)).toBeCloseTo(360, 3);
    expect(sheetStrokes(flanged.file, 'hopper right', 'bend').length).toBeGreaterThan(0);
  });
});

describe('gores from their print', () => {
  it.each([
    ['rolled', 8, [82.843, 71.744, 41.421]],
    ['rolled', 12, [53.59, 46.41, 26.795]],
    ['dished', 8, [78.54, 68.017, 39.27]],
    ['dished', 12, [52.36, 45.345, 26.18]],
  ] as const)('%s, %d of a ball of 200: widths at 0, 30 and 60', async (form, count, widths) => {
    const { file } = await printAndRead('gores', {
      sphere: '200mm',
      count: String(count),
      form,
      paper: PAPER,
    });
    const points = sheetStrokes(file, 'gore', 'cut').flatMap(({ path }) => samplePath(path, 0.05));
    const width = (latitude: number): number => {
      const y = 100 * latitude * DEGREE;
      return points.reduce((most, p) => (Math.abs(p.y - y) < 0.06 ? Math.max(most, 2 * p.x) : most), 0);
    };
    [0, 30, 60].forEach((latitude, i) => expect(width(latitude)).toBeCloseTo(widths[i]!, 0));
    // Every point exactly: rolled about the ball's axis, a side lies in the plane half a gore round.
    for (const { x, y } of points) {
      const level = 100 * Math.cos(y / 100);
      const half = form === 'rolled' ? level * Math.tan(Math.PI / count) : (level * Math.PI) / count;
      expect(Math.abs(Math.abs(x) - half)).toBeLessThan(0.005);
    }
    expect(Math.max(...points.map((p) => p.y))).toBeCloseTo(50 * Math.PI, 3);
  });

  it('ends at the crown’s rim', async () => {
    const { file } = await printAndRead('gores', {
      sphere: '1000mm',
      count: '16',
      from: '0',
      crown: '250mm',
      form: 'dished',
      paper: PAPER,
    });
    const points = sheetStrokes(file, 'gore', 'cut').flatMap(({ path }) => samplePath(path, 1));
    const top = Math.acos(0.25);
    expect(Math.max(...points.map((p) => p.y))).toBeCloseTo(500 * top, 3);
    const crown = sheetStrokes(file, 'crown', 'cut').flatMap(({ path }) => samplePath(path, 1));
    // Archimedes: the cap has the area of the disc whose radius is the chord from its pole to its rim.
    const height = 500 * (1 - Math.sin(top));
    for (const p of crown) expect(Math.hypot(p.x, p.y)).toBeCloseTo(Math.hypot(125, height), 3);
  });
});

describe('a flight’s blank from its print', () => {
  it.each([
    // Outer edge 29.672175 in as published; the inner one was published with two digits of the pipe swapped.
    [73.025, 228.6, 228.6, 2.30764 * 25.4, 5.37014 * 25.4, 43.418],
    [60, 200, 200, 50.027, 120.027, 45.239],
  ])('pipe %d, outside %d, pitch %d', async (pipe, outside, pitch, inner, outer, gap) => {
    const pattern = await readPattern(
      'flight',
      { pipe: `${pipe}mm`, outside: `${outside}mm`, pitch: `${pitch}mm` },
      'flight',
    );
    const radii = pattern.points.map((p) => Math.hypot(p.x, p.y));
    expect(Math.max(...radii)).toBeCloseTo(outer, 2);
    expect(Math.min(...radii)).toBeCloseTo(inner, 2);
    const sector = (360 - gap) * DEGREE;
    expect(pattern.area / ((sector * (outer ** 2 - inner ** 2)) / 2)).toBeCloseTo(1, 4);
    // Both edges as long as their helices, from the print alone.
    expect(outer * sector).toBeCloseTo(Math.hypot(Math.PI * outside, pitch), 1);
    expect(inner * sector).toBeCloseTo(Math.hypot(Math.PI * pipe, pitch), 1);
    expect(
      pattern.points.every((p) => p.y > 0 || Math.abs(Math.atan2(p.x, -p.y)) > (gap / 2) * DEGREE - 1e-4),
    ).toBe(true);
  });
});

describe('a folded blank from its print', () => {
  const lines = (file: Parameters<typeof sheetStrokes>[0]) =>
    sheetStrokes(file, 'blank', 'bend').map(({ path }) => path[0]!.start.x);

  it('channel .040, R .16, mold lines 1, 2, 1 in: allowance by the FAA’s formula .2791, in all 3.758', async () => {
    const { file } = await printAndRead('blank', {
      legs: '1in,2in,1in',
      angles: '90,90',
      thickness: '0.04in',
      radius: '0.16in',
      measure: 'mold-line',
      width: '6in',
      paper: PAPER,
    });
    const [outline] = readPolygons(file, 'blank');
    const xs = outline!.map(({ x }) => x);
    // FAA-H-8083-31, ch. 4: BA = (.01743 R + .0078 T) 90, setback .2; its rounded .27 loses .018 in on the whole.
    const allowance = (0.01743 * 0.16 + 0.0078 * 0.04) * 90;
    expect(allowance).toBeCloseTo(0.2791, 4);
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo((0.8 + 1.6 + 0.8 + 2 * allowance) * 25.4, 3);
    const bends = [...new Set(lines(file).map((x) => Number(x.toFixed(3))))];
    expect(bends[0]).toBeCloseTo((0.8 + allowance / 2) * 25.4, 2);
    expect(bends[bends.length - 1]).toBeCloseTo((0.8 + 1.5 * allowance + 1.6) * 25.4, 2);
  });

  it('carries holes to the flat', async () => {
    const { file } = await printAndRead('blank', {
      legs: '60mm,90mm',
      angles: '90',
      thickness: '5mm',
      radius: '5mm',
      k: '0.4',
      width: '80mm',
      hole: ['2: 60mm,30mm: 14mm'],
      paper: PAPER,
    });
    const flat = 60 - 10 + (Math.PI / 2) * (5 + 0.4 * 5) - 10 + 60;
    const circle = sheetStrokes(file, 'blank', 'cut').flatMap(({ path }) =>
      path.some(({ segments }) => segments.some(({ kind }) => kind === 'curve')) ? samplePath(path, 0.5) : [],
    );
    expect(circle.length).toBeGreaterThan(20);
    for (const p of circle) expect(Math.hypot(p.x - flat, p.y - 30)).toBeCloseTo(7, 3);
  });

  it('refuses a leg too short for its bends, a hole in a bend, a number of angles that is off', () => {
    const texts = { legs: '50mm,8mm,50mm', angles: '90,90', thickness: '3mm', radius: '3mm' };
    expect(refused('blank', texts).what).toBe('joint legs leg-too-short');
    expect(refused('blank', { ...texts, angles: '90' }).what).toBe('request angles number-of-angles');
    expect(
      refused('blank', { ...texts, legs: '50mm,60mm,50mm', width: '40mm', hole: ['1: 47mm,20mm: 6mm'] }).what,
    ).toBe('joint hole hole-off-flat');
    // The flat of leg 1 is 50 − 6 mm; where no place is free none is offered.
    const wide = refused('blank', {
      ...texts,
      legs: '50mm,60mm,50mm',
      width: '60mm',
      hole: ['1: 20mm,30mm: 48mm'],
    });
    expect(wide.hint).toContain('the flat of leg 1 is only 44.0 mm');
  });

  it('refuses holes that overlap, one given twice among them', () => {
    const texts = { legs: '60mm,90mm', angles: '90', thickness: '5mm', radius: '5mm', width: '80mm' };
    for (const second of ['2: 60mm,30mm: 14mm', '2: 70mm,30mm: 8mm'])
      expect(refused('blank', { ...texts, hole: ['2: 60mm,30mm: 14mm', second] }).what).toBe(
        'joint hole holes-overlap',
      );
  });
});

describe('a turn that reduces, from its print', () => {
  it('has joints that neighbors share all round, in planes that halve the turn', async () => {
    const [large, small, wall, radius, pieces] = [219.1, 168.3, 8, 300, 4];
    const { file } = await printAndRead('turn', {
      stock: `OD ${large}mm wall ${wall}mm`,
      to: `OD ${small}mm wall ${wall}mm`,
      angle: '90',
      pieces: String(pieces),
      radius: `${radius}mm`,
      paper: PAPER,
    });
    const cut = 15 * DEGREE;
    const lengths = [1, 2, 2, 1].map((k) => k * radius * Math.tan(cut));
    const total = lengths.reduce((sum, l) => sum + l, 0);
    const slope = (large - small) / 2 / total;
    const lean = Math.atan(slope);
    // Each gore lies on the one cone, whose apex is where its seams meet; along the axis from the large end.
    const ends = [1, 2, 3, 4].map((number) => {
      const pattern = patternOf(file, `gore ${number}`);
      const middle = (pattern.leftFoot.x + pattern.rightFoot.x) / 2;
      const t = (middle - pattern.leftFoot.x) / (pattern.leftHead.x - pattern.leftFoot.x);
      const apex = { x: middle, y: pattern.leftFoot.y + t * (pattern.leftHead.y - pattern.leftFoot.y) };
      const start = lengths.slice(0, number - 1).reduce((sum, l) => sum + l, 0);
      return pattern.points.map((p) => {
        const slant = from(p, apex);
        // Cut open at the throat, station 0.
        const turn = Math.atan2(p.x - apex.x, apex.y - p.y) / Math.sin(lean) + Math.PI;
        const along = ((large - wall) / 2 - slant * Math.sin(lean)) / slope - start;
        const r = slant * Math.sin(lean);
        return point(r * Math.cos(turn), r * Math.sin(turn), along);
      });
    });
    let [heading, x, z] = [0, 0, 0];
    const placed = ends.map((points, i) => {
      const [c, s, x0, z0] = [Math.cos(heading), Math.sin(heading), x, z];
      x += lengths[i]! * s;
      z += lengths[i]! * c;
      heading += 2 * cut;
      return points.map((p) => point(x0 + c * p.x + s * p.z, p.y, z0 + c * p.z - s * p.x));
    });
    placed.slice(1).forEach((points, i) => {
      const corner = point(
        lengths.slice(0, i + 1).reduce((sum, l, k) => sum + l * Math.sin(2 * cut * k), 0),
        0,
        lengths.slice(0, i + 1).reduce((sum, l, k) => sum + l * Math.cos(2 * cut * k), 0),
      );
      const normal = point(Math.sin(2 * cut * i + cut), 0, Math.cos(2 * cut * i + cut));
      const depth = (p: Vec3): number =>
        (p.x - corner.x) * normal.x + (p.y - corner.y) * normal.y + (p.z - corner.z) * normal.z;
      // Both pieces have the same plane curve there: the level they share, a little past the corner.
      const at = Math.max(...placed[i]!.map(depth));
      const upper = placed[i]!.filter((p) => Math.abs(depth(p) - at) < 0.01);
      const lower = points.filter((p) => Math.abs(depth(p) - at) < 0.01);
      expect(upper.length).toBeGreaterThan(200);
      expect(lower.length).toBeGreaterThan(200);
      expect(Math.max(...lower.map((p) => ringDistance(p, upper)))).toBeLessThan(0.012);
    });
  });

  it.each([0, 4])(
    'nests on one cone with gap %d: every other gore turned, each cut in its plane',
    async (gap) => {
      const [large, small, wall, radius] = [219.1, 168.3, 8, 300];
      const { bytes, file } = await printAndRead('turn', {
        stock: `OD ${large}mm wall ${wall}mm`,
        to: `OD ${small}mm wall ${wall}mm`,
        angle: '90',
        pieces: '4',
        radius: `${radius}mm`,
        gap: `${gap}mm`,
        nest: 'yes',
        sheets: 'nested',
        paper: PAPER,
      });
      expect(proveFile(bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
      const [outline, ...joints] = sheetStrokes(file, 'nested gores', 'cut').map(({ path }) =>
        samplePath(path, 2),
      );
      expect(joints).toHaveLength(gap > 0 ? 6 : 3);
      const lengths = [1, 2, 2, 1].map((k) => k * radius * Math.tan(15 * DEGREE));
      const total = lengths.reduce((sum, l) => sum + l, 0);
      const slope = (large - small) / 2 / total;
      const lean = Math.atan(slope);
      // The pattern is a sector about (0, outer), cut open at station 0.
      const outer = (large - wall) / 2 / Math.sin(lean);
      const rolled = (p: Vec2): Vec3 => {
        const slant = Math.hypot(p.x, outer - p.y);
        const turn = Math.atan2(p.x, outer - p.y) / Math.sin(lean) + Math.PI;
        const r = slant * Math.sin(lean);
        return point(r * Math.cos(turn), r * Math.sin(turn), (outer - slant) * Math.cos(lean));
      };
      const heights = outline!.map((p) => rolled(p).z);
      expect(Math.min(...heights)).toBeCloseTo(0, 2);
      expect(Math.max(...heights)).toBeCloseTo(total, 2);
      joints.forEach((points, k) => {
        const i = gap > 0 ? Math.floor(k / 2) : k;
        const along = lengths.slice(0, i + 1).reduce((sum, l) => sum + l, 0);
        // Alternate cuts lean either way; the plane lies ρ sin b / cos c past the corner, and half of the gap to either side.
        const sign = i % 2 === 0 ? 1 : -1;
        const rho = ((large - wall) / 2 - slope * along) * Math.cos(lean);
        const past = (rho * Math.sin(lean)) / Math.cos(15 * DEGREE);
        const side = gap === 0 ? 0 : k % 2 === 0 ? -gap / 2 : gap / 2;
        const offs = points.map(rolled).map(({ x, z }) => {
          const own = sign * x * Math.sin(15 * DEGREE) + (z - along) * Math.cos(15 * DEGREE);
          return Math.abs(own - past - side);
        });
        expect(points.length).toBeGreaterThan(200);
        expect(Math.max(...offs)).toBeLessThan(0.01);
      });
    },
  );
});
