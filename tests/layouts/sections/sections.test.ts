import { markBounds } from '../../../src/drawing/extent.ts';
import { letteringBox } from '../../../src/drawing/lettering.ts';
import { describe, expect, it } from 'vitest';
import type { WrittenSheet } from '../../../src/drawing/model.ts';
import { slopedCorner } from '../../../src/geometry/compound.ts';
import { makeCutterSheets, makeWrittenSheets, readRequest, type Texts } from '../../../src/index.ts';
import { proveFile } from '../../../src/proof/prove.ts';
import { layerPoints, printAndRead, range } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const DEGREE = Math.PI / 180;
const sheetsOf = (layout: string, texts: Texts): readonly WrittenSheet[] =>
  makeWrittenSheets(readRequest(layout, texts));
const factOf = (sheet: WrittenSheet | undefined, label: string): string =>
  sheet?.facts.find(([name]) => name === label)?.[1] ?? 'none';

describe('notch, from the bytes of its print', () => {
  /** Width 2(b − t) tan(turn / 2): common practice, no source. C 8x11.5 has flanges of 2.26 in and a web of .220 in (AISC). */
  it.each([
    ['angle 50x50x5mm', '60', 51.962],
    ['angle 50x50x5mm', '90', 90],
    ['angle 50x50x5mm', '45', 37.279],
    ['tube 100x100x6mm', '90', 188],
    ['C 8x11.5', '90', 4.08 * 25.4],
  ])('%s turned %s is %d mm wide at the far edge', async (stock, turn, width) => {
    const { file } = await printAndRead('notch', { stock, turn, paper: '700x700mm' });
    const [low, high] = range(layerPoints(file, 'notch', 'cut').map(({ y }) => y));
    expect(Math.abs(high - low - width)).toBeLessThan(0.002);
    expect(high + low).toBeCloseTo(0, 3);
  });

  it.each(['angle 50x50x5mm', 'tube 60x60x4mm', 'C 8x11.5', 'HSS 6x4x1/4'])(
    'has no line without length where a sharp fold of %s brings both sides to a point',
    (stock) => {
      const [sheet] = makeCutterSheets(readRequest('notch', { stock, turn: '90' }));
      const lengths = (sheet?.marks ?? []).flatMap((mark) => {
        if (mark.kind !== 'stroke' || mark.role !== 'cut') return [];
        const { start, segments } = mark.path;
        return segments.map(({ to }, i) => {
          const from = segments[i - 1]?.to ?? start;
          return Math.hypot(to.x - from.x, to.y - from.y);
        });
      });
      expect(lengths.length).toBeGreaterThan(3);
      expect(Math.min(...lengths)).toBeGreaterThan(0.001);
    },
  );

  it('says the width and the included angle', () => {
    const [sheet] = sheetsOf('notch', { stock: 'angle 50x50x5mm', turn: '60', units: 'mm' });
    expect(factOf(sheet, 'Width at the far edge')).toMatch(/^52\.0 mm/);
    expect(factOf(sheet, 'Angle of the notch')).toBe('60°');
  });

  it('draws its relief holes tangent to the inside of the hinge', async () => {
    const { file } = await printAndRead('notch', {
      stock: 'angle 50x50x5mm',
      turn: '60',
      relief: '8mm',
      'paper-thickness': '0mm',
      paper: 'a3',
    });
    // Leg 2 runs down to the heel at x = 0: the hole's center lies 5 + 4 mm from it.
    const [left, right] = range(layerPoints(file, 'notch', 'punch').map(({ x }) => x));
    expect((left + right) / 2).toBeCloseTo(-9, 1);
  });

  it.each([
    [{ stock: 'angle 50x50x5mm', turn: '180' }, 'turn', /180/],
    [{ stock: 'angle 50x50x5mm', turn: '90', hinge: 'leg 3' }, 'hinge', /leg 3/],
    [{ stock: 'angle 50x50x5mm', turn: '90', relief: '46mm' }, 'relief', /deeper than the notch/],
    [{ stock: 'angle 50x50x5mm', turn: '90', 'bend-radius': '45mm' }, 'bend-radius', /45\.0 mm/],
    [{ stock: 'flat 50x6mm', turn: '90' }, 'stock', /flat 50 mm/],
    [{ stock: 'NPS 4 sch 40', turn: '90' }, 'stock', /pipe/],
  ])('refuses %o', (texts, path, message) => {
    const issue = refused('notch', texts);
    expect(issue.what).toContain(path);
    expect(issue.message).toMatch(message);
  });
});

