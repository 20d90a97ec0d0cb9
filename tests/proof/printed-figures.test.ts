import { describe, expect, it } from 'vitest';
import type { Measured } from '../../src/drawing/measured.ts';
import type { Figure, Mark, Sheet } from '../../src/drawing/model.ts';
import { writeFact } from '../../src/drawing/written.ts';
import { makeBook, readRequest, renderPdf } from '../../src/index.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { makeSheets } from '../../src/print.ts';
import type { Measured as ReadMeasured } from '../../src/proof/printed-record.ts';
import { proveFile } from '../../src/proof/prove.ts';
import { drawExample } from '../support/drawn.ts';
import { valuesOf } from '../../src/drawing/worded.ts';
import { readExample } from '../support/example.ts';

/** Whatever the reader takes is something that a sheet may say. */
const same: ReadMeasured extends Measured ? true : never = true;

const failing = (bytes: Uint8Array): readonly string[] =>
  proveFile(bytes)
    .findings.filter(({ ok, check }) => !ok && check.startsWith('figures'))
    .map(({ check, measured }) => `${check}: ${measured}`);

it('whatever the reader takes is something that a sheet may say', () => {
  expect(same).toBe(true);
});

const first = layouts.map(({ id, examples: [example = id] }) => [id, example] as const);

it.each(first)('figures of %s come out as printed when they are measured: %s', async (id, example) => {
  const { request, sheets } = drawExample(id, example);
  expect(failing(await renderPdf(makeBook(request, sheets)))).toEqual([]);
});

it.each<[string, Readonly<Record<string, string>>]>([
  // Its tip is taken away with half the root gap.
  ['cone', { large: '20in', small: '0in', height: '9in', 'seam-allowance': '1/2in', join: 'weld' }],
  // Its edge ends at the root gap.
  ['bull-plug', { stock: 'DN 25 sch 80', 'made-from': 'plate', 'seam-allowance': '-5mm' }],
  // Bend lines as close as they may lie.
  ['cone', { large: '20in', small: '2in', height: '9in', step: '1' }],
  // Without its notes only the heading and the drawing are left.
  ['bolt-circle', { holes: '6', circle: '7-1/2in', hole: '3/4in', outside: '9in', notes: 'none' }],
  ['chord', { chord: '36in', rise: '5in', notes: 'none' }],
  // A turn that comes back almost to where it began.
  [
    'bends',
    { stock: 'DN 50 sch 40', legs: '600mm,400mm,300mm', turns: '90,45', rolls: '0.01', radius: '152mm' },
  ],
  // So flat on one sheet that its radius cannot be told from it.
  ['arc', { chord: '6m', rise: '1mm', segments: '24' }],
  ['arc', { chord: '5.952mm', radius: '9435mm' }],
])('a print at its limits proves: %s %j', async (id, texts) => {
  const { findings } = proveFile(await renderPdf(makeBook(readRequest(id, texts))));
  expect(findings.filter(({ ok }) => !ok)).toEqual([]);
});

/** Layouts whose part may be rolled from plate, with an example of round pipe. What is bent is pipe. */
const rolled = layouts
  .filter(({ id, fields }) => 'madeFrom' in fields && id !== 'bends')
  .map(({ id, examples }) => [id, examples[0] ?? ''] as const);

it.each(rolled)('figures of %s come out as printed on plate that is rolled', async (id, example) => {
  const request = readRequest(id, { ...readExample(example), 'made-from': 'plate' });
  expect(failing(await renderPdf(makeBook(request)))).toEqual([]);
});

/** A value a little larger, as a wrong one would be. */
const wrong = (figure: Figure): Figure => {
  switch (figure.kind) {
    case 'length':
      return { ...figure, mm: figure.mm + 2 };
    case 'angle':
      return { ...figure, radians: figure.radians + 0.02 };
    case 'area':
      return { ...figure, mm2: figure.mm2 * 1.05 };
    case 'count':
    case 'volume':
    case 'mass':
    case 'share':
      return figure;
  }
};

/** One sheet whose figure of a label says something else. */
const misstate = (sheets: readonly Sheet[], label: string): readonly Sheet[] =>
  sheets.map((sheet) => ({
    ...sheet,
    facts: sheet.facts.map(([name, said]) => {
      if (name !== label || typeof said === 'string') return [name, said] as const;
      return [
        name,
        said.kind === 'words'
          ? { ...said, parts: said.parts.map((part) => (typeof part === 'string' ? part : wrong(part))) }
          : wrong(said),
      ] as const;
    }),
  }));

