import { describe, expect, it } from 'vitest';
import { laySection } from '../../src/proof/section-lay.ts';
import {
  angle,
  beam,
  channel,
  edgesOf,
  ellipseEdges,
  halfRound,
  oval,
  tidy,
  tube,
  type Drawn,
} from '../support/drawn-sections.ts';
import { distanceToCurves, sectionPoints, type Body, type Section } from '../support/kernel.ts';
import { layerPoints, printAndRead } from '../support/print.ts';
import { plus, point, times, type Vec3 } from '../support/space.ts';

/**
 * Source: Open CASCADE's own section (replicad-opencascadejs) of stock and mate, both placed by hand in the stock's frame; the
 * printed line is rolled around the section written out here, by code that shares nothing with the product.
 */
const DEGREE = Math.PI / 180;
const origin = point(0, 0, 0);
const up = point(0, 0, 1);
const axisAt = (a: number): Vec3 => point(Math.sin(a * DEGREE), 0, Math.cos(a * DEGREE));
/** Toward the stock, square to a body's axis at that angle. */
const towardAt = (a: number): Vec3 => point(Math.cos(a * DEGREE), 0, -Math.sin(a * DEGREE));
const pipe = (od: number, a: number, offset = 0): Body => ({
  kind: 'cylinder',
  through: point(0, offset, 0),
  along: axisAt(a),
  radius: od / 2,
});
const plane = (cut: number, lean: number): Body => ({
  kind: 'plane',
  through: origin,
  normal: point(Math.tan(cut * DEGREE), Math.tan(lean * DEGREE), -1),
});
/** A body of a section whose x lies toward the stock, turned about its axis from there to station 90. */
const prism = (section: Section, a: number, turned = 0): Body => {
  const [c, s] = [Math.cos(turned * DEGREE), Math.sin(turned * DEGREE)];
  const x = plus(times(towardAt(a), c), point(0, s, 0));
  return { kind: 'prism', origin, axis: axisAt(a), across: x, section };
};

/** Turned about z. */
const turn = ({ x, y, z }: Vec3, degrees: number): Vec3 => {
  const [c, s] = [Math.cos(degrees * DEGREE), Math.sin(degrees * DEGREE)];
  return point(x * c - y * s, x * s + y * c, z);
};

interface Case {
  readonly stock: string;
  /** How the stock is turned about its axis, degrees. */
  readonly turned?: number;
  readonly section: Drawn | readonly [number, number];
  readonly layout: 'miter' | 'branch';
  readonly texts: Readonly<Record<string, string>>;
  readonly mate: Body;
}
const cases: readonly Case[] = [
  {
    stock: 'tube 100x60x6mm',
    section: tube(100, 60, 12),
    layout: 'miter',
    texts: { cut: '30', lean: '20' },
    mate: plane(30, 20),
  },
  {
    stock: 'angle 80x60x7mm root 8mm',
    section: angle(80, 60, 7, 8),
    layout: 'miter',
    texts: { cut: '40' },
    mate: plane(40, 0),
  },
  {
    stock: 'channel 120x50x6x8mm',
    section: channel(120, 50, 6, 8),
    layout: 'miter',
    texts: { cut: '25', lean: '-15' },
    mate: plane(25, -15),
  },
  {
    stock: 'ellipse 120x80mm wall 5mm',
    section: [120, 80],
    layout: 'miter',
    texts: { cut: '35' },
    mate: plane(35, 0),
  },
  {
    stock: 'oval 120x60mm wall 5mm',
    section: oval(120, 60),
    layout: 'miter',
    texts: { cut: '35', lean: '10' },
    mate: plane(35, 10),
  },
  {
    stock: 'tube 80x60x5mm',
    section: tube(80, 60, 10),
    layout: 'branch',
    texts: { on: 'pipe OD 168.3mm wall 8mm angle 60 offset 15mm' },
    mate: pipe(168.3, 60, 15),
  },
  {
    // Turned about its own axis on a leaning pipe it leans over two of its faces.
    stock: 'tube 60x60x5mm turned 30deg',
    turned: 30,
    section: tube(60, 60, 10),
    layout: 'branch',
    texts: { on: 'pipe OD 168.3mm wall 8mm angle 60 offset -12mm' },
    mate: pipe(168.3, 60, -12),
  },
  {
    stock: 'tube 60x60x5mm corner 0mm',
    section: tube(60, 60, 0),
    layout: 'branch',
    texts: { on: 'pipe OD 168.3mm wall 8mm' },
    mate: pipe(168.3, 90),
  },
  {
    stock: 'half-round 80mm wall 5mm',
    section: halfRound(80),
    layout: 'branch',
    texts: { on: 'pipe OD 168.3mm wall 8mm angle 70' },
    mate: pipe(168.3, 70),
  },
  {
    stock: 'oval 90x60mm wall 4mm',
    section: oval(90, 60),
    layout: 'branch',
    texts: { on: 'pipe OD 168.3mm wall 8mm angle 75' },
    mate: pipe(168.3, 75),
  },
  {
    stock: 'ellipse 90x60mm wall 4mm',
    section: [90, 60],
    layout: 'branch',
    texts: { on: 'tube 150x120x6mm corner 12mm angle 70' },
    mate: prism(tube(120, 150, 12), 70),
  },
  {
    stock: 'channel 80x40x5x7mm',
    section: channel(80, 40, 5, 7),
    layout: 'branch',
    texts: { on: 'tube 150x150x8mm corner 16mm turned 45deg angle 80' },
    mate: prism(tube(150, 150, 16), 80, 45),
  },
  {
    stock: 'angle 50x50x5mm',
    section: angle(50, 50, 5, 0),
    layout: 'branch',
    texts: { on: 'cone OD 300mm to 200mm over 400mm at 200mm angle 90' },
    mate: { kind: 'cone', from: point(-200, 0, 0), radiusFrom: 150, to: point(200, 0, 0), radiusTo: 100 },
  },
  {
    stock: 'tube 60x40x4mm',
    section: tube(60, 40, 8),
    layout: 'branch',
    texts: { on: 'beam 200x200x9x15mm angle 65' },
    mate: prism(beam(200, 200, 9, 15), 65),
  },
];

describe('a printed end of shaped stock lies on the kernel’s section', () => {
  it.each(cases)('$layout of $stock, $texts', async ({ stock, turned = 0, section, layout, texts, mate }) => {
    const { file } = await printAndRead(layout, {
      ...(layout === 'miter' ? { stock } : { branch: stock }),
      contact: 'od',
      ...texts,
      paper: '1200x900mm',
    });
    const isEllipse = Array.isArray(section);
    const drawn = isEllipse ? { start: [0, 0] as const, sides: [] } : tidy(section as Drawn);
    const [x = 0, y = 0] = isEllipse ? (section as readonly [number, number]) : [];
    const outside = isEllipse ? ellipseEdges(x, y) : edgesOf(drawn);
    const laid = laySection({ outside, thickness: 1 }, 0.05);
    const body: Body = {
      kind: 'prism',
      origin,
      axis: up,
      across: turn(point(1, 0, 0), turned),
      section: isEllipse ? { ellipse: [x / 2, y / 2] } : drawn,
    };
    const curves = await sectionPoints(body, mate, 1e-3);
    const line = layerPoints(file, layout === 'miter' ? 'miter' : 'branch end', 'cut', 2)
      .filter((p) => !laid.isCorner(p.x))
      .map((p) => turn(laid.place(p, 0), turned));
    expect(line.length).toBeGreaterThan(50);
    const off = line.map((p) => distanceToCurves(p, curves));
    expect(Math.max(...off)).toBeLessThan(0.01);
  });
});
