import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sectionArea } from '../../src/geometry/section.ts';
import { tubeSection } from '../../src/geometry/shapes.ts';
import { readRequest } from '../../src/request.ts';
import { hollowSections } from '../../src/stock/hollow.ts';
import { rolledSection, rolledSections } from '../../src/stock/rolled.ts';
import { parseShaped } from '../../src/stock/shaped.ts';
import { refusalOf } from '../units/refusal.ts';

/** Density that rolled steel's tables reckon with: 7850 kg/m³ (EN 1991-1-1, table A.4; AISC: 490 lb/ft³, the same). */
const DENSITY = 7850e-6;

describe('rolled sections weigh what their table says', () => {
  const error = (area: number, mass: number): number => Math.abs((area * DENSITY) / mass - 1);
  const rolled = rolledSections().map(({ designation, sizes, mass }) => ({
    designation,
    off: error(sectionArea(rolledSection(sizes)), mass),
  }));
  const family = (name: RegExp) => rolled.filter(({ designation }) => name.test(designation));

  /** AISC dimensions and weights (shapes database v15.0 labels): W, S, HP, C, MC and L. Small mill sizes are rounded coarsely. */
  it.each([
    [/^W /, 283, 0.015],
    [/^HP /, 22, 0.025],
    [/^S /, 28, 0.025],
    [/^C (?!3x3\.5|4x4\.5)/, 30, 0.035],
    [/^MC /, 40, 0.028],
    [/^L \d+x|^L \d-/, 137, 0.025],
  ])('%s', (name, count, limit) => {
    const all = family(name);
    expect(all.length).toBeGreaterThanOrEqual(count);
    for (const { designation, off } of all) expect(off, designation).toBeLessThan(limit);
  });

  /** EN 10365 (IPE, HE, UPN, UPE) and EN 10056-1 (L) sizes and masses, by a mill's catalogue; its IPE 450 V does not agree with itself. */
  it.each([
    [/^IPE (?!450 V)/, 67, 0.011],
    [/^HE /, 124, 0.005],
    [/^UPN /, 18, 0.007],
    [/^UPE /, 14, 0.003],
  ])('%s', (name, count, limit) => {
    const all = family(name);
    expect(all).toHaveLength(count);
    for (const { designation, off } of all) expect(off, designation).toBeLessThan(limit);
  });

  /** AISC weights of HSS, reckoned with the nominal wall, and EN 10219-2 and EN 10210-2 masses, with the standards' own corners. */
  it.each([
    [/^HSS (?!.*ga)/, 380, 0.005],
    [/^EN 10219/, 233, 0.0045],
    [/^EN 10210/, 284, 0.0045],
  ])('%s: the corner is the one the weights are reckoned with', (name, count, limit) => {
    const all = hollowSections().filter(({ designation }) => name.test(designation));
    expect(all.length).toBeGreaterThanOrEqual(count);
    for (const { designation, width, height, wall, corner, innerCorner, mass } of all) {
      const area = sectionArea(tubeSection(width, height, corner, wall, innerCorner));
      expect(error(area, mass), designation).toBeLessThan(limit);
    }
  });

  /**
   * ASTM A500 section 10 (as tube mills quote it): a corner of at most 3 t. EN 10219-2:2006 (Blue Book, Steel for Life): 1.6 to
   * 2.4 t up to 6 mm, 2 to 3 t up to 10 mm, 2.4 to 3.6 t above. EN 10210-2:2006 (Tata Steel Blue Book): at most 3 t.
   */
  it('every corner lies in the range its standard allows', () => {
    const range = (standard: string, wall: number): readonly [number, number] =>
      standard !== 'EN 10219' ? [1, 3] : wall <= 6 ? [1.6, 2.4] : wall <= 10 ? [2, 3] : [2.4, 3.6];
    for (const { designation, wall, corner } of hollowSections()) {
      const [least, most] = range(/^HSS|^EN \d+/.exec(designation)?.[0] ?? '', wall);
      expect(corner / wall, designation).toBeGreaterThanOrEqual(least - 1e-9);
      expect(corner / wall, designation).toBeLessThanOrEqual(most + 1e-9);
    }
  });

  it('a corner of three times the wall, the most ASTM A500 allows, would not weigh that', () => {
    const tube = hollowSections().find(({ designation }) => designation === 'HSS 6x4x1/4');
    if (!tube) throw new Error('no HSS 6x4x1/4');
    const heavy = tubeSection(tube.width, tube.height, 3 * tube.wall, tube.wall);
    expect(error(sectionArea(heavy), tube.mass)).toBeGreaterThan(0.01);
  });
});

