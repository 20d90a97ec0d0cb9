import { describe, expect, it } from 'vitest';
import type { WrittenSheet } from '../../../src/drawing/model.ts';
import { makeWrittenSheets, readRequest, type Texts } from '../../../src/index.ts';
import { sheetStrokes, type PdfFile } from '../../support/pdf-reader.ts';
import { angleAt, apart } from '../../support/polygons.ts';
import { printAndRead } from '../../support/print.ts';
import { refused } from '../../support/refused.ts';

const DEGREE = Math.PI / 180;
const sheetOf = (texts: Texts): WrittenSheet => makeWrittenSheets(readRequest('compound', texts))[0]!;
const factOf = (sheet: WrittenSheet, label: string): number =>
  parseFloat(sheet.facts.find(([name]) => name === label)?.[1] ?? 'none');

/** The angle of every card between its straight edges, degrees, and where its corner lies. */
const readCards = (file: PdfFile, radius: number) =>
  sheetStrokes(file, 'compound', 'cut').map(({ path }) => {
    const [{ start, segments }] = path as [(typeof path)[number]];
    const [first, ...rest] = segments;
    const arcEnd = rest[rest.length - 2]!.to;
    expect(first!.kind).toBe('line');
    expect(apart(start, first!.to)).toBeCloseTo(radius, 3);
    expect(apart(start, arcEnd)).toBeCloseTo(radius, 3);
    return { corner: start, angle: angleAt(start, first!.to, arcEnd) };
  });

type Vector = readonly [number, number, number];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const size = (a: Vector): number => Math.sqrt(dot(a, a));
const angleOf = (a: Vector, b: Vector): number => Math.acos(dot(a, b) / size(a) / size(b)) / DEGREE;

/** A frustum's corner built from points at height 1: the planes' joint line and normals. */
const cornerOf = (plan: number, slope: number, other: number) => {
  const [r1, r2] = [1 / Math.tan(slope * DEGREE), 1 / Math.tan(other * DEGREE)];
  const p = plan * DEGREE;
  // The upper corner lies r1 in from the x axis and r2 in from the edge at `plan`.
  const y = r1;
  const x = (r2 + y * Math.cos(p)) / Math.sin(p);
  const joint: Vector = [x, y, 1];
  const [e1, e2]: [Vector, Vector] = [
    [1, 0, 0],
    [Math.cos(p), Math.sin(p), 0],
  ];
  const [n1, n2] = [cross(e1, joint), cross(joint, e2)];
  return {
    // Between the level edge and the joint, in each plate's own face.
    cards: [angleOf(e1, joint), angleOf(e2, joint)] as const,
    between: 180 - angleOf(n1, n2),
    rise: Math.asin(1 / size(joint)) / DEGREE,
  };
};

describe('cards for sloping sides, from the bytes of their print', () => {
  it.each([
    [90, 60, 60],
    [90, 45, 60],
    [120, 30, 30],
    [60, 75, 50],
    [135, 80, 80],
    [90, 90, 90],
  ])('corner %d°, slopes %d° and %d°', async (plan, slope, other) => {
    const { file } = await printAndRead('compound', {
      corner: `${plan}`,
      slope: `${slope}`,
      'other-slope': `${other}`,
      paper: '600x600mm',
    });
    const wanted = cornerOf(plan, slope, other);
    const cards = readCards(file, 64);
    const angles = [
      ...(slope === other ? [wanted.cards[0]] : wanted.cards),
      90 - (180 - wanted.between) / 2,
      wanted.between,
    ];
    expect(cards).toHaveLength(angles.length);
    cards.forEach(({ angle }, i) => expect(Math.abs(angle - angles[i]!)).toBeLessThan(0.001));
    expect(apart(cards[0]!.corner, { x: 0, y: 0 })).toBeLessThan(0.001);
  });

  // Square tray at 45° (common practice, no source): miter 35.26°, tilt 30°, 120° from face to face.
  it('is 35.264°, 30° and 120° for four sides at 45°', () => {
    const sheet = sheetOf({ sides: '4', slope: '45' });
    expect(factOf(sheet, 'Every side, miter from square')).toBe(35.264);
    expect(factOf(sheet, 'Every side, blade tilt')).toBe(30);
    expect(factOf(sheet, 'Inside angle, face to face')).toBe(120);
  });

  it('is the box and the flat frame at its ends: 45° tilt upright, 45° miter nearly flat', () => {
    const box = sheetOf({ sides: '4', slope: '90' });
    expect(factOf(box, 'Every side, miter from square')).toBe(0);
    expect(factOf(box, 'Every side, blade tilt')).toBe(45);
    const flat = sheetOf({ sides: '4', slope: '1' });
    expect(factOf(flat, 'Every side, miter from square')).toBeCloseTo(45, 1);
    expect(factOf(flat, 'Every side, blade tilt')).toBeLessThan(1);
  });

  it('tells how far each end runs in for a height', () => {
    const sheet = sheetOf({ corner: '90', slope: '45', 'other-slope': '60', height: '400mm' });
    // The joint runs in by the other side's own run: 400 / tan of its slope.
    expect(factOf(sheet, 'Side 1, length up the slope')).toBeCloseTo(400 * Math.SQRT2, 1);
    expect(factOf(sheet, 'Side 1, runs in at each end')).toBeCloseTo(400 / Math.tan(60 * DEGREE), 1);
    expect(factOf(sheet, 'Side 2, runs in at each end')).toBeCloseTo(400, 1);
  });
});

