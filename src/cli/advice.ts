import { quoteFile } from '../jobs/shell.ts';
import type { Page } from '../paging/book.ts';
import type { Printer } from '../paging/printer.ts';
import { say } from '../words/say.ts';

/** Papers by the names CUPS knows them by, in mm, short side first. */
const media: readonly (readonly [name: string, width: number, height: number])[] = [
  ['Letter', 215.9, 279.4],
  ['Legal', 215.9, 355.6],
  ['Tabloid', 279.4, 431.8],
  ['A4', 210, 297],
  ['A3', 297, 420],
  ['A2', 420, 594],
  ['A1', 594, 841],
  ['A0', 841, 1189],
  ['A5', 148, 210],
];

const sidesOf = ({
  width,
  height,
}: Pick<Page, 'width' | 'height'>): readonly [short: number, long: number] => [
  Math.min(width, height),
  Math.max(width, height),
];

const knownMedia = (page: Pick<Page, 'width' | 'height'>): string | undefined => {
  const [short, long] = sidesOf(page);
  return media.find(([, w, h]) => Math.abs(w - short) < 0.1 && Math.abs(h - long) < 0.1)?.[0];
};

const nameMedia = (page: Pick<Page, 'width' | 'height'>): string => {
  const [short, long] = sidesOf(page);
  return knownMedia(page) ?? `Custom.${Number(short.toFixed(2))}x${Number(long.toFixed(2))}mm`;
};

/** The command that prints a file at 100 % through CUPS, which otherwise fits a page to other paper. */
export const printCommand = (file: string, page: Pick<Page, 'width' | 'height'>): string =>
  `lp -d PRINTER -o media=${nameMedia(page)} -o print-scaling=none ${quoteFile(file)}`;

/** What matters on label and receipt printers, whose rolls are narrower than a page. */
const adviseHead = (page: Pick<Page, 'width' | 'height'>): readonly string[] =>
  sidesOf(page)[0] < 205 && knownMedia(page) === undefined
    ? [
        say`  Label rolls    print at the head's own resolution, nothing smoothed: a dot is 0.125 mm at 203 dpi, 0.085 mm at 300 dpi`,
        say`                 set the length of the label in the driver to that of the page, and cut-off after each page`,
      ]
    : [];

/**
 * How to print at 100 % from where people print, one line each. `printer` is the one the print is corrected for, which must
 * then be printed on the way it was calibrated.
 */
export const advisePrint = (
  file: string,
  page: Pick<Page, 'width' | 'height'>,
  printer?: Pick<Printer, 'name'>,
): readonly string[] => [
  printer === undefined
    ? say`Print at 100 %, never fitted to the page:`
    : say`Print on ${printer.name} only, at 100 %, never fitted to the page:`,
  `  Linux, macOS   ${printCommand(file, page)}`,
  say`  Acrobat        Actual size; Choose paper source by PDF page size`,
  say`  SumatraPDF     Print scaling: None; or -print-settings "noscale,paper=auto"`,
  say`  Chrome, Edge   More settings: Scale 100 (or Default), paper as in the file`,
  say`  Evince, Okular Page scaling: None; Firefox prints pictures of pages, do not use it`,
  say`  The driver     its own "scale" and "fit to paper" off as well`,
  ...adviseHead(page),
  say`Then measure the scale checks both ways with a steel rule before you cut.`,
];
