import { factFinding, type Finding } from './finding.ts';
import type { PdfObjects } from './pdf-document.ts';
import { readFont, readRun, type Lettering, type PdfFont } from './pdf-fonts.ts';
import type { PdfFile, PdfPage } from './pdf-reader.ts';
import type { PdfValue } from './pdf-values.ts';
import type { Vec2 } from './space.ts';
import { say } from '../words/say.ts';

/** One run of lettering as it is read from the page. */
export interface Reading {
  readonly text: string;
  readonly layer: string;
  /** Where it starts, page points, its reading direction, and the size of its em, mm. */
  readonly at: Vec2;
  readonly angle: number;
  readonly size: number;
}

/** The fonts of a file, each read once. */
export type Fonts = (page: PdfPage, name: string) => PdfFont | undefined;

/** Opens the fonts of a file as its pages ask for them. */
export const openFonts = (objects: PdfObjects, lettering: Lettering): Fonts => {
  const read = new Map<PdfValue | undefined, PdfFont>();
  return (page, name) => {
    const value = page.fonts.find((font) => font.name === name)?.value;
    if (value === undefined) return undefined;
    const object = objects.resolve(value);
    const known = read.get(object) ?? readFont(objects, value, lettering);
    read.set(object, known);
    return known;
  };
};

/** All lettering of a page. Throws where a sign of it is none of its font. */
export const readPageText = (page: PdfPage, fonts: Fonts): readonly Reading[] =>
  page.letterings.map(({ font: name, codes, layer, at, angle, size }) => {
    const font = fonts(page, name);
    const text = font && readRun(font, codes);
    if (text === undefined) throw new Error(`lettering on page ${page.label} that is in no font`);
    return { text, layer, at, angle, size };
  });

/** Every sign on every page is drawn as the lettering font draws it, and says what it is said to say. */
export const checkFonts = (file: PdfFile, fonts: Fonts): readonly Finding[] => {
  const faults = new Set<string>();
  let runs = 0;
  for (const page of file.pages) {
    for (const { name } of page.fonts) for (const fault of fonts(page, name)?.faults ?? []) faults.add(fault);
    runs += readPageText(page, fonts).length;
  }
  return [
    factFinding(
      say`lettering`,
      say`all pages`,
      faults.size === 0,
      faults.size === 0 ? say`${runs} texts read back` : [...faults].slice(0, 5).join(', '),
      say`every sign drawn as in the lettering font`,
    ),
  ];
};
