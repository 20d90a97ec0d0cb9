import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { makeBook, readRequest, renderPdf, type Texts } from '../../src/index.ts';
import { provePrint } from '../../src/cli/prove-print.ts';
import type { Fill, Mark, Path } from '../../src/drawing/model.ts';
import type { Vec2 } from '../../src/geometry/vector.ts';
import { proveFile } from '../../src/proof/prove.ts';
import { runTool, withFile } from '../support/external.ts';
import { isCut, layOpen, mend, printChanged, withRecord } from '../support/tamper.ts';

const miter: Texts = { pipe: 'NPS 1 sch 40', cut: '22.5' };
const disc: Texts = {
  shape: 'disc',
  diameter: '150mm',
  bore: '60mm',
  hole: '14mm',
  holes: '6',
  circle: '110mm',
};

/** Checks that fail when a file is measured, and whether it is drawn as this version draws it. */
const judge = async (bytes: Uint8Array) => {
  const { ok, measured, drawn } = await provePrint(bytes);
  return {
    ok,
    measured: measured.findings.filter((finding) => !finding.ok).map(({ check }) => check),
    drawn: drawn.state,
  };
};

let open = '';
beforeAll(async () => {
  open = layOpen(await renderPdf(makeBook(readRequest('miter', miter))));
});

/** An entry added to the first dictionary that `at` matches. */
const withEntry = (at: RegExp, entry: string): Uint8Array => {
  const changed = open.replace(at, (all) => `${all}\n  ${entry}`);
  expect(changed).not.toBe(open);
  return mend(changed);
};

const rewritten = (from: RegExp, to: string): Uint8Array => {
  const changed = open.replace(from, to);
  expect(changed).not.toBe(open);
  return mend(changed);
};

describe('a print as it was made', () => {
  it.each([
    ['miter', miter],
    ['plate', disc],
  ])('%s passes both ways', async (layout, texts) => {
    const bytes = await renderPdf(makeBook(readRequest(layout, texts)));
    expect(await judge(bytes)).toEqual({ ok: true, measured: [], drawn: 'same' });
  });

  it('fails drawn anew by another program, which is told in words', async () => {
    const bytes = await renderPdf(makeBook(readRequest('miter', miter)));
    const anew = withFile(bytes, (file, folder) => {
      const copy = join(folder, 'copy.pdf');
      runTool('gs', ['-q', '-dNOPAUSE', '-dBATCH', '-sDEVICE=pdfwrite', `-sOutputFile=${copy}`, file]);
      return new Uint8Array(readFileSync(copy));
    });
    const { ok, measured } = await provePrint(anew);
    expect([ok, measured.findings]).toEqual([
      false,
      [
        expect.objectContaining({
          check: 'reading it',
          allowed: expect.stringContaining('as it was written') as string,
        }),
      ],
    ]);
  });

  it('passes saved again, and is said to be', async () => {
    expect(await judge(mend(open))).toEqual({ ok: true, measured: [], drawn: 're-saved' });
  });
});