describe('stock that is read', () => {
  /** Sizes as the AISC manual (v15.0 labels), EN 10365, EN 10056-1, EN 10219-2 and EN 10210-2 give them, by the tables' sources. */
  it.each([
    ['W 8x31', 'beam', [203.2, 203.2, 7.239, 11.049]],
    ['S 8x18.4', 'beam', [203.2, 101.6, 6.8834, 10.795]],
    ['HE 200 B', 'beam', [200, 200, 9, 15]],
    ['HEB 200', 'beam', [200, 200, 9, 15]],
    ['IPE 200', 'beam', [200, 100, 5.6, 8.5]],
    ['C 8x11.5', 'channel', [203.2, 57.404, 5.588, 9.906]],
    ['MC 8x20', 'channel', [203.2, 76.962, 10.16, 12.7]],
    ['UPN 160', 'channel', [160, 65, 7.5, 10.5]],
    ['UPE 160', 'channel', [160, 70, 5.5, 9.5]],
    ['L 3x3x1/4', 'angle', [76.2, 76.2, 6.35]],
    ['L 4x3-1/2x1/2', 'angle', [101.6, 88.9, 12.7]],
    ['L 80x80x8', 'angle', [80, 80, 8]],
    ['HSS 6x4x1/4', 'tube', [152.4, 101.6, 6.35, 12.7]],
    ['EN 10219 100x60x5', 'tube', [100, 60, 5, 10]],
    ['EN 10210 100x60x5', 'tube', [100, 60, 5, 7.5]],
    ['tube 100x100x6mm', 'tube', [100, 100, 6, 12]],
    ['tube 4x3x1/4in corner 12mm', 'tube', [101.6, 76.2, 6.35, 12]],
    ['flat 100x10mm', 'flat', [100, 10]],
    ['angle 80x60x7mm', 'angle', [80, 60, 7]],
    ['angle 60x80x7mm', 'angle', [80, 60, 7]],
    ['channel 152x49x5.1x8.7mm', 'channel', [152, 49, 5.1, 8.7]],
    ['beam 200x100x5.6x8.5mm root 12mm', 'beam', [200, 100, 5.6, 8.5]],
    ['oval 200x100mm wall 5mm', 'oval', [200, 100, 5]],
    ['ellipse 200x100mm wall 5mm', 'ellipse', [200, 100, 5]],
    ['half-round 100mm wall 5mm', 'half-round', [100, 5]],
  ])('%s is a %s', (text, kind, sizes) => {
    const stock = parseShaped(text);
    expect(stock.kind).toBe(kind);
    stock.sizes.forEach(({ length }, i) => expect(length).toBeCloseTo(sizes[i] ?? NaN, 9));
    expect(stock.sizes).toHaveLength(sizes.length);
    const again = parseShaped(stock.designation);
    expect(again.designation).toBe(stock.designation);
    expect(again.section).toEqual(stock.section);
    const turned = parseShaped(`${text} turned 30deg`);
    expect(parseShaped(turned.designation).section).toEqual(turned.section);
    expect(turned.girth).toBeCloseTo(stock.girth, 9);
  });

  it('HE 200 B is the free beam of its sizes', () => {
    const free = parseShaped('beam 200x200x9x15mm root 18mm');
    expect(free.section).toEqual(parseShaped('HE 200 B').section);
  });

  /**
   * Position 0: the middle of the face on +x for a tube and a beam, the heel of an angle, the middle of a channel's web; a
   * turned stock carries it round.
   */
  it.each([
    ['tube 100x60x5mm', 50, 0],
    ['tube 100x60x5mm turned 90deg', 0, 50],
    ['W 8x31', 101.6, 0],
    ['L 3x3x1/4', 0, 0],
    ['C 8x11.5', 0, 0],
    ['oval 200x100mm wall 5mm', 100, 0],
    ['ellipse 100x200mm wall 5mm turned 180deg', -50, 0],
    ['flat 100x10mm', 50, 0],
  ])('%s begins at (%d, %d)', (text, x, y) => {
    const p = parseShaped(text).outline.at(0, 0);
    expect(p.x).toBeCloseTo(x, 9);
    expect(p.y).toBeCloseTo(y, 9);
  });

  it('an angle runs along its long leg first, on +x; the depth of beam and channel lies on x and y', () => {
    const angle = parseShaped('angle 80x60x7mm').outline;
    expect(angle.at(79, 0)).toEqual({ x: 79, y: 0 });
    expect(angle.at(-59, 0).y).toBeCloseTo(59, 9);
    expect(parseShaped('W 8x31').outline.at(100, 0).x).toBeCloseTo(101.6, 9);
    const channel = parseShaped('C 8x11.5').outline;
    expect(channel.at(101.6, 0).y).toBeCloseTo(101.6, 9);
  });

  it('a measured girth sets the corner of a tube and the size of an oval, an ellipse, a half-round', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(
          'tube 100x60x5mm',
          'HSS 4x4x1/4',
          'EN 10219 100x60x5',
          'oval 200x100mm wall 5mm',
          'ellipse 200x100mm wall 5mm',
          'half-round 100mm wall 5mm',
        ),
        fc.integer({ min: -100, max: 100 }),
        (text, i) => {
          const own = parseShaped(text).girth;
          const girth = own * (1 + i / 10_000);
          const stock = parseShaped(`${text} girth ${girth.toFixed(6)}mm`);
          expect(stock.measured).toBe(true);
          expect(stock.source).toBe('measured girth');
          expect(Math.abs(stock.girth - girth)).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 60 },
    );
  });

  /** Girth of tube 100x100x6 in closed form, 2(W + H) − (8 − 2π)R, for EN 10219-2:2006's corners of 1.6, 2 and 2.4 t: it drifts 8 mm. */
  it.each([
    ['9.6mm', 383.519],
    ['12mm', 379.398],
    ['14.4mm', 375.278],
  ])('tube 100x100x6 with a corner of %s has a girth of %d mm', (corner, girth) => {
    expect(Math.abs(parseShaped(`tube 100x100x6mm corner ${corner}`).girth - girth)).toBeLessThan(0.0006);
  });
});

