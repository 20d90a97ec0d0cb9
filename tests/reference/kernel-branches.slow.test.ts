import { describe, expect, it } from 'vitest';
import { readTemplate, templateNames } from '../../.tools/identities.ts';
import type { Sheet } from '../../src/drawing/model.ts';
import { finishedParts } from '../../src/render/formats.ts';
import { makeScene, makeSheets, readRequest, renderStl, type Request } from '../../src/index.ts';
import { branch } from '../../src/layouts/pipe-ends/branch/branch.ts';
import { readExample } from '../support/example.ts';
import { branchVolume, holeVolume, steelAcross, type Fit } from '../support/kernel-volumes.ts';
import { openSides, readStl, volumeOf, type Triangle } from '../support/mesh-checks.ts';
import { inner, norm, point } from '../support/space.ts';

/** Source: Open CASCADE's sections of every branch of the help and the templates, at several depths of the wall. */
const fitOf = (sheets: readonly Sheet[], name: RegExp): Fit | undefined =>
  sheets.find((sheet) => name.test(sheet.name))?.fit;

/** What an STL holds, part by part: the triangles of each stand together. */
const partsOf = (request: Request): ReadonlyMap<string, readonly Triangle[]> =>
  new Map(
    finishedParts(makeScene(request)).map(({ id, mesh }) => [id, readStl(renderStl([mesh])).triangles]),
  );

const checkBranch = async (name: string, request: Request): Promise<string | undefined> => {
  const sheets = makeSheets(request);
  const parts = partsOf(request);
  for (const [id, triangles] of parts) expect(openSides(triangles), `${name}, ${id}`).toEqual([]);
  const [end, opening] = [fitOf(sheets, /^branch end$/)!, fitOf(sheets, /opening$/)];
  const made = parts.get('branch')!;
  const tail = Math.min(...made.flat().map(([, , z]) => z));
  const off = volumeOf(made) / (await branchVolume(end, tail)) - 1;
  expect(Math.abs(off), `${name}, branch`).toBeLessThan(1e-3);

  const body = parts.get('body');
  if (!opening || !body) return opening ? name : undefined;
  const hole = await holeVolume(opening, 300);
  if (opening.lay.kind === 'flat') return undefined;
  const [{ along }] = end.lines[0]!.solids as unknown as [{ along: { x: number; y: number; z: number } }];
  const places = body.flat().map(([x, y, z]) => inner(point(x, y, z), along) / norm(along));
  const whole = steelAcross(opening) * (Math.max(...places) - Math.min(...places));
  expect(Math.abs(volumeOf(body) / (whole - hole) - 1), `${name}, body`).toBeLessThan(1e-3);
  return undefined;
};

describe('the STL of every branch is watertight and of the kernel’s volume', () => {
  it.each(branch.examples)('%s', async (example) => {
    expect(await checkBranch(example, readRequest(branch.id, readExample(example)))).toBeUndefined();
  });

  it.each(templateNames)('%s', async (template) => {
    const whole: (string | undefined)[] = [];
    for (const { name, piece } of await readTemplate(template))
      if (piece.request.layout.id === branch.id) whole.push(await checkBranch(name, piece.request));
    // The flange of a beam lies on its web, so that a hole in it ends nowhere.
    const onFlange = template === 'pipe-on-beam' ? ['PB-flange', 'PB-leaning'] : [];
    expect(whole.filter((name) => name !== undefined)).toEqual(onFlange);
  });
});
