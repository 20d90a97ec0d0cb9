import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  contourArea,
  contourLength,
  sectionArea,
  turnSection,
  type Section,
} from '../../src/geometry/section.ts';
import {
  angleSection,
  beamSection,
  channelSection,
  ellipseSection,
  flatSection,
  halfRoundSection,
  ovalSection,
  roundSection,
  tubeSection,
} from '../../src/geometry/shapes.ts';
import { contourOutline } from '../../src/geometry/contour-outline.ts';
import { contourDistance } from '../../src/proof/contour.ts';

const DEGREE = Math.PI / 180;
const ipe200 = { depth: 200, width: 100, web: 5.6, flange: 8.5, root: 12, toe: 0, taper: 0, meanAt: 0 };
/** UPN 160, whose flanges taper 8 %, measured at half their width. */
const upn160 = {
  depth: 160,
  width: 65,
  web: 7.5,
  flange: 10.5,
  root: 10.5,
  toe: 5.5,
  taper: 0.08,
  meanAt: 32.5,
};

const sections: Record<string, Section> = {
  round: roundSection(60, 5),
  tube: tubeSection(100, 60, 12, 6),
  'sharp tube': tubeSection(100, 60, 0, 6),
  flat: flatSection(100, 10),
  oval: ovalSection(200, 100, 5),
  'oval on end': ovalSection(100, 200, 5),
  ellipse: ellipseSection(200, 100, 5),
  'ellipse turned': ellipseSection(170.1, 166.4, 7.11, 30 * DEGREE),
  'half-round': halfRoundSection(100, 5),
  angle: angleSection({ long: 80, short: 60, thickness: 7, root: 8, toe: 4 }),
  channel: channelSection(upn160),
  beam: beamSection(ipe200),
  'turned beam': turnSection(beamSection(ipe200), 0.3),
};

describe('girth of', () => {
  it('a tube: sides and quarter circles', () => {
    expect(contourLength(sections.tube?.outside ?? [])).toBeCloseTo(
      2 * (100 + 60) - (8 - 2 * Math.PI) * 12,
      10,
    );
    expect(contourLength(sections.tube?.inside ?? [])).toBeCloseTo(2 * (88 + 48) - (8 - 2 * Math.PI) * 6, 10);
  });

  it('an oval with straight sides and a half-round, by the circle', () => {
    expect(contourOutline(ovalSection(200, 100, 5)).girth).toBeCloseTo(2 * 100 + Math.PI * 100, 10);
    expect(contourOutline(halfRoundSection(100, 5)).girth).toBeCloseTo((Math.PI / 2 + 1) * 100, 10);
  });

  /** Ellipse with half-axes 3 and 4: 22.1034921607, as worked in a maths discussion (second-hand); it is 16 E(7/16). */
  it('an ellipse, by the elliptic integral', () => {
    expect(contourOutline(ellipseSection(6, 8, 0.5)).girth).toBeCloseTo(22.1034921607, 9);
  });

  it('the bore of a wall of even thickness: less by 2 pi t, whatever the convex section', () => {
    const { inside = [], outside } = ellipseSection(200, 100, 5);
    expect(contourLength(outside) - contourLength(inside)).toBeCloseTo(2 * Math.PI * 5, 9);
  });

  it('open sections: as a tape runs, straight over the openings', () => {
    expect(contourOutline(beamSection(ipe200)).girth).toBeCloseTo(2 * (200 + 100), 10);
    expect(contourOutline(channelSection(upn160)).girth).toBeCloseTo(2 * (160 + 65), 10);
  });
});

describe('area of', () => {
  it('an ellipse and its bore of even wall: girth times wall less the corner of it', () => {
    const ellipse = ellipseSection(200, 100, 5);
    expect(contourArea(ellipse.outside)).toBeCloseTo(Math.PI * 100 * 50, 8);
    expect(sectionArea(ellipse)).toBeCloseTo(contourLength(ellipse.outside) * 5 - Math.PI * 25, 8);
  });

  /** Areas as the standards' tables give them: EN 10365 (IPE 200, UPN 160) and EN 10056-1 (L 80x60x7), from memory. */
  it.each([
    ['beam', 28.48],
    ['channel', 24.0],
    ['angle', 9.38],
  ])("a rolled %s is the table's %d cm2", (name, area) => {
    const section = sections[name];
    if (!section) throw new Error(name);
    expect(Math.abs(sectionArea(section) / 100 - area)).toBeLessThan(0.02);
  });
});