describe('fold', () => {
  it('has every place from one end: a 12 in frame of 1/8 in angle', () => {
    const [sheet, more] = sheetsOf('fold', {
      stock: 'angle 2x2x1/8in',
      legs: '12in,12in,12in,12in',
      turns: '90,90,90,90',
    });
    expect(more).toBeUndefined();
    expect(sheet?.name).toBe('fold 1');
    // Shop forum, common practice: notches 11 3/4 in apart.
    const rows = sheet?.tables[0]?.rows ?? [];
    expect(rows.map((row) => row.join(' '))[1]).toMatch(/11 3\/4″/);
    expect(factOf(sheet, 'Length to cut')).toMatch(/3′-11 1\/4″/);
    expect(factOf(sheet, 'Closing corner')).toBe('90°');
  });

  /** FAO smithing leaflet AH635E: a 120 mm bar 12 mm thick with two square bends, forged hot, takes 126 mm. */
  it('adds a quarter of the thickness for each hot square bend', () => {
    const [sheet] = sheetsOf('fold', {
      stock: 'flat 30x12mm',
      legs: '40mm,40mm,40mm',
      turns: '90,90',
      units: 'mm',
    });
    expect(factOf(sheet, 'Forged hot with full corners instead')).toMatch(/^126\.0 mm/);
  });

  it('says nothing of a notch, of scrap or of what is kept where a flat bar is only bent', () => {
    for (const radius of ['0mm', '6mm']) {
      const [sheet] = sheetsOf('fold', {
        stock: 'flat 50x6mm',
        legs: '200mm,150mm,200mm',
        turns: '90,90',
        'bend-radius': radius,
      });
      expect(sheet!.marks.some(({ role }) => role === 'cut')).toBe(false);
      const drawn = sheet!.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
      expect([...drawn, ...sheet!.steps, ...sheet!.cautions].join(' ')).not.toMatch(
        /KEEP|the notch|kerf|Corners of tube/,
      );
      expect(sheet!.steps.join(' ')).toMatch(radius === '0mm' ? /the bend line on/ : /both bend lines on/);
    }
  });

  it('has its names on the paper, however narrow that is', () => {
    for (const stock of ['angle 20x20x3mm', 'flat 12x3mm', 'tube 60x60x4mm', 'angle 150x150x12mm']) {
      const [sheet] = sheetsOf('fold', { stock, legs: '200mm,200mm', turns: '90' });
      const xs = sheet!.marks
        .filter(({ kind, role }) => kind === 'stroke' && role === 'reference')
        .map(markBounds);
      const [left, right] = [
        Math.min(...xs.map(({ minX }) => minX)),
        Math.max(...xs.map(({ maxX }) => maxX)),
      ];
      for (const mark of sheet!.marks) {
        if (mark.kind !== 'text' || !mark.text.includes('TO THE')) continue;
        expect(letteringBox(mark).minX, `${stock}: ${mark.text}`).toBeGreaterThan(left);
        expect(letteringBox(mark).maxX, `${stock}: ${mark.text}`).toBeLessThan(right);
      }
    }
  });

  it('has one sheet for each kind of fold', () => {
    const names = sheetsOf('fold', {
      stock: 'tube 40x40x3mm',
      legs: '300mm,200mm,300mm,200mm',
      turns: '60,90,60',
    }).map(({ name }) => name);
    expect(names).toEqual(['fold 1', 'fold 2']);
  });

  it.each([
    [{ stock: 'angle 50x50x5mm', legs: '400mm,300mm,350mm,300mm', turns: '90,90,90,90' }, 'legs', /50\.0 mm/],
    [{ stock: 'angle 50x50x5mm', legs: '400mm,300mm', turns: '90,90,90' }, 'turns', /2 legs/],
    [{ stock: 'angle 50x50x5mm', legs: '400mm,5mm,400mm', turns: '90,90' }, 'legs', /leg 2/],
  ])('refuses %o', (texts, path, message) => {
    const issue = refused('fold', texts);
    expect(issue.what).toContain(path);
    expect(issue.message).toMatch(message);
  });
});