describe('a brace', () => {
  it.each([
    [30, 35],
    [-20, 50],
    [45, 0],
    [0, -60],
    [-10, -15],
  ])('swing %d°, rise %d°', async (swing, rise) => {
    const [s, r] = [swing * DEGREE, rise * DEGREE];
    const { file } = await printAndRead('compound', {
      for: 'brace',
      swing: `${swing}`,
      rise: `${rise}`,
      width: '60mm',
      depth: '40mm',
      paper: '600x600mm',
    });
    // The bar's directions in space; the face is the plane x = 0.
    const axis: Vector = [Math.cos(r) * Math.cos(s), Math.cos(r) * Math.sin(s), Math.sin(r)];
    const left: Vector = [-Math.sin(s), Math.cos(s), 0];
    const up = cross(axis, left);
    // On the lower side the cut runs where the side meets the face: along both planes.
    const line = cross([1, 0, 0], up);
    const miter = 90 - Math.min(angleOf(line, axis), 180 - angleOf(line, axis));
    const tilt = Math.abs(90 - angleOf([1, 0, 0], up));
    const cards = readCards(file, 64);
    const wanted = [90 - miter, 90 - tilt, 90 - angleOf(axis, [1, 0, 0])];
    cards.forEach(({ angle }, i) => expect(Math.abs(angle - wanted[i]!)).toBeLessThan(0.001));

    const sheet = sheetOf({
      for: 'brace',
      swing: `${swing}`,
      rise: `${rise}`,
      width: '60mm',
      depth: '40mm',
      units: 'mm',
    });
    // A long edge at (u, v) across the bar reaches x = 0 where t·axis + u·left + v·up does.
    const reach = (u: number, v: number): number => -(u * left[0] + v * up[0]) / axis[0];
    const all = [reach(-30, -20), reach(30, -20), reach(30, 20), reach(-30, 20)];
    const longest = Math.min(...all);
    sheet.tables[0]!.rows.forEach((row, i) =>
      expect(Math.abs(Number(row[1]) - (all[i]! - longest))).toBeLessThan(0.0501),
    );
  });

  it('names the long point: away from the swing, underneath where it rises', () => {
    const steps = sheetOf({ for: 'brace', swing: '30', rise: '35' }).steps.join(' ');
    expect(steps).toContain('the right side ends in the long point');
    expect(steps).toContain('the lower side stays the longer');
  });
});

describe('a compound cut that cannot be', () => {
  it.each([
    [{}, 'request slope missing', '--slope'],
    [{ slope: '0' }, 'request slope out-of-range', 'more than 0°'],
    [{ slope: '0.5' }, 'joint slope nearly-flat', '1°'],
    [{ slope: '95' }, 'request slope out-of-range', '90°'],
    [{ slope: '45', sides: '2' }, 'request sides out-of-range', '3 to 36'],
    [{ slope: '45', sides: '6', corner: '90' }, 'request corner given-twice', 'one'],
    [{ slope: '45', sides: '6', 'other-slope': '50' }, 'request other-slope unequal-round', 'corner'],
    [{ slope: '45', swing: '10' }, 'request swing not-for-this', '--for brace'],
    [{ for: 'brace', swing: '10' }, 'request rise missing', '--rise'],
    [{ for: 'brace', swing: '90', rise: '0' }, 'request swing out-of-range', '-75° to 75°'],
    [{ for: 'brace', swing: '9', rise: '0', width: '5mm' }, 'request depth missing', 'both'],
  ])('%o', (texts, what, hint) => {
    const refusal = refused('compound', texts);
    expect(refusal.what).toBe(what);
    expect(refusal.hint).toContain(hint);
  });
});