describe.each(Object.entries(sections))('the outline of a %s', (_, section) => {
  const outline = contourOutline(section);
  const distance = contourDistance(section.outside);
  // Never on a corner, where two faces meet.
  const place = fc.integer({ min: -1_000, max: 2_000 }).map((i) => ((i + 0.377) / 1_000) * outline.girth);
  const faceAt = (s: number) => {
    const round = ((s % outline.girth) + outline.girth) % outline.girth;
    return outline.faces.find(({ from, to }) => round >= from && round < to);
  };

  it('lies on the contour, counter-clockwise, and walks at its own length', () => {
    fc.assert(
      fc.property(place, (s) => {
        const face = faceAt(s);
        fc.pre(face !== undefined);
        const [p, q] = [outline.at(s, 0), outline.at(s + 1e-4, 0)];
        if (face?.face !== undefined) expect(Math.abs(distance(p))).toBeLessThan(1e-9);
        // A short step along a smooth stretch is as long as its chord.
        if (faceAt(s + 1e-4) === face) expect(Math.hypot(q.x - p.x, q.y - p.y)).toBeCloseTo(1e-4, 9);
      }),
      { numRuns: 200, seed: 3 },
    );
  });

  it('goes into the steel square to the face', () => {
    fc.assert(
      fc.property(place, (s) => {
        const face = faceAt(s);
        fc.pre(face?.face !== undefined);
        const depth = 0.5;
        fc.pre(outline.wallAt === undefined || outline.wallAt(s) > 2 * depth);
        const [p, q] = [outline.at(s, 0), outline.at(s, depth)];
        expect(Math.hypot(q.x - p.x, q.y - p.y)).toBeCloseTo(depth, 10);
        expect(distance(q)).toBeLessThan(0);
        expect(distance(q)).toBeGreaterThan(-depth - 1e-9);
      }),
      { numRuns: 200, seed: 4 },
    );
  });

  it('comes round to its beginning, and breaks at its joints', () => {
    const [a, b] = [outline.at(0, 0), outline.at(outline.girth, 0)];
    expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeLessThan(1e-9);
    const turns = outline.faces.slice(1).map(({ from }) => from);
    for (const s of turns) expect(outline.joints.some((t) => Math.abs(t - s) < 1e-9)).toBe(true);
    // Open sections also break where the steel under a flat changes.
    if (!outline.wallAt)
      for (const s of outline.joints) expect([0, ...turns].some((t) => Math.abs(t - s) < 1e-9)).toBe(true);
  });
});

describe('steel under a place of an open section', () => {
  it('is the leg, thicker over the fillet, and none over the opening', () => {
    const { wallAt = () => NaN } = contourOutline(
      angleSection({ long: 80, short: 60, thickness: 7, root: 8, toe: 4 }),
    );
    expect(wallAt(40)).toBeCloseTo(7, 12);
    // Half way along the fillet's foot: t + r - sqrt(r² - (r/2)²).
    expect(wallAt(7 + 4)).toBeCloseTo(7 + 8 - Math.sqrt(64 - 16), 9);
    expect(wallAt(130)).toBe(0);
    expect(wallAt(-30)).toBeCloseTo(7, 12);
  });

  it('of a tapered flange grows toward the web by the taper', () => {
    const outline = contourOutline(channelSection(upn160));
    const flange = outline.faces.find(({ face }) => face === 'flange 1');
    const wallAt = (u: number) => outline.wallAt?.((flange?.from ?? 0) + u) ?? NaN;
    expect(wallAt(65 - 32.5)).toBeCloseTo(10.5, 9);
    expect(wallAt(65 - 22.5)).toBeCloseTo(10.5 - 0.08 * 10, 9);
  });
});
