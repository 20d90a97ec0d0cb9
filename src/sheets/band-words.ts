import type { Fact } from '../drawing/model.ts';
import type { Stock } from '../stock/stock.ts';
import { formatSize } from '../units/format.ts';
import { lengthOf, sizeOf, writeQuantity } from '../units/quantity.ts';
import type { Setting } from '../units/setting.ts';
import { writeBoth, writeSize } from '../units/writing.ts';
import { say } from '../words/say.ts';
import { steelGirth, WRAPPED, type Making } from './band-paper.ts';
import { shown } from './measured.ts';

/** What every band says: of its stock, its paper, and how it is laid on. */

/** The stock and its sizes as the table gives them. */
export const describeStock = ({ designation, sizes }: Stock, setting: Setting): string =>
  `${designation}: ${sizes.map(({ label, length }) => `${label} ${writeQuantity(sizeOf(length), setting)}`).join(', ')}`;

/** Where the stock's outside comes from. */
export const describeSource = ({ measured, source }: Stock): string =>
  measured
    ? say`Drawn for the girth that was measured`
    : source === 'given'
      ? say`Outside as given`
      : say`Outside from ${source}`;

/** The girth to check with a tape, or the width of the plate. */
export const girthFact = (stock: Stock, making: Making = WRAPPED): Fact =>
  making.madeFrom === 'plate'
    ? [say`Plate, seam to seam`, shown(lengthOf(steelGirth(stock, making)), { kind: 'girth' })]
    : [say`Circumference (tape check)`, shown(lengthOf(stock.girth), { kind: 'girth' })];

/** The first step of every sheet. */
export const CHECK_PRINT = (): string =>
  say`Check the print: every 100 mm rule is 100 mm long, every 4 in rule 4 in.`;

/** A measured girth further from its table's than this is questioned; ASTM A53 allows the outside 1 % (second-hand). */
const FAR_OFF = 0.01;

/** What looks wrong about the stock. */
export const questionStock = ({ tableGirth, girth, designation }: Stock): readonly string[] => {
  if (tableGirth === undefined) return [];
  const off = girth / tableGirth - 1;
  if (Math.abs(off) <= FAR_OFF) return [];
  return [
    say`The girth of ${designation} is ${Math.abs(off * 100).toFixed(1)} % ${off > 0 ? say`over` : say`under`} that of its size. Measure again before you cut.`,
  ];
};

/** The steps every wrapped sheet begins with. */
export const wrapSteps = (stock: Stock, setting: Setting, making: Making = WRAPPED): readonly string[] => [
  CHECK_PRINT(),
  making.madeFrom === 'plate'
    ? say`Check the plate: ${writeSize(stock.wall, setting)} thick. Another thickness needs another print.`
    : checkGirth(stock, writeBoth(stock.girth, setting)),
];

const checkGirth = ({ kind }: Stock, girth: string): string =>
  kind === 'pipe'
    ? say`Check the pipe: a tape around it reads ${girth}. If not, print again with the girth you read.`
    : say`Check the stock: a tape around it reads ${girth}. If not, print again with the girth you read.`;

/** How the sheet is laid on the part: around the stock as `onStock` says, or flat on plate that is rolled afterwards. */
export const laySteps = (
  stock: Stock,
  setting: Setting,
  making: Making,
  onStock: string,
  line = say`cut line`,
): readonly string[] => {
  const lines = stock.kind === 'pipe' ? say`quarter lines` : say`middle lines`;
  return making.madeFrom === 'plate'
    ? [
        say`Lay it flat on the plate, printed side up: this side rolls to the outside.`,
        say`Mark along the ${line} and both sides, punch the ${lines}. Take the paper off.`,
        say`Cut square to the plate, then roll to an outside girth of ${writeBoth(stock.girth, setting)}.`,
      ]
    : [onStock, say`Mark along the ${line}, punch the ${lines}. Take the paper off.`];
};

/** What the paper adds. */
export const describePaper = (setting: Setting, making: Making = WRAPPED): string => {
  const { paperThickness, units } = setting;
  const { madeFrom, seamAllowance } = making;
  if (madeFrom === 'plate')
    return say`Flat pattern on the mean diameter, for plate that will be rolled; ${
      seamAllowance === 0
        ? say`no seam allowance`
        : seamAllowance > 0
          ? say`seam allowance ${writeBoth(seamAllowance, setting)}`
          : say`seam gap ${writeBoth(-seamAllowance, setting)}`
    }`;
  return paperThickness === 0
    ? say`No allowance for paper: for a cutter`
    : say`Allows for ${formatSize(paperThickness, units)} of paper`;
};
