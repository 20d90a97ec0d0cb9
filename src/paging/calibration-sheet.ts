import { moveMarks } from '../drawing/extent.ts';
import { wrapText } from '../drawing/lettering.ts';
import type { Box, Mark } from '../drawing/model.ts';
import { boxPath, FINE, growBox, letter, NARROW, ruleLine, stroke, QUARTER } from '../drawing/paths.ts';
import type { Vec2 } from '../geometry/vector.ts';
import { requestError } from '../issue.ts';
import { linesHeight, pitchOf } from './block.ts';
import type { Book, Page } from './book.ts';
import { boxAt, GAP, heightOf, widthOf } from './box.ts';
import { barLane, calibrationBars, type CalibrationBars, tellBar } from './calibration-bars.ts';
import { drawForm } from './write-in-form.ts';
import { drawUprightCheck } from './furniture.ts';
import { defaultMargin } from './options.ts';
import type { Paper } from './paper.ts';
import { checkBreadth, checkLength, drawScaleCheck, namedLength } from './scale-check.ts';
import { drawHead, stepsBlock } from './text-blocks.ts';
import type { Drawn } from './title-block.ts';
import { say } from '../words/say.ts';

/** Stands in `soapstone.json` where prints of templates have their layout. */
export const calibrationName = 'calibration sheet';

/** One bar: a straight stroke exactly as long as it says, ticks outward at every step, its name on the inner side. */
const drawBar = (
  from: Vec2,
  axis: 'x' | 'y',
  length: number,
  every: number,
  inward: 1 | -1,
  name: string,
) => {
  const at = (along: number, out: number): Vec2 =>
    axis === 'x' ? { x: from.x + along, y: from.y + out } : { x: from.x - out, y: from.y + along };
  const marks: Mark[] = [
    ruleLine('scale', at(0, 0), at(length, 0), NARROW),
    ruleLine('scale', at(0, -3), at(0, 3), FINE),
    ruleLine('scale', at(length, -3), at(length, 3), FINE),
  ];
  for (let i = 1; i * every < length - 1e-6; i += 1)
    marks.push(ruleLine('scale', at(i * every, 0), at(i * every, -inward * (i % 5 === 0 ? 2 : 1.2)), FINE));
  const base = inward > 0 ? 1.6 : -1.6 - 3.5;
  const angle = axis === 'x' ? 0 : Math.PI / 2;
  return [...marks, letter('scale', at(length / 2, base), name, 3.5, { align: 'centre', angle, bold: true })];
};

const drawBars = (area: Box, bars: CalibrationBars): Mark[] => {
  const every = bars.units === 'in' ? 12.7 : 10;
  const middle = { x: (area.minX + area.maxX) / 2, y: (area.minY + area.maxY) / 2 };
  const inset = barLane / 2;
  const across = (y: number, inward: 1 | -1, name: string) =>
    drawBar(
      { x: middle.x - bars.across / 2, y },
      'x',
      bars.across,
      every,
      inward,
      say`${name}: across, ${tellBar(bars.across, bars)}`,
    );
  // Turned a quarter, the inner side of the left bar is its right hand.
  const along = (x: number, inward: 1 | -1, name: string) =>
    drawBar(
      { x, y: middle.y - bars.along / 2 },
      'y',
      bars.along,
      every,
      inward,
      say`${name}: along, ${tellBar(bars.along, bars)}`,
    );
  return [
    ...across(area.minY + inset, 1, 'A'),
    ...across(area.maxY - inset, -1, 'B'),
    ...along(area.minX + inset, -1, 'C'),
    ...along(area.maxX - inset, 1, 'D'),
  ];
};

const tellSteps = (command: string): readonly string[] => [
  say`Print this sheet at 100 % just as you print templates: same program and driver, same tray, same kind of paper. Nothing fitted to the page, nothing shrunk.`,
  say`Let it lie flat for half an hour. Paper comes out of the printer hot and dry, and a little short.`,
  say`Lay the edge of a steel rule along each bar and read it at both ends, middle of end tick to middle of end tick. Start at a full line of the rule, not at its worn end, and never at the edge of the paper.`,
  say`Read to 0.1 mm or 1/64 in. Write the four lengths below.`,
  say`Type them in: ${command}`,
  say`Print a template for this printer. Its 100 mm and 4 in checks must be true both ways.`,
  say`Calibrate again for other paper, another tray or another driver, and when a check is off.`,
];

