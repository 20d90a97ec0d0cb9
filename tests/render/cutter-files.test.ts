import { createRequire } from 'node:module';
import { SVGPathData } from 'svg-pathdata';
import { describe, expect, it } from 'vitest';
import { makeCutterSheets, readRequest, renderDxf, renderSvg, type Texts } from '../../src/index.ts';
import { sheetStrokes } from '../support/pdf-reader.ts';
import { samplePath } from '../support/paths.ts';
import { printAndRead } from '../support/print.ts';
import type { Vec2 } from '../support/space.ts';

interface Entity {
  readonly type: string;
  readonly layer: string;
  readonly shape?: boolean;
  readonly closed?: boolean;
  readonly vertices?: readonly (Vec2 & { readonly bulge?: number })[];
  readonly controlPoints?: readonly Vec2[];
  readonly center?: Vec2;
  readonly radius?: number;
  readonly startAngle?: number;
  readonly endAngle?: number;
}

/** dxf-parser's types do not fit how it is packed. */
const DxfParser = createRequire(import.meta.url)('dxf-parser') as new () => {
  readonly parseSync: (text: string) => unknown;
};

const steps = (count: number): number[] => Array.from({ length: count + 1 }, (_, i) => i / count);

const bezier = (p: readonly Vec2[], t: number): Vec2 => {
  const s = 1 - t;
  const k = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
  const sum = (axis: 'x' | 'y'): number =>
    p.reduce((total, point, i) => total + (k[i] ?? 0) * point[axis], 0);
  return { x: sum('x'), y: sum('y') };
};

const around = (centre: Vec2, radius: number, from: number, sweep: number): Vec2[] =>
  steps(256).map((t) => ({
    x: centre.x + radius * Math.cos(from + sweep * t),
    y: centre.y + radius * Math.sin(from + sweep * t),
  }));

/** Points of a DXF entity after the DXF Reference: bulge is the tangent of a quarter of the included angle. */
const entityPoints = (entity: Entity): Vec2[] => {
  switch (entity.type) {
    case 'LINE': {
      const [a, b] = entity.vertices as readonly [Vec2, Vec2];
      return steps(64).map((t) => ({ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t }));
    }
    case 'CIRCLE':
      return around(entity.center as Vec2, entity.radius as number, 0, 2 * Math.PI);
    case 'ARC': {
      const [from, to] = [entity.startAngle as number, entity.endAngle as number];
      return around(
        entity.center as Vec2,
        entity.radius as number,
        from,
        (to - from + 4 * Math.PI) % (2 * Math.PI),
      );
    }
    case 'LWPOLYLINE': {
      const vertices = entity.vertices ?? [];
      const pairs = vertices.map((a, i) => [a, vertices[(i + 1) % vertices.length] as Vec2] as const);
      return (entity.shape === true ? pairs : pairs.slice(0, -1)).flatMap(([a, b]) => {
        const bulge = a.bulge ?? 0;
        if (bulge === 0)
          return steps(32).map((t) => ({ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t }));
        const sweep = 4 * Math.atan(bulge);
        const chord = Math.hypot(b.x - a.x, b.y - a.y);
        const radius = chord / 2 / Math.sin(sweep / 2);
        const apothem = radius * Math.cos(sweep / 2);
        const centre = {
          x: (a.x + b.x) / 2 - ((b.y - a.y) / chord) * apothem,
          y: (a.y + b.y) / 2 + ((b.x - a.x) / chord) * apothem,
        };
        return around(centre, Math.abs(radius), Math.atan2(a.y - centre.y, a.x - centre.x), sweep);
      });
    }
    case 'SPLINE': {
      const points = entity.controlPoints ?? [];
      const count = (points.length - 1) / 3;
      return Array.from({ length: count }, (_, i) => points.slice(3 * i, 3 * i + 4)).flatMap((four) =>
        steps(32).map((t) => bezier(four, t)),
      );
    }
    default:
      throw new Error(`no points known for ${entity.type}`);
  }
};

const dxfCut = (text: string): readonly Entity[] => {
  const read = new DxfParser().parseSync(text) as {
    readonly header: Readonly<Record<string, unknown>>;
    readonly entities: readonly Entity[];
  };
  expect(read.header.$INSUNITS).toBe(4);
  return read.entities.filter((entity) => entity.layer === 'cut');
};

const svgCutPaths = (text: string): readonly string[] => {
  const layer = /<g data-layer="cut"[^>]*>(.*?)<\/g>/s.exec(text)?.[1] ?? '';
  return [...layer.matchAll(/ d="([^"]+)"/g)].map((match) => match[1] as string);
};

