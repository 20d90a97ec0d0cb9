import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { jobShape } from '../src/jobs/job-shape.ts';
import { drawRequest } from '../src/jobs/make.ts';
import { layouts } from '../src/layouts/registry.ts';
import { proveFile } from '../src/proof/prove.ts';
import { renderPdf } from '../src/render/pdf.ts';
import {
  describeIdentity,
  readIdentities,
  readTemplate,
  templateFile,
  templateNames,
} from '../.tools/identities.ts';
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

  it('prints with its recorded identities, and every print proves', async () => {
    const works = await readTemplate(name);
    const drawn = works.map((work) => ({ work, drawn: drawRequest(work.piece.request, false) }));
    // Where an identity differs, so does what was asked or a line of a sheet: the difference shows which.
    const found = drawn.map(({ work, drawn }) => [work.name, describeIdentity(work.piece.request, drawn)]);
    expect(Object.fromEntries(found)).toEqual(recorded[name]);
    for (const {
      work,
      drawn: { book },
    } of drawn) {
      const failed = proveFile(await renderPdf(book)).findings.filter(({ ok }) => !ok);
      expect([work.name, failed]).toEqual([work.name, []]);
    }
  }, 300_000);
});

describe('the book of all templates', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'soapstone-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('opens in every reader without a complaint, and proves', async () => {
    const { code, stderr } = await runInside(folder, [
      'job',
      ...templateNames.map(templateFile),
      '--book',
      'standards.pdf',
    ]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const bytes = readFileSync(join(folder, 'standards.pdf'));
    expect(complaintsAbout(bytes)).toEqual([]);
    expect(proveFile(bytes).findings.filter(({ ok }) => !ok)).toEqual([]);
  }, 600_000);
});
