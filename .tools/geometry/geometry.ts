/**
 * Holds the cut, punch and bend lines of every template and every help example against a recording, from the bytes of
 * their PDFs: a change of the code that is not meant to move a line must not move one.
 *
 *     npx tsx .tools/geometry/geometry.ts            compare with the recording
 *     npx tsx .tools/geometry/geometry.ts --record   make the recording anew
 */
import { readFileSync, writeFileSync } from 'node:fs';

import { join } from 'node:path';
import { layouts } from '../../src/layouts/registry.ts';
import { parsePaper } from '../../src/paging/paper.ts';
import { makeBook, makeSheets } from '../../src/print.ts';
import { movePath } from '../../src/proof/paths.ts';
import { pageFrames, readPdf, samplePath, type Path } from '../../src/proof/pdf-reader.ts';
import { renderPdf } from '../../src/render/pdf.ts';
import { readRequest, type Request } from '../../src/request.ts';
import { readCommand } from '../../tests/support/commands.ts';
import { readTemplate, templateNames } from '../identities.ts';

type Point = readonly [number, number];

/** A sheet's lines: how long they are in all, and points along each, sheet mm. */
type Lines = Readonly<Record<string, { readonly length: number; readonly points: readonly Point[] }>>;

/** Lines by the request's name, then by sheet. */
type Recording = Record<string, Record<string, Lines>>;

const layers = ['cut', 'punch', 'bend'] as const;
/** Points kept of each path. */
const KEPT = 12;
/** How far a line may lie from its recording, mm. */
const TOLERANCE = 0.002;

/** Lines that were moved on purpose since they were recorded, and why. */
const moved: Readonly<Record<string, string>> = {
  'miter --pipe "DN 200 sch 40" --cut 45 --gap 3mm --paper a3':
    'the root gap is the finished joint’s, half of it off each piece and square to the faces',
  'radius-gauge --radius 600mm --side inside':
    'a longer chord, by which a reading says something of the radius, and 30 mm wide, so that one page holds it',
};

const aside: readonly (readonly [start: string, why: string])[] = [
  ['trunnions: ', 'a dummy leg in line with leg 1'],
  ['center-cards: ', 'a longer chord, and no paper legs over large circles'],
  ['center-square --diameter', 'a longer chord'],
  ['center --diameter 600mm', 'windows leave the punch marks on the edge whole'],
  ['hoppers: ', 'cards of 64 mm, so that one page holds them'],
  ['radius-gauge --radius 24in', '30 mm wide, so that one page holds it'],
  ['compound', 'cards of 64 mm, so that one page holds them'],
  ['top-center', 'a strip a little taller, so that no line runs through its words'],
  [
    'radius-gauges: ',
    'a longer chord, by which a reading says something of the radius, and 30 mm wide, so that one page holds it',
  ],
];

const file = join(import.meta.dirname, 'recording.json');
const round = (value: number): number => Number(value.toFixed(4)) + 0;

/** A command line as a request; the nest of a turn is drawn only when it is asked for since the lines were recorded. */
const readExample = (line: string, hadNest: boolean): Request => {
  const { layout, texts } = readCommand(line);
  return readRequest(layout, hadNest ? { ...texts, nest: 'yes' } : texts);
};

const lengthOf = (points: readonly { x: number; y: number }[]): number =>
  points
    .slice(1)
    .reduce((sum, p, i) => sum + Math.hypot(p.x - (points[i]?.x ?? 0), p.y - (points[i]?.y ?? 0)), 0);

/** A sheet's paths by layer from the bytes of a PDF that holds it alone on one page. */
const readLines = async (request: Request, index: number): Promise<Record<string, Path[]>> => {
  const sheets = makeSheets(request);
  const sheet = sheets[index];
  if (sheet === undefined) throw new Error('no such sheet');
  const paper = parsePaper('5000x5000mm');
  const book = makeBook({ ...request, paging: { ...request.paging, paper, printer: undefined } }, [sheet]);
  const pdf = readPdf(await renderPdf(book));
  const place = pageFrames(pdf, 1)[0]?.toSheet ?? ((p) => p);
  const found: Record<string, Path[]> = {};
  for (const stroke of pdf.pages[0]?.strokes ?? []) {
    if (!layers.some((layer) => layer === stroke.layer)) continue;
    (found[stroke.layer] ??= []).push(movePath(stroke.path, place));
  }
  return found;
};

const summarize = (paths: Record<string, Path[]>): Lines =>
  Object.fromEntries(
    Object.entries(paths).map(([layer, list]) => {
      const sampled = list.map((path) => samplePath(path, 0.1));
      return [
        layer,
        {
          length: round(sampled.reduce((sum, points) => sum + lengthOf(points), 0)),
          points: sampled.flatMap((points) =>
            Array.from({ length: KEPT }, (_, k): Point => {
              const p = points[Math.round((k * (points.length - 1)) / KEPT)];
              return [round(p?.x ?? 0), round(p?.y ?? 0)];
            }),
          ),
        },
      ];
    }),
  );