/** A figure of each kind of measure: layout, inputs, and the label it is printed under. */
const kinds: readonly (readonly [Measured['kind'], string, Readonly<Record<string, string>>, string])[] = [
  ['girth', 'band', { stock: 'NPS 1 sch 40' }, 'Circumference (tape check)'],
  ['distance', 'miter', { stock: 'NPS 1 sch 40', cut: '22.5' }, 'Reference edge to center'],
  ['extent', 'miter', { stock: 'NPS 1 sch 40', cut: '22.5' }, 'Cutback, heel to throat'],
  ['rolled', 'miter', { stock: 'NPS 1 sch 40', cut: '22.5' }, 'Weld line, on the outside'],
  ['tilt', 'miter', { stock: 'NPS 1 sch 40', cut: '22.5' }, 'Turn'],
  ['height', 'orange-peel', { stock: 'NPS 2 sch 40' }, 'Bend line to tip'],
  ['area', 'gores', { sphere: '200mm', count: '8' }, 'Area of the pattern'],
  ['angle', 'cone', { large: '100mm', small: '50mm', height: '80mm' }, 'Sector'],
  ['circle', 'flight', { pipe: '60mm', outside: '150mm', pitch: '120mm' }, 'Ring taken up'],
  ['distance', 'spacing', { girth: '200mm', parts: '8' }, 'Each part'],
  ['across', 'notch', { stock: 'angle 50x50x5mm', turn: '60' }, 'Height of the notch over the hinge'],
  ['angle', 'compound', { slope: '45', 'other-slope': '60', height: '400mm' }, 'Side 1, runs in at each end'],
  ['girth', 'elbow-trim', { elbow: 'NPS 2 LR', turn: '37' }, 'Heel, along the elbow'],
  [
    'distance',
    'bends',
    { stock: 'NPS 1 sch 40', legs: '120mm,120mm', turns: '60', radius: '60mm' },
    'Cut length',
  ],
  ['distance', 'angle', { angle: '67.5', width: '100mm', 'other-width': '60mm' }, 'Part 2, point to point'],
  ['distance', 'frame', { length: '400mm', width: '300mm', bar: '50mm' }, 'Long to short point, each end'],
  ['distance', 'spacing', { girth: '200mm', parts: '8' }, 'Diameter for this girth'],
  [
    'height',
    'turn',
    { stock: 'NPS 1 sch 40', pieces: '3', radius: '60mm', nest: 'yes', sheets: 'nested' },
    'Pipe it takes',
  ],
  [
    'distance',
    'fold',
    { stock: 'flat 30x6mm', legs: '100mm,80mm', turns: '90', 'bend-radius': '6mm' },
    'Bend allowance',
  ],
  [
    'height',
    'swage',
    { stock: 'NPS 1 sch 40', to: 'NPS 3/4 sch 40', length: '30mm' },
    'Bend line to small end',
  ],
  [
    'distance',
    'hole-grid',
    { columns: '2', 'column-pitch': '40mm', rows: '2', 'row-pitch': '30mm', hole: '8mm' },
    'First row to last row',
  ],
];

describe.each(kinds)('a figure measured as %s on a %s', (kind, id, texts, label) => {
  const request = readRequest(id, texts);
  const sheets = makeSheets(request);
  const [, said] = sheets.flatMap(({ facts }) => facts).find(([name]) => name === label) ?? [];

  it('is measured so', () => {
    expect(valuesOf(said ?? '').map(({ measured }) => measured?.kind)).toEqual([kind]);
  });

  it('that contradicts the drawing fails, though record and print agree', async () => {
    const [fault = ''] = failing(await renderPdf(makeBook(request, misstate(sheets, label))));
    expect(fault).toContain(`figures as the drawing measures: ${label}`);
  });

  it('that is changed on the page alone fails', async () => {
    const book = makeBook(request, sheets);
    const text = writeFact(said ?? '', request.setting);
    const change = (mark: Mark): Mark =>
      mark.kind === 'text' && text.startsWith(mark.text) && mark.bold
        ? { ...mark, text: mark.text.replace(/\d/, (d) => `${(Number(d) + 1) % 10}`) }
        : mark;
    const pages = book.pages.map((page) => ({ ...page, marks: page.marks.map(change) }));
    expect(failing(await renderPdf({ ...book, pages })).join()).toContain(`another value at: ${label}`);
  });
});

it('an ordinate of the table that is changed on the page alone fails', async () => {
  const request = readRequest('miter', { stock: 'NPS 1 sch 40', cut: '22.5' });
  const book = makeBook(request);
  const row = book.sheets[0]?.figures?.tables[0]?.rows[3] ?? [];
  const cell = row[3] ?? '';
  let done = false;
  const change = (mark: Mark): Mark => {
    if (done || mark.kind !== 'text' || mark.text !== cell) return mark;
    done = true;
    return { ...mark, text: cell.replace(/\d/, (d) => `${(Number(d) + 1) % 10}`) };
  };
  const pages = book.pages.map((page) => ({ ...page, marks: page.marks.map(change) }));
  expect(cell).not.toBe('');
  expect(failing(await renderPdf({ ...book, pages })).join()).toContain(
    'figures as printed: another value at',
  );
});

it('an ordinate of the table that contradicts the drawing fails', async () => {
  const request = readRequest('miter', { stock: 'NPS 1 sch 40', cut: '22.5' });
  const sheets = makeSheets(request).map((sheet): Sheet => ({
    ...sheet,
    tables: sheet.tables.map((table) => ({
      ...table,
      rows: table.rows.map((row, i) =>
        row.map((said, c) =>
          i === 5 && c === 2 && typeof said !== 'string' && said.kind === 'length' ? wrong(said) : said,
        ),
      ),
    })),
  }));
  expect(failing(await renderPdf(makeBook(request, sheets))).join()).toContain('75° in the table');
});
