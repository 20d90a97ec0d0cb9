import { describe, expect, it } from 'vitest';
import type { ContourEdge } from '../../src/proof/contour.ts';
import { laySection } from '../../src/proof/section-lay.ts';
import { distanceToCurves, sectionPoints, type Body, type Section } from '../support/kernel.ts';
import { layerPoints, printAndRead } from '../support/print.ts';
import { plus, point, times, type Vec3 } from '../support/space.ts';

/**
 * Source: Open CASCADE's own section (replicad-opencascadejs) of stock and mate, both placed by hand in the stock's frame; the
 * printed line is rolled around the section written out here, by code that shares nothing with the product.
 */
type Place = readonly [number, number];
interface Side {
  readonly to: Place;
  readonly centre?: Place;
  readonly clockwise?: boolean;
  readonly inner?: boolean;
}
interface Drawn {
  readonly start: Place;
  readonly sides: readonly Side[];
}

const DEGREE = Math.PI / 180;
const origin = point(0, 0, 0);
const up = point(0, 0, 1);
const across = point(1, 0, 0);

/** A rectangular tube from the middle of its side on +x. */
const tube = (x: number, y: number, r: number): Drawn => {
  const [a, b] = [x / 2, y / 2];
  return {
    start: [a, 0],
    sides: [
      { to: [a, b - r] },
      { to: [a - r, b], centre: [a - r, b - r] },
      { to: [-a + r, b] },
      { to: [-a, b - r], centre: [-a + r, b - r] },
      { to: [-a, -b + r] },
      { to: [-a + r, -b], centre: [-a + r, -b + r] },
      { to: [a - r, -b] },
      { to: [a, -b + r], centre: [a - r, -b + r] },
      { to: [a, 0] },
    ],
  };
};
/** An angle with a fillet and sharp toes, its heel at the origin. */
const angle = (long: number, short: number, t: number, root: number): Drawn => ({
  start: [0, 0],
  sides: [
    { to: [long, 0] },
    { to: [long, t] },
    { to: [t + root, t], inner: true },
    { to: [t, t + root], centre: [t + root, t + root], clockwise: true, inner: true },
    { to: [t, short], inner: true },
    { to: [0, short] },
    { to: [0, 0] },
  ],
});
/** A channel with square corners: its back on x = 0, flanges along -x. */
const channel = (depth: number, width: number, web: number, flange: number): Drawn => {
  const h = depth / 2;
  return {
    start: [0, 0],
    sides: [
      { to: [0, h] },
      { to: [-width, h] },
      { to: [-width, h - flange] },
      { to: [-web, h - flange], inner: true },
      { to: [-web, -h + flange], inner: true },
      { to: [-width, -h + flange], inner: true },
      { to: [-width, -h] },
      { to: [0, -h] },
      { to: [0, 0] },
    ],
  };
};
const oval = (x: number, y: number): Drawn => {
  const [a, r] = [x / 2 - y / 2, y / 2];
  return {
    start: [a + r, 0],
    sides: [
      { to: [a, r], centre: [a, 0] },
      { to: [-a, r] },
      { to: [-a, -r], centre: [-a, 0] },
      { to: [a, -r] },
      { to: [a + r, 0], centre: [a, 0] },
    ],
  };
};
const halfRound = (d: number): Drawn => ({
  start: [d / 2, 0],
  sides: [{ to: [0, d / 2], centre: [0, 0] }, { to: [0, -d / 2] }, { to: [d / 2, 0], centre: [0, 0] }],
});

const edgesOf = ({ start, sides }: Drawn): readonly (ContourEdge & { readonly inner?: boolean })[] => {
  let from = start;
  return sides.map(({ to, centre, clockwise, inner = false }) => {
    const [a, b] = [
      { x: from[0], y: from[1] },
      { x: to[0], y: to[1] },
    ];
    from = to;
    if (!centre) return { kind: 'line' as const, from: a, to: b, inner };
    const [x, y] = centre;
    const begin = Math.atan2(a.y - y, a.x - x);
    const turn = 2 * Math.PI;
    const ahead = (((Math.atan2(b.y - y, b.x - x) - begin) % turn) + turn) % turn;
    const sweep = clockwise ? ahead - turn : ahead;
    return {
      kind: 'arc' as const,
      centre: { x, y },
      radius: Math.hypot(a.x - x, a.y - y),
      start: begin,
      sweep,
      inner,
    };
  });
};
const ellipseEdges = (x: number, y: number): readonly ContourEdge[] => [
  {
    kind: 'ellipse',
    centre: { x: 0, y: 0 },
    radii: [x / 2, y / 2],
    turn: 0,
    start: 0,
    sweep: 2 * Math.PI,
    inset: 0,
  },
];

/** Without the arcs of sharp corners, which have no length. */
const tidy = ({ start, sides }: Drawn): Drawn => {
  let from = start;
  return {
    start,
    sides: sides.filter(({ to }) => {
      const stays = Math.hypot(to[0] - from[0], to[1] - from[1]) > 1e-9;
      from = to;
      return stays;
    }),
  };
};

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

interface Case {
  readonly stock: string;
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
    mate: prism(beamSection(200, 200, 9, 15), 65),
  },
];

function beamSection(depth: number, width: number, web: number, flange: number): Drawn {
  const [h, b, w] = [depth / 2, width / 2, web / 2];
  const corners: Place[] = [
    [h, b],
    [h - flange, b],
    [h - flange, w],
    [-h + flange, w],
    [-h + flange, b],
    [-h, b],
    [-h, -b],
    [-h + flange, -b],
    [-h + flange, -w],
    [h - flange, -w],
    [h - flange, -b],
    [h, -b],
    [h, b],
  ];
  return { start: [h, b], sides: corners.slice(1).map((to) => ({ to })) };
}

describe('a printed end of shaped stock lies on the kernel’s section', () => {
  it.each(cases)('$layout of $stock, $texts', async ({ stock, section, layout, texts, mate }) => {
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
      across,
      section: isEllipse ? { ellipse: [x / 2, y / 2] } : drawn,
    };
    const curves = await sectionPoints(body, mate, 1e-3);
    const line = layerPoints(file, layout === 'miter' ? 'miter' : 'branch end', 'cut', 2)
      .filter((p) => !laid.isCorner(p.x))
      .map((p) => laid.place(p, 0));
    expect(line.length).toBeGreaterThan(50);
    const off = line.map((p) => distanceToCurves(p, curves));
    expect(Math.max(...off)).toBeLessThan(0.01);
  });
});