describe('a print that shows or says more than was made', () => {
  const catalog = /\/Type \/Catalog/;
  const page = /\/Type \/Page\n/;
  it.each<[string, () => Uint8Array]>([
    [
      'a layer that is off',
      () =>
        rewritten(
          /\/ON \[\s*(\d+ 0 R)/,
          (/\/ON \[\s*(\d+ 0 R)/.exec(open)?.[0] ?? '') && '/OFF [ $1 ] /ON [ $1',
        ),
    ],
    ['no layer on', () => rewritten(/\/ON \[/, '/BaseState /OFF /ON [')],
    [
      'layers by usage',
      () => rewritten(/\/ON \[/, '/AS [ << /Event /Print /OCGs [] /Category [/Print] >> ] /ON ['),
    ],
    [
      'a usage of a layer',
      () => rewritten(/\/Type \/OCG/, '/Type /OCG /Usage << /Print << /PrintState /OFF >> >>'),
    ],
    [
      'an annotation over the cut line',
      () =>
        withEntry(
          page,
          '/Annots [ << /Type /Annot /Subtype /Square /Rect [100 100 400 400] /IC [1 1 1] /C [1 1 1] /F 4 >> ]',
        ),
    ],
    ['a box that hides part of a page', () => withEntry(page, '/CropBox [0 0 300 300]')],
    ['a box that cuts a page', () => withEntry(page, '/TrimBox [10 10 300 300]')],
    ['a turned page', () => withEntry(page, '/Rotate 90')],
    ['a page of another unit', () => rewritten(/\/UserUnit 1/, '/UserUnit 1.01')],
    ['a script', () => withEntry(catalog, '/OpenAction << /S /JavaScript /JS (app.alert\\(1\\)) >>')],
    ['a form', () => withEntry(catalog, '/AcroForm << /Fields [] >>')],
    ['printing fitted to the page', () => rewritten(/\/PrintScaling \/None/, '/PrintScaling /AppDefault')],
    ['a picture among the resources', () => rewritten(/\/ProcSet \[/, '/XObject << /X 3 0 R >> /ProcSet [')],
    ['an action when a page opens', () => withEntry(page, '/AA << /O << /S /Named /N /Print >> >>')],
  ])('%s fails', async (_what, tamper) => {
    const { ok, measured } = await judge(tamper());
    expect([ok, measured]).not.toEqual([true, []]);
    expect(measured.length).toBeGreaterThan(0);
  });

  it('an encrypted one is refused by name', () => {
    const locked = withFile(new Uint8Array(Buffer.from(open, 'latin1')), (file, folder) => {
      const out = join(folder, 'locked.pdf');
      runTool('qpdf', ['--encrypt', '', 'owner', '256', '--', file, out]);
      return new Uint8Array(readFileSync(out));
    });
    expect(
      proveFile(locked)
        .findings.map(({ measured }) => measured)
        .join(),
    ).toContain('encrypted');
  });
});

describe('a drawing over several pages', () => {
  it('whose lines stand 0.02 mm off on one of them fails where the pages overlap', async () => {
    const book = makeBook(readRequest('cone', { large: '400mm', small: '200mm', height: '300mm' }));
    const move = (p: Vec2): Vec2 => ({ x: p.x, y: p.y + 0.02 });
    const moveAll = ({ start, segments, closed }: Path): Path => ({
      start: move(start),
      closed,
      segments: segments.map((segment) =>
        segment.kind === 'line'
          ? { ...segment, to: move(segment.to) }
          : { ...segment, c1: move(segment.c1), c2: move(segment.c2), to: move(segment.to) },
      ),
    });
    const pages = book.pages.map((page, i) => ({
      ...page,
      marks: page.marks.map((mark) =>
        i === 0 && mark.kind === 'stroke' && mark.role === 'cut'
          ? { ...mark, path: moveAll(mark.path) }
          : mark,
      ),
    }));
    const { findings } = proveFile(await renderPdf({ ...book, pages }));
    expect(findings.find(({ check }) => check === 'lines where pages overlap')?.ok).toBe(false);
  });
});

describe('a record that says less, or something else', () => {
  it('without its fit it fails when measured', async () => {
    const changed = withRecord(open, ({ sheets, ...rest }) => ({
      ...rest,
      sheets: sheets.map(({ fit, ...sheet }) => ({ ...sheet, was: fit })),
    }));
    expect((await judge(changed)).measured.join()).toContain('fit');
  });

  it('with nothing to meet it fails', async () => {
    const changed = withRecord(open, ({ sheets }) => {
      for (const { fit } of sheets) for (const line of fit.lines) line.solids = [];
    });
    expect((await judge(changed)).ok).toBe(false);
  });

  it('with another request it fails as drawn', async () => {
    const changed = withRecord(open, ({ spec }) => {
      spec['cut'] = '22.4';
    });
    expect(await judge(changed)).toMatchObject({ ok: false, drawn: 'differs' });
  });

  it('of another version with another drawing it is not compared, and says so', async () => {
    const changed = withRecord(open, (record) => {
      record.version = '0.0.1';
      record.spec['cut'] = '22.4';
    });
    expect(await judge(changed)).toMatchObject({ ok: true, measured: [], drawn: 'other version' });
  });
});

describe('a drawing that was changed, every digest with it', () => {
  const over = (ink: 'white' | 'black'): Fill => ({
    kind: 'fill',
    role: 'text',
    ink,
    path: {
      start: { x: 0, y: 0 },
      segments: [],
      closed: true,
    },
  });
  const boxed = (fill: Fill, x: number, y: number, half: number): Fill => ({
    ...fill,
    path: {
      start: { x: x - half, y: y - half },
      segments: [
        { kind: 'line', to: { x: x + half, y: y - half } },
        { kind: 'line', to: { x: x + half, y: y + half } },
        { kind: 'line', to: { x: x - half, y: y + half } },
        { kind: 'line', to: { x: x - half, y: y - half } },
      ],
      closed: true,
    },
  });
  const coverCut = (ink: 'white' | 'black') => (marks: readonly Mark[]) => {
    const cut = marks.find(isCut);
    if (cut === undefined) return marks;
    const { x, y } = cut.path.segments[3]?.to ?? cut.path.start;
    return [...marks, boxed(over(ink), x, y, 3)];
  };
  const dashed = (marks: readonly Mark[]) =>
    marks.map((mark) => (isCut(mark) ? { ...mark, line: 'dashed' as const } : mark));
  const thin = (marks: readonly Mark[]) =>
    marks.map((mark) => (isCut(mark) ? { ...mark, width: 0.02 } : mark));

  it.each([
    ['white over a cut line', coverCut('white')],
    ['black over a cut line', coverCut('black')],
    ['a cut line with gaps', dashed],
    ['a cut line too thin to see', thin],
    ['no cut line', (marks: readonly Mark[]) => marks.filter((mark) => !isCut(mark))],
  ])('%s fails when measured', async (_what, change) => {
    expect((await judge(await printChanged('miter', miter, change))).measured.length).toBeGreaterThan(0);
  });

  /** Moves one control point along the curve's own direction, where the line itself hardly moves. */
  const slid = (marks: readonly Mark[]) =>
    marks.map((mark) => {
      if (!isCut(mark)) return mark;
      const at = mark.path.segments.findIndex(({ kind }) => kind === 'curve');
      const segments = mark.path.segments.map((segment, i) => {
        if (i !== at || segment.kind !== 'curve') return segment;
        const { c1, to } = segment;
        const size = Math.hypot(to.x - c1.x, to.y - c1.y);
        const by = 0.05 / size;
        return { ...segment, c1: { x: c1.x + (to.x - c1.x) * by, y: c1.y + (to.y - c1.y) * by } };
      });
      return { ...mark, path: { ...mark.path, segments } };
    });
  /** Every "5" that is printed becomes a "6". */
  const misread = (marks: readonly Mark[]) =>
    marks.map((mark) => (mark.kind === 'text' ? { ...mark, text: mark.text.replaceAll('5', '6') } : mark));

  it.each([
    ['one control point moved 0.05 mm along its curve', slid],
    ['figures changed', misread],
  ])('%s fails as drawn', async (_what, change) => {
    const verdict = await judge(await printChanged('miter', miter, change));
    expect(verdict.ok).toBe(false);
    expect([verdict.drawn, verdict.measured.length > 0]).not.toEqual(['same', false]);
  });
});

describe('lettering that shows other signs than it says', () => {
  it('fails: two signs of the font changed places', () => {
    const at = /beginbfrange\n<0000> <[0-9a-f]{4}> \[(<[0-9a-f]{4}> )(<[0-9a-f]{4}> )(<[0-9a-f]{4}> )/;
    const changed = open.replace(at, (all, _zero: string, one: string, two: string) =>
      all.replace(one + two, two + one),
    );
    expect(changed).not.toBe(open);
    const failed = proveFile(mend(changed)).findings.filter(({ ok }) => !ok);
    expect(failed.map(({ check }) => check)).toContain('lettering');
  });
});