const svgPoints = (d: string): Vec2[] => {
  const points: Vec2[] = [];
  let last: Vec2 = { x: 0, y: 0 };
  let start = last;
  for (const command of new SVGPathData(d).toAbs().commands) {
    const from = last;
    if (command.type === SVGPathData.MOVE_TO) {
      last = { x: command.x, y: -command.y };
      start = last;
    } else if (command.type === SVGPathData.LINE_TO || command.type === SVGPathData.CLOSE_PATH) {
      last = command.type === SVGPathData.CLOSE_PATH ? start : { x: command.x, y: -command.y };
      points.push(
        ...steps(32).map((t) => ({ x: from.x + (last.x - from.x) * t, y: from.y + (last.y - from.y) * t })),
      );
    } else if (command.type === SVGPathData.CURVE_TO) {
      last = { x: command.x, y: -command.y };
      const four = [from, { x: command.x1, y: -command.y1 }, { x: command.x2, y: -command.y2 }, last];
      points.push(...steps(32).map((t) => bezier(four, t)));
    } else throw new Error('an SVG command that is not expected');
  }
  return points;
};

/** How far each point lies from a dense polyline, at most, mm. */
const farthest = (points: readonly Vec2[], line: readonly Vec2[]): number => {
  let most = 0;
  for (const p of points) {
    let least = Infinity;
    for (let i = 1; i < line.length; i++) {
      const [a, b] = [line[i - 1] as Vec2, line[i] as Vec2];
      const [dx, dy] = [b.x - a.x, b.y - a.y];
      const size = dx * dx + dy * dy;
      if (size > 4) continue;
      const t = size === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / size));
      least = Math.min(least, Math.hypot(a.x + dx * t - p.x, a.y + dy * t - p.y));
    }
    most = Math.max(most, least);
  }
  return most;
};

const pieces: readonly (readonly [layout: string, sheet: string, texts: Texts])[] = [
  ['branch', 'branch end', { branch: 'NPS 2 sch 40', header: 'NPS 4 sch 40', angle: '60' }],
  ['miter', 'miter', { pipe: 'DN 100 sch 40', cut: '22.5' }],
  ['bolt-circle', 'bolt circle', { flange: 'NPS 4 class 150' }],
];

