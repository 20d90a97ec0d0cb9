import type { ContourEdge } from '../../src/proof/contour.ts';

/** Sections written out by hand, mm: what tests lay printed lines around. Nothing of the product makes them. */

type Place = readonly [number, number];
export interface Side {
  readonly to: Place;
  readonly centre?: Place;
  readonly clockwise?: boolean;
  readonly inner?: boolean;
}
export interface Drawn {
  readonly start: Place;
  readonly sides: readonly Side[];
}

/** A rectangular tube from the middle of its side on +x. */
export const tube = (x: number, y: number, r: number): Drawn => {
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
export const angle = (long: number, short: number, t: number, root: number): Drawn => ({
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
export const channel = (depth: number, width: number, web: number, flange: number): Drawn => {
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
export const oval = (x: number, y: number): Drawn => {
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
export const halfRound = (d: number): Drawn => ({
  start: [d / 2, 0],
  sides: [{ to: [0, d / 2], centre: [0, 0] }, { to: [0, -d / 2] }, { to: [d / 2, 0], centre: [0, 0] }],
});

export const edgesOf = ({ start, sides }: Drawn): readonly (ContourEdge & { readonly inner?: boolean })[] => {
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
export const ellipseEdges = (x: number, y: number): readonly ContourEdge[] => [
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
export const tidy = ({ start, sides }: Drawn): Drawn => {
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

/** A beam with square corners, its depth on x. */
export const beam = (depth: number, width: number, web: number, flange: number): Drawn => {
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
};
