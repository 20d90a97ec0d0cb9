import type { Fact } from '../../drawing/model.ts';
import { lengthField, markField, stockField, type StationMark } from '../../fields/fields.ts';
import { defineLayout } from '../../fields/layout.ts';
import { TURN, modulo } from '../../geometry/angle-units.ts';
import { bandFields, countStations, pickBand } from '../../sheets/band-fields.ts';
import { drawBandMarks } from '../../sheets/band-marks.ts';
import { aroundTo, bandLines, bandPaper, stationLines } from '../../sheets/band-paper.ts';
import { bandSheet } from '../../sheets/band-sheet.ts';
import { endPicture } from '../../sheets/end-picture.ts';
import { levelAt, shown, taken } from '../../sheets/measured.ts';
import { stationNumber } from '../../stock/station.ts';
import { stockAcross, type Stock } from '../../stock/stock.ts';
import { formatAngle } from '../../units/angle.ts';
import { decimalOf, lengthOf } from '../../units/quantity.ts';
import { say } from '../../words/say.ts';
const WORDS = () => [say`TDC`, '', say`BOTTOM`, ''] as const;

/** Degree stations around a pipe: both long edges square, any degree marked with its own label. */
export const band = defineLayout({
  id: 'band',
  summary:
    'degree band that wraps around a pipe, with top dead center, quarter lines and marks at any degree',
  family: 'pipe ends',
  words: [
    'wraparound',
    'stations',
    'quarter lines',
    'degrees',
    'divide a pipe',
    'square cut',
    'straight cut',
    'circumference',
    'lug',
  ],
  fields: {
    stock: stockField('the pipe or other stock it wraps around', {
      example: 'NPS 6 sch 40',
      aliases: ['pipe'],
    }),
    height: lengthField('height of the band', { default: '60mm', example: '3in', min: 45, max: 1000 }),
    mark: markField('a labeled line at any degree', { example: '37.5:lug', many: true }),
    ...bandFields,
  },
  examples: [
    'band --stock "NPS 6 sch 40"',
    'band --stock "DN 150 sch 40" --mark "37.5:lug" --mark "142.5:drain" --paper a4',
    'band --stock "girth 530mm wall 7mm" --divisions 16 --height 80mm',
  ],
  draw: ({ stock, height, mark, ...rest }, setting) => {
    const making = pickBand(rest);
    const count = countStations(making);
    const paper = bandPaper(stock, making.seam, setting, making);
    const lines = bandLines(stock, count, paper);
    const placed = mark.map(({ angle, label }) => ({ angle: intoSpan(angle, paper.seam), label }));
    const name = ({ angle, label }: StationMark): string => `${stationNumber(angle)} ${label}`.trim();
    const { marks, bounds } = drawBandMarks({
      from: paper.from,
      to: paper.from + paper.girth,
      reference: 0,
      top: height,
      sides: paper.sides,
      stations: stationLines(paper, lines, setting, (quarter) => WORDS()[quarter] ?? ''),
      labels: placed.map((own) => ({
        x: paper.xAt(own.angle),
        text: name(own),
        short: stationNumber(own.angle),
      })),
    });
    const isPipe = stock.kind === 'pipe';
    return [
      bandSheet(
        {
          name: 'band',
          heading: isPipe ? say`Degree band` : say`Face band`,
          stock,
          band: { paper, marks, bounds },
          making,
          about: [],
          cut: isPipe
            ? say`Stations every ${formatAngle(TURN / count)}, rising counter-clockwise seen facing the end`
            : say`Faces in order, counter-clockwise seen facing the end`,
          lines: [],
          wrap: say`Wrap it printed side out, ${isPipe ? say`TDC on the pipe’s top line` : say`each fold line along its corner`}, until each long edge meets itself: then it is square. Tape the tab under the other end.`,
          line: say`stations`,
          after: [],
          facts: isPipe ? degreeFacts(stock, paper.steel) : [],
          tables: [
            ...(placed.length > 0
              ? [
                  {
                    title: say`Marks: around the pipe from TDC`,
                    header: [say`Mark`, say`Station`, say`around`],
                    rows: placed.map(({ angle, label }) => [
                      label,
                      stationNumber(angle),
                      aroundTo(paper, angle, levelAt('station', paper.xAt(angle), 1)),
                    ]),
                  },
                ]
              : []),
            {
              title: isPipe
                ? say`By tape: around from TDC`
                : say`By tape: around from the middle of the first face`,
              header: [say`Station`, say`around`],
              rows: lines
                .slice(0, -1)
                .filter(({ label }) => label !== '')
                .map(({ angle, label }) => [
                  label,
                  aroundTo(paper, angle, levelAt('station', paper.xAt(angle), 1)),
                ]),
            },
          ],
          pictures: [
            endPicture(
              say`Facing the end of the pipe`,
              stock,
              [say`TDC`, '', say`bottom`, ''],
              placed.map((own) => ({ angle: own.angle, text: name(own) })),
            ),
          ],
        },
        setting,
      ),
    ];
  },
});

/** The same station between the seams. */
const intoSpan = (angle: number, seam: number): number => seam + modulo(angle - seam, TURN);

/**
 * What a tape reads for a degree and for a quarter, and how far in the top line stands; `steel` is what is laid out, mm: the
 * stock's girth, or the plate that it is rolled from.
 */
const degreeFacts = (stock: Stock, steel: number): readonly Fact[] => [
  [say`One degree`, decimalOf(steel / 360, 3)],
  [say`One quarter`, shown(lengthOf(steel / 4), taken({ kind: 'girth' }, 1 / 4))],
  [
    say`TDC in from the side`,
    shown(
      lengthOf(stockAcross(stock)[1]),
      stock.round !== undefined && steel === stock.girth
        ? taken({ kind: 'girth' }, 0.5 / Math.PI)
        : undefined,
    ),
  ],
];