describe('cope, from the bytes of its print', () => {
  /** US Navy training manual 14251, figure 3-32: 3.775 in for two W10x39 with 1/16 in at the web. */
  it('is 3.775 in long by the Navy rule, and 1 1/8 in deep', async () => {
    const { file } = await printAndRead('cope', {
      stock: 'W 10x39',
      to: 'W 10x39',
      setback: '1/16in',
      clearance: '0in',
      paper: '900x900mm',
    });
    const cut = layerPoints(file, 'cope', 'cut', 0.2).filter(({ y }) => y > -60);
    const [left, right] = range(cut.map(({ x }) => x));
    const [low] = range(cut.map(({ y }) => y));
    expect((right - left) / 25.4).toBeCloseTo(3.775, 3);
    expect(low / 25.4).toBeCloseTo(-1.125, 3);
  });

  /** A plumb cut at 60° in plan across a flange b wide (AISC W 10x39: 7.99 in) leans b cot 60° / cos slope along it. */
  it('across a flange that slopes the cut leans 1 / cos more than in plan', async () => {
    const { file } = await printAndRead('cope', {
      stock: 'W 10x39',
      to: 'W 10x39',
      angle: '60',
      slope: '30',
      paper: '900x900mm',
    });
    const cut = layerPoints(file, 'cope', 'cut', 0.2);
    const low = Math.min(...cut.map(({ y }) => y));
    const ends = (y: number): number[] => cut.filter((p) => Math.abs(p.y - y) < 0.3).map(({ x }) => x);
    const lean = Math.min(...ends(low + 7.99 * 25.4)) - Math.min(...ends(low));
    expect(lean / 25.4).toBeCloseTo((7.99 * Math.tan(Math.PI / 6)) / Math.cos(Math.PI / 6), 2);
  });

  it('a falling beam’s cut stays in the beam, and the sheet says that it falls', async () => {
    const texts = { stock: 'W 16x31', to: 'W 21x44', slope: '-30', paper: '900x900mm' };
    const { file } = await printAndRead('cope', texts);
    expect(sheetsOf('cope', texts)[0]?.subject.join(' ')).toContain('Falls 30°');
    expect(Math.max(...layerPoints(file, 'cope', 'cut', 0.2).map(({ y }) => y))).toBeLessThan(0.01);
  });

  it('says where the flange that is not coped is in the way as well', () => {
    const careOf = (to: string): string =>
      sheetsOf('cope', { stock: 'W 10x39', to })[0]?.cautions.join(' ') ?? '';
    expect(careOf('W 10x39')).toContain('The bottom flange, not coped here, is in the way');
    expect(careOf('W 21x44')).not.toContain('in the way');
  });

  it.each([
    [{ stock: 'W 8x31', to: 'W 12x40', drop: '3in' }, 'side', /clears/],
    [{ stock: 'W 16x31', to: 'W 21x44', side: 'both' }, 'side', /bottom flange clears/],
    [{ stock: 'W 8x31', to: 'W 12x40', drop: '20in' }, 'drop', /under the other one/],
    [{ stock: 'W 8x31', to: 'W 12x40', drop: '-9in' }, 'drop', /over the other one/],
    [{ stock: 'W 8x31', to: 'W 12x40', setback: '6in' }, 'setback', /6″/],
    [{ stock: 'W 8x31', to: 'W 12x40', radius: '3in' }, 'radius', /3″/],
    [{ stock: 'beam 60x60x5x6mm', to: 'HE 1000x584', drop: '0mm' }, 'stock', /60\.0 mm/],
    [{ stock: 'L 3x3x1/4', to: 'W 12x40' }, 'stock', /angle/],
  ])('refuses %o', (texts, path, message) => {
    const issue = refused('cope', texts);
    expect(issue.what).toContain(path);
    expect(issue.message).toMatch(message);
  });
});

describe('faces of shaped stock', () => {
  it.each([
    ['notch', { stock: 'tube 50x30x3mm', turn: '60' }],
    ['miter', { stock: 'tube 50x30x3mm', cut: '30' }],
    ['frame', { length: '600mm', width: '500mm', stock: 'tube 50x30x3mm' }],
    ['piece', { stock: 'tube 50x30x3mm', start: 'miter 30', finish: 'square', length: '300mm' }],
  ])('of a %s in Spanish have one name in lines, pictures, tables and words', (layout, texts: Texts) => {
    const said = JSON.stringify(
      sheetsOf(layout, { ...texts, language: 'es' }).map(({ marks, pictures, tables, facts }) => ({
        texts: [...marks, ...pictures.flatMap((picture) => picture.marks)].map((mark) =>
          mark.kind === 'text' ? mark.text : '',
        ),
        tables,
        facts,
      })),
    );
    expect(said).toContain('cara 2');
    expect(said).not.toMatch(/\b(face|fold) \d/);
  });
});

