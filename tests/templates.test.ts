import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';

import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import {
  describeAsked,
  describeIdentity,
  readIdentities,
  readTemplate,
  templateFile,
  templateNames,
} from '../.tools/identities.ts';
import { jobShape } from '../src/jobs/job-shape.ts';
import { drawRequest } from '../src/jobs/draw-request.ts';
import { layouts } from '../src/layouts/registry.ts';
import { present } from '../src/proof/present.ts';
import { readSpec, type Request } from '../src/request.ts';
import { runInside } from './support/command-line.ts';
import { complaintsAbout } from './support/external.ts';

const recorded = readIdentities();

it('has every usual job of a shop', () => {
  expect(templateNames.length).toBeGreaterThanOrEqual(24);
  expect(Object.keys(recorded)).toEqual(templateNames);
});

describe.each(templateNames)('%s', (name) => {
  it('is what editors take for a job file', () => {
    // As an editor reads it: numbers are numbers, by YAML's core schema.
    const found = jobShape(layouts).safeParse(parse(readFileSync(templateFile(name), 'utf8')));
    expect(found.error?.issues ?? []).toEqual([]);
  });

  it('asks for what is recorded', async () => {
    const asked = (await readTemplate(name)).map(({ name, piece }) => [name, describeAsked(piece.request)]);
    const before = Object.entries(recorded[name] ?? {}).map(([piece, { asked }]) => [piece, asked]);
    expect(Object.fromEntries(asked)).toEqual(Object.fromEntries(before));
  });
});

/** All that shapes a print, as plain data. */
const plainRequest = ({ values, setting, cutterSetting, paging, spec }: Request): unknown =>
  JSON.parse(JSON.stringify({ values, setting, cutterSetting, paging, spec }));

it('a print keeps all that it takes to make it again on the same paper in the same units', async () => {
  for (const name of templateNames)
    for (const {
      name: piece,
      piece: { request },
    } of await readTemplate(name))
      expect([piece, plainRequest(readSpec(request.spec))]).toEqual([piece, plainRequest(request)]);
});

describe('the book of all templates', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('has the recorded identities, opens in every reader without a complaint, and proves', async () => {
    const made = await runInside(folder, [
      'job',
      ...templateNames.map(templateFile),
      '--book',
      'standards.pdf',
      '--json',
    ]);
    expect({ code: made.code, stderr: made.stderr }).toEqual({ code: 0, stderr: '' });
    const identities = new Map(
      (JSON.parse(made.stdout) as { made: { piece?: string; identity: string }[] }).made.map(
        ({ piece, identity }) => [piece, identity],
      ),
    );
    for (const name of templateNames) {
      const changed = Object.entries(recorded[name] ?? {}).filter(
        ([piece, { identity }]) => identities.get(piece) !== identity,
      );
      // Where an identity differs, so does a line of a sheet: the difference shows which.
      for (const [mark, before] of changed) {
        const work = present((await readTemplate(name)).find((one) => one.name === mark));
        expect(describeIdentity(work.piece.request, drawRequest(work.piece.request, false))).toEqual(before);
      }
      expect(changed).toEqual([]);
    }
    const bytes = readFileSync(join(folder, 'standards.pdf'));
    expect(complaintsAbout(bytes)).toEqual([]);
    // Measured, and as this version draws it.
    const proof = await runInside(folder, ['proof', 'standards.pdf', '--quiet']);
    expect(proof).toMatchObject({ code: 0, stdout: 'standards.pdf: PASS\n', stderr: '' });
  }, 900_000);
});