describe('stock that is refused', () => {
  it.each([
    ['NPS 6 sch 40', 'not-understood', /not a kind of stock/, /W 8x31/],
    ['W 8x30', 'unknown-size', /W 8x30/, /W 8x31.*W 8x28/],
    ['L 3x3x1/3', 'unknown-size', /L 3x3x1\/3/, /L 3x3x5\/16/],
    ['HE 210 B', 'unknown-size', /HE 210/, /HE 220 B.*HE 200/],
    ['HSS 6x4x1/5', 'unknown-size', /6x4x1\/5/, /HSS 6x4x3\/16/],
    ['EN 10219 100x60x5.5', 'unknown-size', /100x60x5\.5/, /EN 10219 100x60x5/],
    ['W', 'unknown-size', /no size/, /neighbors/],
    ['tube 100x100x6mm corner 51mm', 'corner-off-size', /51 mm .*100 mm/, /50 mm/],
    ['tube 100x100x6mm corner 4mm', 'wall-past-corner', /wall 6 mm .*corner radius 4 mm/, /6 mm/],
    ['tube 100x100x60mm', 'wall-past-middle', /60 mm/, /50 mm/],
    ['tube 100x100x6mm girth 401mm', 'girth-off-size', /401 mm/, /400 mm/],
    ['tube 100x100x6mm girth 380mm corner 9mm', 'two-corners', /both/, /one/],
    ['tube 100x100mm', 'not-understood', /width x height x wall/, /tube 100x100x6mm/],
    ['flat 100x0mm', 'size-not-positive', /thickness/, /flat 100x10mm/],
    ['angle 80x60x60mm', 'wall-past-leg', /60 mm/, /60 mm/],
    ['angle 80x60x7mm toe 8mm', 'toe-off-size', /8 mm/, /7 mm/],
    ['angle 80x60x7mm root 54mm', 'root-off-size', /54 mm/, /53 mm/],
    ['beam 200x100x100x8mm', 'web-past-width', /100 mm/, /100 mm/],
    ['beam 200x100x6x100mm', 'flange-past-middle', /100 mm/, /100 mm/],
    ['beam 200x100x6x8mm taper 40%', 'taper-off-size', /toe/, /34\.0%/],
    ['channel 200x100x6mm', 'not-understood', /depth x width x web x flange/, /channel/],
    ['oval 200x100mm', 'no-wall', /no wall/, /wall 5mm/],
    ['ellipse 200x20mm wall 5mm', 'wall-past-curve', /radius 1 mm/, /below 1 mm/],
    ['half-round 100mm wall 30mm', 'wall-past-middle', /30 mm/, /25 mm/],
    ['oval 200x100mm wall 5mm girth 600mm', 'girth-off-size', /600 mm/, /measure/],
    ['W 8x31 turned', 'empty', /no angle/, /./],
  ])('%s: %s', (text, code, message, hint) => {
    const issue = refusalOf(() => parseShaped(text, { path: 'stock' }));
    expect(issue).toMatchObject({ code, path: 'stock' });
    expect(issue.message).toMatch(message);
    expect(issue.hint).toMatch(hint);
  });

  it('in inches, where it was typed in inches', () => {
    const issue = refusalOf(() => readRequest('miter', { stock: 'tube 4x4x2-1/2in', cut: '45' }));
    expect([issue.message, issue.hint]).toEqual([
      'the wall 2.5″ leaves no bore in a tube of 4″',
      'give a wall below 2″',
    ]);
  });
});
