import type { Mark, Picture, Sheet } from '../../src/drawing/model.ts';
import {
  circlePath,
  knockout,
  letter,
  MEDIUM,
  NARROW,
  polylinePath,
  QUARTER,
  ruleLine,
  stroke,
  WIDE,
} from '../../src/drawing/paths.ts';
import type { PagingOptions } from '../../src/paging/options.ts';
import { parsePaper } from '../../src/paging/paper.ts';

/** Made-up sheets in the manner of real ones: what paging has to deal with, without any layout's own code. */

const picture = (title: string, width: number, height: number): Picture => ({
  title,
  bounds: { minX: 0, minY: 0, maxX: width, maxY: height },
  marks: [
    stroke('cut', circlePath({ x: width / 2, y: height / 2 }, Math.min(width, height) / 2 - 2), MEDIUM),
    ruleLine('centre', { x: 0, y: height / 2 }, { x: width, y: height / 2 }, NARROW, 'long-dash-dot'),
    letter('dimension', { x: width / 2, y: 2 }, '60°', 2.5, { align: 'centre' }),
  ],
});

const words: Omit<Sheet, 'name' | 'heading' | 'marks' | 'bounds'> = {
  subject: [
    'Pipe 60.3 mm onto pipe 114.3 mm',
    '60° between the axes, no offset, set-on',
    'Wraps on paper 0.10 mm thick',
  ],
  steps: [
    'Check the print: both rules must be true.',
    'Check the girth with a tape round the pipe; print again with the girth you read if it differs.',
    'Wrap printed side out until the reference edge meets itself.',
    'Mark along the cut line, punch the quarter lines.',
    'Cut square to the surface.',
  ],
  facts: [
    ['Girth to tape', '189.5 mm (7 15/32″)'],
    ['Cutback', '32.6 mm (1 9/32″)'],
  ],
  tables: [
    {
      title: 'Ordinates from the reference edge',
      header: ['Station', 'mm', 'in'],
      rows: Array.from({ length: 24 }, (_, i) => [`${i * 15}°`, (48 + i * 1.3).toFixed(1), `${i} 1/16″`]),
    },
  ],
  pictures: [picture('Side view', 60, 45), picture('End view', 40, 45)],
  cautions: [
    'An opening takes strength from the header: a qualified person checks the reinforcement it needs.',
  ],
};

const bare: Omit<Sheet, 'name' | 'heading' | 'marks' | 'bounds'> = {
  subject: [],
  steps: [],
  facts: [],
  tables: [],
  pictures: [],
  cautions: [],
};

/** A band `girth` by `height`, with stations every 15°, a wavy cut line and the words of one. */
export const bandSheet = (girth: number, height: number, isBare = false): Sheet => {
  const tab = 15;
  const cutAt = (u: number): number => height * (0.7 + 0.2 * Math.cos(u * 2 * Math.PI));
  const cut = polylinePath(Array.from({ length: 97 }, (_, i) => ({ x: (girth * i) / 96, y: cutAt(i / 96) })));
  const every = girth / 24 < 19 ? 6 : 1;
  const marks: Mark[] = [
    stroke(
      'reference',
      polylinePath(
        [
          { x: 0, y: 0 },
          { x: girth + tab, y: 0 },
          { x: girth + tab, y: height },
          { x: 0, y: height },
        ],
        true,
      ),
      MEDIUM,
    ),
    ...Array.from({ length: 25 }, (_, i) => {
      const x = (girth * i) / 24;
      return ruleLine('station', { x, y: 12 }, { x, y: cutAt(i / 24) }, i % 6 === 0 ? QUARTER : NARROW);
    }),
    ...Array.from({ length: 25 }, (_, i) => i)
      .filter((i) => i % every === 0)
      .map((i) =>
        letter('text', { x: (girth * i) / 24, y: 4 }, `${i * 15}°`, 3.5, {
          align: i === 0 ? 'left' : i === 24 ? 'right' : 'centre',
        }),
      ),
    stroke('cut', cut, WIDE),
  ];
  for (const u of [0.3, 0.7]) {
    const box = { minX: girth * u - 12, maxX: girth * u + 12, minY: height * 0.3, maxY: height * 0.3 + 9 };
    if (girth < 120) continue;
    marks.push(knockout('text', box));
    marks.push(
      letter('text', { x: girth * u, y: height * 0.3 + 4.5 }, 'KEEP', 7, {
        align: 'centre',
        valign: 'middle',
        bold: true,
      }),
    );
  }
  if (girth > 150)
    marks.push(
      letter('text', { x: girth / 2, y: height - 4 }, 'reference edge: wrap until it meets itself', 2.5, {
        align: 'centre',
      }),
    );
  return {
    ...(isBare ? bare : words),
    name: 'band',
    heading: 'Degree band',
    marks,
    bounds: { minX: 0, minY: 0, maxX: girth + tab, maxY: height },
  };
};

/** A ring: its middle and corners are blank. */
export const ringSheet = (diameter: number): Sheet => ({
  ...words,
  name: 'ring',
  heading: 'Bolt circle',
  marks: [
    stroke('cut', circlePath({ x: 0, y: 0 }, diameter / 2), WIDE),
    stroke('centre', circlePath({ x: 0, y: 0 }, diameter * 0.45), NARROW, 'long-dash-dot'),
    letter('text', { x: diameter / 2 - 30, y: 0 }, 'TDC', 3.5),
  ],
  bounds: { minX: -diameter / 2, minY: -diameter / 2, maxX: diameter / 2, maxY: diameter / 2 },
});

/** A tall sheet: a frame and a diagonal. */
export const slabSheet = (width: number, height: number): Sheet => ({
  ...words,
  name: 'slab',
  heading: 'Gusset',
  marks: [
    stroke(
      'cut',
      polylinePath(
        [
          { x: 0, y: 0 },
          { x: width, y: 0 },
          { x: width, y: height },
          { x: 0, y: height },
        ],
        true,
      ),
      WIDE,
    ),
    ruleLine('bend', { x: 0, y: 0 }, { x: width, y: height }, NARROW, 'long-dash-double-dot'),
    letter('text', { x: width / 2, y: height / 2 + 6 }, 'bend up along this line, 90°', 3.5, {
      align: 'centre',
    }),
  ],
  bounds: { minX: 0, minY: 0, maxX: width, maxY: height },
});

export const optionsFor = (paper: string, changes: Partial<PagingOptions> = {}): PagingOptions => ({
  paper: parsePaper(paper),
  orientation: 'auto',
  margin: { sides: 6.5, ends: 13 },
  overlap: 10,
  units: 'mm',
  denominator: 16,
  title: {
    piece: 'S12-3',
    job: 'Pump house',
    number: 'PH-210',
    revision: 'B',
    date: '2026-03-14',
    owner: 'Shop 3',
  },
  identity: '7F3K-29QD',
  ...changes,
});