const writeParagraph = (text: string, width: number, height: number): Drawn => {
  const lines = wrapText(text, height, true, width);
  const total = linesHeight(lines.length, height);
  const marks = lines.map((line, i) =>
    letter('text', { x: 0, y: total - height * 1.15 - i * pitchOf(height) }, line, height, { bold: true }),
  );
  return { width, height: total, marks };
};

/** What is read and filled in, one under the other at the top left of a field; undefined where there is no room. */
const drawWords = (field: Box, printer: string, paper: Paper, command: string): Mark[] | undefined => {
  const width = widthOf(field) - checkBreadth - GAP;
  const head = drawHead(
    { heading: say`Calibration sheet`, subject: [say`Printer "${printer}", paper ${paper.name}`] },
    width,
  );
  const note = writeParagraph(
    say`Nothing on this sheet is corrected: it shows what the printer does.`,
    width,
    2.5,
  );
  const form = drawForm(['A', 'B', 'C', 'D'], 4, Math.min(36, width / 4));
  const room = heightOf(field) - head.height - note.height - form.height - checkBreadth - 4 * GAP;
  const block = stepsBlock(tellSteps(command));
  const steps = ([3.5, 2.5] as const)
    .map((text) => block.fit(Math.min(width, 40 * text), text))
    .find((shape) => shape !== undefined && shape.height <= room);
  if (steps === undefined || widthOf(field) < checkLength) return undefined;
  let top = field.maxY;
  const put = (height: number, marks: readonly Mark[]): Mark[] => {
    top -= height;
    const placed = moveMarks(marks, field.minX, top);
    top -= GAP;
    return placed;
  };
  return [
    ...put(head.height, head.marks),
    ...put(note.height, note.marks),
    ...put(steps.height, steps.draw()),
    ...put(form.height, form.marks),
  ];
};

/** The page that shows what a printer makes of 100 %: two bars across and two along the paper, and how to read them. */
const drawPage = (printer: string, paper: Paper, command: string): Page => {
  const bars = calibrationBars(paper);
  const { width, height } = bars.size;
  const area = boxAt(
    defaultMargin.sides,
    defaultMargin.ends,
    width - 2 * defaultMargin.sides,
    height - 2 * defaultMargin.ends,
  );
  const field = growBox(area, -barLane - GAP);
  // On small paper the bars themselves are check enough.
  const isSmall = widthOf(field) < namedLength || heightOf(field) < namedLength + checkBreadth + GAP;
  const words = drawWords(field, printer, paper, command);
  if (words === undefined)
    throw requestError(
      'paper',
      'small-paper',
      say`paper "${paper.name}" is too small for a calibration sheet`,
      say`take a5 or larger`,
    );
  return {
    width,
    height,
    label: calibrationName,
    views: [{ sheet: calibrationName, name: '', origin: { x: area.minX, y: area.minY }, viewport: area }],
    asked: { margin: defaultMargin },
    marks: [
      stroke('page', boxPath(growBox(field, GAP - 1)), QUARTER),
      ...drawBars(area, bars),
      ...words,
      ...(isSmall
        ? []
        : [
            ...drawScaleCheck({ x: field.minX, y: field.minY + checkBreadth / 2 }, 'x'),
            ...drawUprightCheck(field.maxX, field.minY + checkBreadth + GAP).marks,
          ]),
    ],
  };
};

/** A calibration sheet as a print of one page; `command` takes the readings back. */
export const makeCalibrationSheet = (printer: string, paper: Paper, command: string): Book => ({
  title: say`Calibration sheet: ${printer}, ${paper.name}`,
  author: '',
  subject: say`What the printer makes of 100 %`,
  sheets: [{ name: calibrationName, heading: say`Calibration sheet`, pages: [1] }],
  pages: [drawPage(printer, paper, command)],
  spec: { layout: calibrationName, printer, paper: paper.name },
});