describe('files for cutters', () => {
  it.each(pieces)('%s: PDF, SVG and DXF cut the same line within 0.001 mm', async (layout, sheet, texts) => {
    const plain = { ...texts, 'paper-thickness': '0mm', paper: '1000x1000mm' };
    const { file } = await printAndRead(layout, plain);
    const pdf = sheetStrokes(file, sheet, 'cut').map((stroke) => samplePath(stroke.path, 0.05));
    const [first] = makeCutterSheets(readRequest(layout, texts));
    if (!first) throw new Error('no sheet');

    const dxf = dxfCut(renderDxf([first])).flatMap(entityPoints);
    const svg = svgCutPaths(renderSvg([first], layout)).flatMap(svgPoints);
    const printed = pdf.flat();
    expect(printed.length).toBeGreaterThan(100);
    for (const other of [dxf, svg]) {
      expect(other.length).toBeGreaterThan(50);
      const every = Math.ceil(other.length / 400);
      expect(
        farthest(
          other.filter((_, i) => i % every === 0),
          printed,
        ),
      ).toBeLessThan(0.001);
    }
    // And the other way round: nothing of the print is missing.
    const some = printed.filter((_, i) => i % 97 === 0);
    for (const other of [dxf, svg]) {
      const spacing = 3;
      expect(
        Math.max(...some.map((p) => Math.min(...other.map((q) => Math.hypot(p.x - q.x, p.y - q.y))))),
      ).toBeLessThan(spacing);
    }
  });

  it('closes outlines, and cuts holes as circles', () => {
    const sheets = makeCutterSheets(readRequest('bolt-circle', { flange: 'NPS 4 class 150' }));
    const holes = dxfCut(renderDxf(sheets)).filter((entity) => entity.type === 'CIRCLE');
    // ASME B16.5, NPS 4 class 150: 8 holes of 3/4 in on 7 1/2 in.
    const bolts = holes.filter((hole) => Math.abs((hole.radius as number) - 9.525) < 1e-6);
    expect(bolts).toHaveLength(8);
    for (const { center } of bolts)
      expect(Math.hypot((center as Vec2).x, (center as Vec2).y)).toBeCloseTo((7.5 * 25.4) / 2, 5);
    const [, opening] = makeCutterSheets(
      readRequest('branch', { branch: 'NPS 2 sch 40', header: 'NPS 4 sch 40' }),
    );
    if (!opening) throw new Error('no opening');
    expect(dxfCut(renderDxf([opening]))).toMatchObject([{ type: 'SPLINE', closed: true }]);
    expect(svgCutPaths(renderSvg([opening], 'opening'))[0]).toMatch(/Z$/);
  });

  it('has real units, layers by name and no paper thickness', () => {
    const sheets = makeCutterSheets(readRequest('band', { pipe: 'OD 100mm wall 5mm' }));
    const svg = renderSvg(sheets, 'Band <1>');
    const [, minX, minY, width, height] = /viewBox="(\S+) (\S+) (\S+) (\S+)"/.exec(svg) ?? [];
    expect(svg).toContain(`width="${width}mm" height="${height}mm"`);
    expect(Number(minX)).toBeLessThan(0);
    expect(Number(minY)).toBeLessThan(-60);
    expect(svg).toContain('Band &lt;1&gt;');
    const xs = [...svg.matchAll(/M([\d.]+) /g)].map((match) => Number(match[1]));
    expect(Math.max(...xs.filter((x) => x < 315))).toBeCloseTo(Math.PI * 100, 5);
    expect(renderDxf(sheets)).toBe(
      renderDxf(makeCutterSheets(readRequest('band', { pipe: 'OD 100mm wall 5mm' }))),
    );
  });

  it('bear our name, and on every layer the line type of its role (ISO 128-2)', () => {
    const text = renderDxf(makeCutterSheets(readRequest('orange-peel', { pipe: 'NPS 2 sch 40' })));
    expect(/\$LASTSAVEDBY\n1\n(.*)\n/.exec(text)?.[1]).toBe('Soapstone');
    const layers = [...text.matchAll(/AcDbLayerTableRecord\n2\n(.*)\n70\n.*\n62\n.*\n6\n(.*)\n/g)];
    const lines = new Map(layers.map(([, layer, line]) => [layer, line]));
    expect(lines.get('cut')).toBe('Continuous');
    expect(lines.get('bend')).toBe('long-dash-double-dot');
    expect(lines.get('centre')).toBe('long-dash-dot');
    // Every line type that is named is described, its dashes and gaps as long together as it says.
    const described = new Map(
      [
        ...text.matchAll(/AcDbLinetypeTableRecord\n2\n(.*)\n70\n0\n3\n.*\n72\n65\n73\n(\d+)\n40\n(.*)\n/g),
      ].map(([whole, name = '', count, length]) => {
        const rest = text.slice(text.indexOf(whole) + whole.length);
        const pattern = /^(?:(?:49|74)\n.*\n)*/.exec(rest)?.[0] ?? '';
        const parts = [...pattern.matchAll(/^49\n(.*)$/gm)].map(([, part]) => Number(part));
        expect(parts).toHaveLength(Number(count));
        expect(parts.reduce((sum, part) => sum + Math.abs(part), 0)).toBeCloseTo(Number(length), 6);
        return [name, parts] as const;
      }),
    );
    // Codes and values by turns; 6 is a line type's name.
    const pairs = text.split('\n');
    const named = pairs.filter((_, i) => i % 2 === 1 && pairs[i - 1]?.trim() === '6');
    expect(named.length).toBeGreaterThan(10);
    expect([...new Set(named)].filter((line) => !described.has(line))).toEqual([]);
    expect(described.get('long-dash-dot')?.map(Math.sign)).toEqual([1, -1, 1, -1]);
  });

  // Codes in text from memory of the DXF Reference: %%c is a diameter sign, %%% a percent sign, ^ before a letter a control
  // character, ^ before a blank a caret.
  it('writes marks so that a DXF reader shows them letter by letter', () => {
    const text = renderDxf(
      makeCutterSheets(
        readRequest('band', { pipe: 'NPS 6 sch 40', mark: ['20:5% a', '40:%%c50', '60:a^Jb'] }),
      ),
    );
    const shown = (written: string): string =>
      written
        .replace(/%%([%cdpou])/gi, (_, code: string) => ({ '%': '%', c: '⌀', d: '°', p: '±' })[code] ?? '')
        .replace(/\^(.)/g, (_, sign: string) => (sign === ' ' ? '^' : '\n'));
    const texts = [...text.matchAll(/\nAcDbText\n(?:\s*\d+\n.*\n)*?1\n(.*)\n/g)].map(([, written = '']) =>
      shown(written),
    );
    expect(texts).toEqual(expect.arrayContaining(['20° 5% a', '40° %%c50', '60° a^Jb']));
  });
});
