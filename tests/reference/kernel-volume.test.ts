import { describe, expect, it } from 'vitest';
import { branch } from '../../src/layouts/pipe-ends/branch/branch.ts';
import { makeScene, readRequest, renderStl, sceneMeshes } from '../../src/index.ts';
import { sectionPoints, type Body } from '../support/kernel.ts';
import { openSides, readStl, volumeOf } from '../support/mesh-checks.ts';
import { point } from '../support/space.ts';

/**
 * Source: Open CASCADE's sections of pipe and header (replicad-opencascadejs) at several depths of the wall. The end is cut square to
 * the surface, so over each station the wall ends at the least of them; the volume is what the kernel's own points enclose.
 */
const DEPTHS = 9;
const STATIONS = 720;

interface Case {
  readonly branch: readonly [od: number, wall: number];
  readonly header: readonly [od: number, wall: number];
  readonly angle: number;
  readonly offset: number;
}
const cases: readonly Case[] = [
  { branch: [60.3, 3.91], header: [114.3, 6.02], angle: 60, offset: 0 },
  { branch: [88.9, 5.49], header: [168.3, 7.11], angle: 90, offset: 30 },
  { branch: [114.3, 6.02], header: [219.1, 8.18], angle: 90, offset: 0 },
];

/** The kernel's height at a station by straight lines between its points on the near side of the header. */
const heightsOf = async (radius: number, header: Body): Promise<(station: number) => number> => {
  const axis: Body = { kind: 'cylinder', through: point(0, 0, 0), along: point(0, 0, 1), radius };
  const points = (await sectionPoints(axis, header, 1e-3))
    .flat()
    .map((p) => ({ a: Math.atan2(p.y, p.x), z: p.z }))
    .filter(({ z }) => z < 0)
    .sort((p, q) => p.a - q.a);
  return (station) => {
    const a = Math.atan2(Math.sin(station), Math.cos(station));
    const next = points.findIndex((p) => p.a >= a);
    const after = points[next < 0 ? 0 : next]!;
    const before = points.at(next < 0 ? -1 : next - 1)!;
    const span = (after.a - before.a + 4 * Math.PI) % (2 * Math.PI);
    const share = span < 1e-9 ? 0 : ((a - before.a + 4 * Math.PI) % (2 * Math.PI)) / span;
    return before.z + (after.z - before.z) * share;
  };
};

describe('the STL of a branch', () => {
  it.each(cases)('$branch on $header at $angle°, $offset mm off: the kernel’s volume', async (joint) => {
    const [od, wall] = joint.branch;
    const request = readRequest(branch.id, {
      branch: `OD ${od}mm wall ${wall}mm`,
      header: `OD ${joint.header[0]}mm wall ${joint.header[1]}mm`,
      angle: String(joint.angle),
      offset: `${joint.offset}mm`,
    });
    const scene = makeScene(request)!;
    const made = sceneMeshes(scene).filter(({ role }) => role === 'work');
    expect(made.map(({ id }) => id)).toEqual(['branch']);
    const { triangles } = readStl(renderStl(made.map(({ mesh }) => mesh)));
    expect(openSides(triangles)).toEqual([]);
    const tail = Math.min(...triangles.flat().map(([, , z]) => z));

    const angle = (joint.angle * Math.PI) / 180;
    const header: Body = {
      kind: 'cylinder',
      through: point(0, joint.offset, 0),
      along: point(Math.sin(angle), 0, Math.cos(angle)),
      radius: joint.header[0] / 2,
    };
    const layers = await Promise.all(
      Array.from({ length: DEPTHS }, (_, i) => heightsOf(od / 2 - (wall * i) / (DEPTHS - 1), header)),
    );
    const area = (Math.PI * ((od / 2) ** 2 - (od / 2 - wall) ** 2)) / STATIONS;
    let volume = 0;
    for (let i = 0; i < STATIONS; i++) {
      const station = (2 * Math.PI * (i + 0.5)) / STATIONS;
      volume += area * (Math.min(...layers.map((height) => height(station))) - tail);
    }
    expect(Math.abs(volumeOf(triangles) / volume - 1)).toBeLessThan(1e-3);
  });
});