/** Every request that is checked: the templates' pieces, and command lines, which go on meaning the same. */
const listRequests = async (recording: Recording): Promise<readonly (readonly [string, Request])[]> => {
  const found: (readonly [string, Request])[] = [];
  for (const name of templateNames)
    for (const work of await readTemplate(name)) found.push([`${name}: ${work.name}`, work.piece.request]);
  const recorded = Object.keys(recording);
  const lines = recorded.length > 0 ? recorded : layouts.flatMap(({ examples }) => examples);
  const isCommand = (name: string): boolean => layouts.some(({ id }) => name.startsWith(`${id} `));
  for (const line of lines)
    if (isCommand(line))
      found.push([line, readExample(line, recording[line]?.['nested gores'] !== undefined)]);
  return found;
};

/** The distance of a point from a polyline, mm. */
const distanceTo = (points: readonly { x: number; y: number }[], [x, y]: Point): number => {
  let best = Infinity;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]];
    if (!a || !b) continue;
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const size = dx * dx + dy * dy;
    const t = size === 0 ? 0 : Math.min(1, Math.max(0, ((x - a.x) * dx + (y - a.y) * dy) / size));
    best = Math.min(best, Math.hypot(x - a.x - t * dx, y - a.y - t * dy));
  }
  return best;
};

const boxOf = (points: readonly { x: number; y: number }[]) =>
  points.reduce(
    (box, { x, y }) =>
      [Math.min(box[0], x), Math.min(box[1], y), Math.max(box[2], x), Math.max(box[3], y)] as const,
    [Infinity, Infinity, -Infinity, -Infinity] as readonly [number, number, number, number],
  );

const isNear = (box: ReturnType<typeof boxOf> | undefined, [x, y]: Point): boolean =>
  box !== undefined && x > box[0] - 1 && y > box[1] - 1 && x < box[2] + 1 && y < box[3] + 1;

const compare = (before: Lines, paths: Record<string, Path[]>): readonly string[] => {
  const faults: string[] = [];
  for (const layer of layers) {
    const sampled = (paths[layer] ?? []).map((path) => samplePath(path, 0.1));
    const boxes = sampled.map(boxOf);
    const length = sampled.reduce((sum, points) => sum + lengthOf(points), 0);
    const old = before[layer] ?? { length: 0, points: [] };
    if (Math.abs(length - old.length) > 0.002 + 4e-5 * old.length)
      faults.push(`${layer} is ${length.toFixed(3)} mm long in all, was ${old.length.toFixed(3)} mm`);
    const away = Math.max(
      0,
      ...old.points.map((point) =>
        Math.min(
          ...sampled.map((points, i) => (isNear(boxes[i], point) ? distanceTo(points, point) : Infinity)),
        ),
      ),
    );
    if (away > TOLERANCE) faults.push(`${layer} has moved by ${away.toFixed(4)} mm`);
  }
  return faults;
};

const recording: Recording = process.argv.includes('--record')
  ? {}
  : (JSON.parse(readFileSync(file, 'utf8')) as Recording);
const only = process.argv.slice(2).filter((word) => !word.startsWith('--'));
let compared = 0;
let differing = 0;
const seen = new Set<string>();
for (const [name, request] of await listRequests(recording)) {
  if (only.length > 0 && !only.some((word) => name.includes(word))) continue;
  const names = makeSheets(request).map((sheet) => sheet.name);
  seen.add(name);
  for (const [index, sheet] of names.entries()) {
    const paths = await readLines(request, index);
    if (process.argv.includes('--record')) {
      (recording[name] ??= {})[sheet] = summarize(paths);
      continue;
    }
    const before = recording[name]?.[sheet];
    if (before === undefined) continue;
    compared++;
    const faults = compare(before, paths);
    const why = moved[name] ?? aside.find(([start]) => name.startsWith(start))?.[1];
    if (faults.length > 0 && why !== undefined) {
      process.stdout.write(`${name}: ${sheet}: moved: ${why}\n`);
      continue;
    }
    if (faults.length > 0) differing++;
    for (const fault of faults) process.stdout.write(`${name}: ${sheet}: ${fault}\n`);
  }
  if (!process.argv.includes('--record'))
    for (const sheet of Object.keys(recording[name] ?? {}))
      if (!names.includes(sheet)) process.stdout.write(`${name}: ${sheet}: the sheet is gone\n`);
}
if (process.argv.includes('--record')) writeFileSync(file, `${JSON.stringify(recording)}\n`);
else {
  if (only.length === 0)
    for (const name of Object.keys(recording))
      if (!seen.has(name)) process.stdout.write(`${name}: is gone\n`);
  process.stdout.write(`${compared} sheets compared, ${differing} differ\n`);
  if (differing > 0) process.exitCode = 1;
}