describe('miter of shaped stock', () => {
  /** The cut line's height at a place around a tube 100x100x6 with corners of 12, from the bytes of the print. */
  const heightsOf = async (cut: string): Promise<(s: number) => number> => {
    const { file } = await printAndRead('miter', {
      stock: 'tube 100x100x6mm',
      cut,
      'paper-thickness': '0mm',
      paper: '600x500mm',
    });
    const line = layerPoints(file, 'miter', 'cut', 0.02);
    const girth = 379.398224;
    const off = (x: number, s: number): number => Math.abs(((x - s + 1.5 * girth) % girth) - girth / 2);
    return (s) => line.reduce((best, p) => (off(p.x, s) < off(best.x, s) ? p : best)).y;
  };
  const corner = (Math.PI / 2) * 12;

  /** In closed form: y = tan(cut) x on flats and round corners; tube 100x100x6 with corners of 12, cut at 22.5. */
  it('tube 100x100x6: ordinates -20.711, -15.740, 0, 15.740, 20.711, corner middle 19.255', async () => {
    const at = await heightsOf('22.5');
    // Position 0 is x = 50; the faces' ends and middles follow around the girth.
    expect(at(0)).toBeCloseTo(20.711, 2);
    expect(at(38 + corner / 2)).toBeCloseTo(19.255, 2);
    expect(at(38 + corner)).toBeCloseTo(15.74, 2);
    expect(at(38 + corner + 38)).toBeCloseTo(0, 2);
    expect(at(38 + corner + 76)).toBeCloseTo(-15.74, 2);
    expect(at(38 + 2 * corner + 76 + 20)).toBeCloseTo(-20.711, 2);
  });

  it('tube 100x100x6 cut at 45: corner middle 46.485', async () => {
    const at = await heightsOf('45');
    expect(at(38 + corner / 2)).toBeCloseTo(46.485, 2);
  });

  it('says how to set the saw: half the turn on the sides across it, none on the others', () => {
    const [sheet] = sheetsOf('miter', { stock: 'tube 100x100x6mm', cut: '22.5' });
    expect(factOf(sheet, 'Saw: lay it on face 2, set')).toBe('miter 22.5°, bevel 0°');
    const rows = sheet?.tables.find(({ title }) => title.startsWith('Saw'))?.rows ?? [];
    expect(rows.map((row) => [row[0], ...row.slice(-2)])).toEqual([
      ['face 1', '0°', '22.5°'],
      ['face 2', '22.5°', '0°'],
      ['face 3', '0°', '22.5°'],
      ['face 4', '22.5°', '0°'],
    ]);
  });

  it('gives every inside face its small template', () => {
    const names = (stock: string) => sheetsOf('miter', { stock, cut: '30' }).map(({ name }) => name);
    expect(names('L 3x3x1/4')).toEqual(['miter', 'inside of leg 1', 'inside of leg 2']);
    expect(names('C 8x11.5')).toHaveLength(4);
    expect(names('W 8x31')).toHaveLength(7);
    expect(names('tube 100x60x6mm')).toEqual(['miter']);
  });
});

describe('published compound cuts', () => {
  const degrees = (angle: number): number => angle / DEGREE;
  /**
   * Crown molding, square corner, springs of 38° and 45°: 31.6 and 33.9, 35.3 and 30.0 (woodworkers' knowledge base, common practice).
   * Miter atan(tan A cos B), bevel asin(sin A sin B) for A = B = 30°: 26.565 and 14.478 (how-to article, second-hand). The further
   * digits are computed.
   */
  it.each([
    [90, 52, 31.619, 33.863],
    [90, 45, 35.264, 30],
    [120, 30, 26.565, 14.478],
  ])('corner %d, slope %d: miter %d, bevel %d', (plan, slope, miter, bevel) => {
    const { first } = slopedCorner(plan * DEGREE, slope * DEGREE, slope * DEGREE);
    expect(degrees(first.miter)).toBeCloseTo(miter, 3);
    expect(degrees(first.tilt)).toBeCloseTo(bevel, 3);
  });

  /** Planes at 35° and 60°: eng-tips.com thread 97757. Equal slopes, cos φ = −cos² θ: math.techqa.club question 2638529. */
  it.each([
    [35, 60, 114.178],
    [30, 30, 138.59],
    [45, 45, 120],
    [60, 60, 104.478],
  ])('planes at %d and %d over a square corner enclose %d', (a, b, between) => {
    expect(degrees(slopedCorner(90 * DEGREE, a * DEGREE, b * DEGREE).between)).toBeCloseTo(between, 3);
  });

  /** Math Central, University of Regina, QQ.09.08: a frustum 28 x 36 with a 6 x 6 top, 16 high, has faces at 46.85° and 55.49°; the rest is computed. */
  it('frustum 28 x 36 to 6 x 6, 16 high', () => {
    const [a, b] = [Math.atan2(16, 15), Math.atan2(16, 11)];
    expect(degrees(a)).toBeCloseTo(46.8476, 4);
    expect(degrees(b)).toBeCloseTo(55.4915, 4);
    const corner = slopedCorner(90 * DEGREE, a, b);
    expect(degrees(corner.between)).toBeCloseTo(112.7973, 3);
    expect(16 / Math.sin(corner.jointSlope)).toBeCloseTo(24.5357, 3);
  });
});

