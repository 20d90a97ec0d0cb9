import { checkAreSheets } from './drawing/check-sheets.ts';
import { foldMirrored } from './drawing/mirrored-rows.ts';
import type { Sheet, WrittenSheet } from './drawing/model.ts';
import { printedFigures } from './drawing/printed.ts';
import { writeSheet } from './drawing/written.ts';
import { identify } from './identity.ts';
import { requestError } from './issue.ts';
import { tellAsked, type Book } from './paging/book.ts';
import { paginate } from './paging/paginate.ts';
import { piecePanels, type PiecePanel } from './paging/piece-panel.ts';
import { isForSeveral } from './paging/pieces-page.ts';
import type { Request } from './request.ts';
import type { Scene } from './scene/scene.ts';
import { mergeEqual } from './sheets/equal.ts';
import { inTwo } from './sheets/in-two.ts';
import { inUnits } from './units/format.ts';
import { inLanguage, languagesOf, type Language } from './words/languages.ts';
import { say } from './words/say.ts';
import { checkIsKind } from './words/wrong-type.ts';

const checkIsRequest = (request: Request): void =>
  checkIsKind(request, ['layout', 'valuesIn', 'setting'], 'request', say`give what ${'readRequest'} returns`);

/** Runs something in the language that a request asks for, the leading one of two; its faults speak in the request's units. */
const inFirst = <T>(request: Request, run: (language: Language) => T): T => {
  checkIsRequest(request);
  const [first] = languagesOf(request.language);
  return inLanguage(first, () => inUnits(request.setting.units, () => run(first)));
};

/** Draws a request's sheets, full size in mm. Throws a `joint` UserError where the part cannot be made. */
export const makeSheets = (request: Request): readonly Sheet[] => {
  const draw = (language: Language): readonly Sheet[] =>
    pickSheets(request.layout.draw(request.valuesIn(language), request.setting), request.sheetNames);
  const sheets = inFirst(request, draw);
  const [, second] = languagesOf(request.language);
  return second === undefined
    ? sheets
    : inTwo(
        sheets,
        inLanguage(second, () => draw(second)),
      );
};

/** The sheets of those names, or whose names begin with those words. Throws a `request` UserError where there is none. */
const pickSheets = (sheets: readonly Sheet[], names: readonly string[] | undefined): readonly Sheet[] => {
  if (names === undefined) return sheets;
  const isNamed = ({ name }: Sheet, asked: string): boolean =>
    `${name.toLowerCase()} `.startsWith(`${asked.toLowerCase()} `);
  const unknown = names.find((asked) => !sheets.some((sheet) => isNamed(sheet, asked)));
  if (unknown !== undefined)
    throw requestError(
      'sheets',
      'unknown-sheet',
      say`there is no sheet "${unknown}"`,
      say`the sheets are ${sheets.map(({ name }) => name).join(', ')}`,
    );
  return sheets.filter((sheet) => names.some((asked) => isNamed(sheet, asked)));
};

/** The same with every value written in the request's units, as it is printed. */
export const makeWrittenSheets = (request: Request): readonly WrittenSheet[] =>
  makeSheets(request).map((sheet) => writeSheet(sheet, request.setting));

/** The same sheets for a cutter or plotter, without an allowance for paper unless the request gives one. */
export const makeCutterSheets = (request: Request): readonly Sheet[] => {
  return inFirst(request, (language) =>
    pickSheets(request.layout.draw(request.valuesIn(language), request.cutterSetting), request.sheetNames),
  );
};

/** What a request finds besides its sheets, as plain data; empty for layouts that only draw. */
export const makeResults = (request: Request): Readonly<Record<string, unknown>> => {
  checkIsRequest(request);
  const { layout, valuesIn, setting } = request;
  return inLanguage('en', () => layout.results?.(valuesIn('en'), setting) ?? {});
};

/** The pieces a request finds to be cut, as rows of a cut list; undefined for layouts that find none. */
export const makeCutList = ({
  layout,
  valuesIn,
  setting,
}: Request): readonly Readonly<Record<string, string>>[] | undefined =>
  inLanguage('en', () => layout.cutList?.(valuesIn('en'), setting));

/** The finished parts in space, and what they fit; undefined for layouts that make no body. Throws as `makeSheets` does. */
export const makeScene = (request: Request): Scene | undefined =>
  inFirst(request, (language) => request.layout.scene?.(request.valuesIn(language), request.cutterSetting));

/**
 * Lays a request's sheets on its paper. Throws a `request` UserError where the paper has no room inside its margins, or as
 * soon as it is seen that there would be more than `mostPages`.
 */
export const makeBook = (
  request: Request,
  sheets: readonly Sheet[] = makeSheets(request),
  mostPages = Infinity,
): Book => inFirst(request, () => layBook(request, sheets, mostPages));

/** What stands under a picture. */
const captionOf = (title: string): string => (title === '' ? say`Not to scale` : say`${title}, not to scale`);

/** A sheet with its tables and the captions of its pictures as they are printed. */
const asPrinted = (sheet: Sheet, second: Language | undefined): Sheet => {
  const { tables, pictures, also } = sheet;
  return {
    ...sheet,
    tables: tables.map(foldMirrored),
    pictures: pictures.map((picture) => ({ ...picture, title: captionOf(picture.title) })),
    ...(also &&
      second && { also: { ...also, pictures: inLanguage(second, () => also.pictures.map(captionOf)) } }),
  };
};

/** Names in a row, the later ones counted where there are many. */
const listFew = (names: readonly string[]): string =>
  names.length <= 4 ? names.join(', ') : say`${names.slice(0, 2).join(', ')} and ${names.length - 2} more`;

/** The sheets as they go on paper: equal ones once, with the words of the print. */
const printedOf = ({ equal, language }: Request, sheets: readonly Sheet[]): readonly Sheet[] => {
  const [, second] = languagesOf(language);
  return (equal === 'once' ? mergeEqual(sheets) : sheets).map((sheet) => asPrinted(sheet, second));
};

/**
 * The ways to set a request's sheets in one frame, on a page that it shares with other pieces of a book; none where its paper is
 * no paper for several pieces, or the frame would be larger than that.
 */
export const makePanels = (
  request: Request,
  sheets: readonly Sheet[] = makeSheets(request),
): readonly PiecePanel[] => {
  const { paging, understood } = request;
  if (!isForSeveral(paging.paper)) return [];
  const options = { ...paging, identity: identify(understood, sheets) };
  return inFirst(request, () => piecePanels(printedOf(request, sheets), options));
};

const layBook = (request: Request, sheets: readonly Sheet[], mostPages: number): Book => {
  checkAreSheets(sheets);
  const { paging, spec, understood } = request;
  const printed = printedOf(request, sheets);
  const { title, piece, drawn, owner } = paging.title;
  const headings = listFew(printed.map(({ heading }) => heading));
  const paged = paginate(printed, { ...paging, mostPages, identity: identify(understood, sheets) });
  return {
    pages: paged.pages.map((page) => ({ ...page, asked: tellAsked(paging) })),
    sheets: paged.sheets.map((sheet, i) => ({
      ...sheet,
      fit: printed[i]?.fit,
      figures: printed[i] && printedFigures(printed[i], request.setting),
    })),
    title: [piece, title ?? headings].filter((text) => text !== undefined).join(': '),
    author: drawn ?? owner ?? '',
    subject: sheets[0]?.subject[0] ?? '',
    spec,
  };
};
