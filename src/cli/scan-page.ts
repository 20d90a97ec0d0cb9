import { requestError, UserError } from '../issue.ts';
import { quoteWord } from '../jobs/shell.ts';
import { calibrationBars } from '../paging/calibration-bars.ts';
import { parsePaper, type Paper } from '../paging/paper.ts';
import { factFinding, type Finding } from '../proof/finding.ts';
import { openFonts, readPageText } from '../proof/font-checks.ts';
import type { Proof } from '../proof/prove.ts';
import { readImage, type Gray } from '../proof/scan-image.ts';
import { measureScan, type ScanReading } from '../proof/scan.ts';
import { readFontFile } from '../render/font-files.ts';
import { program } from './command.ts';
import { say } from '../words/say.ts';

/** What a scan of a print shows. */
export interface ScanVerdict {
  readonly ok: boolean;
  readonly reading: ScanReading;
  /** Printed over true length along the paper's short side and square to it. */
  readonly across: number;
  readonly along: number;
  readonly findings: readonly Finding[];
  /** The command that corrects the printer, where the paper is one that printers are calibrated on. */
  readonly command: string | undefined;
}

/** A page counts as true within this share: a fifth of a millimeter in 100. Common practice, no source. */
const trueWithin = 0.002;
/** A page that leans more than this, radians, is a parallelogram: 0.3 mm in 100. Common practice, no source. */
const squareWithin = 0.003;

const percent = (factor: number): string => `${(100 * factor).toFixed(3)} %`;

const inPrint = ({ file, objects }: Proof, text: string): boolean => {
  if (file === undefined || objects === undefined) return false;
  const fonts = openFonts(objects, readFontFile);
  const identity = text.split(' ').at(-1) ?? text;
  return file.pages.some((page) => readPageText(page, fonts).some((reading) => reading.text === identity));
};

/** The usual papers that a picture may show, whatever a scanner adds or cuts off at the edges. */
const usualPapers = ['a4', 'letter', 'a3', 'tabloid', 'legal', 'a5'];

const paperOf = ({ width, height }: Gray, dpi: number, asked: string | undefined, proof?: Proof): Paper => {
  if (asked !== undefined) return parsePaper(asked);
  const page = proof?.file?.pages[0]?.mediaBox;
  const sides = (page === undefined ? [width / dpi, height / dpi] : [page.maxX / 72, page.maxY / 72])
    .map((side) => side * 25.4)
    .sort((a, b) => a - b);
  const off = (name: string): number => {
    const paper = parsePaper(name);
    const [short, long] =
      paper.kind === 'sheet' ? [paper.width, paper.height].sort((a, b) => a - b) : [NaN, NaN];
    return Math.hypot((short ?? NaN) - (sides[0] ?? 0), (long ?? NaN) - (sides[1] ?? 0));
  };
  const [nearest = 'a4'] = [...usualPapers].sort((a, b) => off(a) - off(b));
  return parsePaper(nearest);
};

/** Readings of the calibration sheet's bars that say the same as the scan. */
const writeCommand = (paper: Paper, printer: string, across: number, along: number): string | undefined => {
  try {
    const bars = calibrationBars(paper);
    const reading = (length: number): string => `${length.toFixed(2)}mm`;
    return `${program} calibrate --printer ${quoteWord(printer)} --paper ${quoteWord(paper.name)} --across ${reading(bars.across * across)} --along ${reading(bars.along * along)}`;
  } catch (error) {
    if (error instanceof UserError) return undefined;
    throw error;
  }
};

/** The resolution of a scan. Throws a `request` UserError where it is missing or out of range. */
export const readDpi = (text: string | undefined): number => {
  const dpi = Number(text);
  if (text !== undefined && dpi >= 150 && dpi <= 1200) return dpi;
  throw requestError(
    'dpi',
    'bad-dpi',
    text === undefined ? say`the resolution of the scan is missing` : say`"${text}" is not a scan resolution`,
    say`give the dots an inch that the scanner was set to, 150 to 1200: --dpi 300`,
  );
};

/**
 * Measures a scanned page: what its printer makes of 100 % both ways, whether it printed square, and what its code says, held
 * against the file that was printed where that is given. Throws a `request` UserError where the picture shows no page.
 */
export const proveScan = (
  bytes: Uint8Array,
  name: string,
  dpi: number,
  asked: { readonly paper?: string | undefined; readonly printer?: string | undefined },
  proof?: Proof,
): ScanVerdict => {
  let image: Gray;
  let reading: ScanReading;
  try {
    image = readImage(bytes);
    reading = measureScan(image, dpi);
  } catch (error) {
    throw requestError(
      'scan',
      'no-page',
      `${name}: ${error instanceof Error ? error.message : String(error)}`,
      say`scan one whole page flat, as PNG or JPEG at 200 to 600 dpi, and give that resolution as --dpi`,
    );
  }
  const { x, y, skew, code } = reading;
  const [across, along] = reading.isAcrossX ? [x, y] : [y, x];
  const scale = (which: string, factor: number): Finding =>
    factFinding(
      say`scale ${which} the paper`,
      name,
      Math.abs(factor - 1) <= trueWithin,
      say`${percent(factor)}, 100 mm prints ${(100 * factor).toFixed(2)} mm`,
      `100 % ± ${100 * trueWithin} %`,
    );
  const findings = [
    scale('across', across),
    scale('along', along),
    factFinding(
      say`square`,
      name,
      Math.abs(skew) <= squareWithin,
      say`${((skew * 180) / Math.PI).toFixed(3)}° off, ${(100 * Math.tan(Math.abs(skew))).toFixed(2)} mm in 100`,
      `${(100 * squareWithin).toFixed(1)} mm in 100`,
    ),
    ...(proof === undefined || code === undefined
      ? []
      : [factFinding(say`code`, name, inPrint(proof, code), code.slice(0, 60), say`a page of the file`)]),
  ];
  const printer = proof?.file?.record?.pages?.[0]?.printer;
  return {
    ok: findings.every(({ ok }) => ok),
    reading,
    across,
    along,
    findings,
    // What a corrected page still is off comes on top of its correction.
    command: writeCommand(
      paperOf(image, dpi, asked.paper, proof),
      asked.printer ?? printer?.name ?? 'NAME',
      across * (printer?.across ?? 1),
      along * (printer?.along ?? 1),
    ),
  };
};