describe('every kind of stock proves, whatever it meets and by whatever contact', () => {
  it.each([
    ['tube 80x60x5mm', 'pipe DN 150 sch 40 angle 60 offset 10mm', 'wall'],
    ['tube 80x60x5mm turned 30deg', 'pipe DN 200 sch 40 angle 70', 'id'],
    ['EN 10219 60x40x4', 'tube 150x100x6mm turned 20deg angle 75', 'wall'],
    ['L 60x60x6', 'pipe DN 200 sch 40 angle 60', 'wall'],
    ['UPN 80', 'plate angle 60', 'wall'],
    ['IPE 100', 'pipe DN 200 sch 40 angle 75', 'wall'],
    ['flat 60x8mm', 'beam HE 200 B', 'wall'],
    ['oval 90x60mm wall 4mm', 'pipe DN 150 sch 40 angle 80', 'wall'],
    ['ellipse 90x60mm wall 4mm', 'sphere OD 500mm', 'wall'],
    ['half-round 80mm wall 4mm', 'pipe DN 150 sch 40 angle 60', 'wall'],
    ['NPS 2 sch 40', 'channel C 8x11.5 angle 70', 'wall'],
  ])('%s on %s, contact %s', async (branch, on, contact) => {
    const { bytes } = await printAndRead('branch', { branch, on, contact, paper: '1000x800mm' });
    const wrong = proveFile(bytes).findings.filter(({ ok, check }) => !ok && check.includes('cut line'));
    expect(wrong).toEqual([]);
  });
});

describe('the mouth of open stock', () => {
  // Their lowest places lie over the mouth, where nothing is cut.
  it.each([
    ['angle 50x40x5mm root 6mm turned 139.5deg', 'cone OD 400mm to 300mm over 500mm at 250mm angle 80'],
    ['IPE 80 turned 24.1deg', 'sphere OD 600mm'],
  ])('%s on %s: long and short points are those of the line that is cut', async (branch, on) => {
    const { bytes } = await printAndRead('branch', { branch, on, paper: '1500x1200mm' });
    expect(proveFile(bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
  });
});

describe('the hinge', () => {
  it('is as thick as its table has it', () => {
    const [sheet] = sheetsOf('notch', { stock: 'C 12x20.7', turn: '33.75', hinge: 'web' });
    // AISC dimensions: the web of a C 12x20.7 is .282 in.
    expect(sheet!.subject.join()).toContain('Hinge: web, .282″ (7.16 mm) thick');
  });

  it.each([
    ['fold', { stock: 'flat 40x6mm', legs: '300mm,300mm', turns: '60' }, 'face 4'],
    ['notch', { stock: 'tube 100x50x4mm', turn: '45', hinge: 'face 2' }, 'face 2'],
  ] as const)('of a %s is named where the seam divides its face', (layout, texts, face) => {
    const [sheet] = sheetsOf(layout, texts);
    const named = sheet!.marks.filter((mark) => mark.kind === 'text' && mark.text === face);
    expect(named).toHaveLength(2);
  });
});

it('a cope of a beam that slopes says both its depths, and the one at the corner is the one that is drawn', () => {
  const texts = { stock: 'W 24x84', to: 'W 30x116', angle: '70', slope: '10', drop: '2in' };
  const [sheet] = sheetsOf('cope', texts);
  const corner = factOf(sheet, 'Cope, top: depth at the corner, square to the beam');
  const drawn = sheet!.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
  expect(drawn).toContain(corner.replace(/ \(.*/, ''));
  expect(factOf(sheet, 'Cope, top: depth at the beam’s end, plumb')).toBe('1/8″ (3.2 mm)');
  expect(sheet!.subject.join()).toContain(`1/8″ (3.2 mm) deep at the end and ${corner} at the corner`);
});
