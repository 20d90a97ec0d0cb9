import { pagingFields, settingFields, titleFields } from './fields/common.ts';
import { listInputs, type Named, ownNames, spellInput } from './fields/describe.ts';
import { type Inputs, spellInputs } from './fields/values.ts';
import type { Field, Fields, Values } from './fields/field.ts';
import type { Layout } from './fields/layout.ts';
import { plainOf } from './identity.ts';
import { type Issue, requestError, UserError } from './issue.ts';
import { layouts } from './layouts/registry.ts';
import { findNearMiss } from './near-miss.ts';
import { formatCalibration } from './paging/calibration.ts';
import type { PagingOptions } from './paging/options.ts';
import { isNarrowRoll, narrowMargin } from './paging/narrow-roll.ts';
import { parsePaper } from './paging/paper.ts';
import { type FindCalibration, knowNoPrinter, readPrinter } from './paging/printer.ts';
import { formatExactMm, inUnits } from './units/format.ts';
import type { Units } from './units/length.ts';
import type { Reading } from './units/reading.ts';
import type { Setting } from './units/setting.ts';
import {
  inLanguage,
  type Language,
  type LanguageChoice,
  languagesOf,
  languageSpoken,
  readLanguage,
} from './words/languages.ts';
import { say, translate } from './words/say.ts';
import { checkIsKind } from './words/wrong-type.ts';

/** Inputs as a person wrote them, by name: `{ pipe: 'NPS 4 sch 40', mark: ['0:TDC', '90:lug'] }`. */
export type Texts = Readonly<Record<string, string | readonly string[]>>;

/** A request as texts, defaults included: enough to make the print again. */
export type Spec = { readonly layout: string } & Texts;

/** The paper, and how sheets are laid on it; the identity comes with the sheets. */
export type Paging = Omit<PagingOptions, 'identity'>;

/** A request that has been understood. */
export interface Request {
  readonly layout: Layout;
  /** The layout's own inputs, in mm and radians. */
  readonly values: Values<Fields>;
  /** The same with what they say of themselves, such as where a size comes from, in a language. */
  readonly valuesIn: (language: Language) => Values<Fields>;
  readonly setting: Setting;
  /** The same for a file that goes to a cutter: no paper, unless its thickness was given. */
  readonly cutterSetting: Setting;
  /** What its sheets and pages are written in. */
  readonly language: LanguageChoice;
  /** Names of the sheets that are wanted; all where they are left out. */
  readonly sheetNames?: readonly string[] | undefined;
  /** Whether equal sheets are printed once. */
  readonly equal: 'once' | 'each';
  readonly paging: Paging;
  /** The texts it was read from, and the defaults. */
  readonly spec: Spec;
  /**
   * All that shapes the print, as it was understood: not how it was written, nor what leaves the piece as it is, such as the
   * printer it is made true on, its language, or that it is no longer to be used.
   */
  readonly understood: unknown;
}

/** The layout of that name. Throws a `request` UserError with the nearest name. */
export const findLayout = (id: string, among: readonly Layout[] = layouts): Layout => {
  const found = among.find((layout) => layout.id === id);
  if (found !== undefined) return found;
  const names = among.map((layout) => layout.id);
  const near = findNearMiss(String(id), names);
  throw requestError(
    'layout',
    'unknown-layout',
    say`there is no layout "${id}"`,
    near === undefined ? say`layouts: ${names.join(', ')}` : say`did you mean ${near}?`,
  );
};

/** Designations and units of the inch tables: NPS, rolled shapes and HSS by AISC, fractions, inches and feet. */
const inInches =
  /\bNPS(?![a-z])|\b(?:HSS|W|S|HP|MC|C) ?\d|["″'′]|\d\s*(in|ft)\b|\bL ?[\d./ -]+x[^+]*\d\/\d|^\s*[\d./ -]+(?:sch|std|xx?[sh]\b)|^\s*sch/i;
const inMillimetres = /\bDN(?![a-z])|\b(?:EN|IPE|HE|UPN|UPE)\b|\bL ?\d+x\d+x\d+(?![\d/])|\d\s*(mm|cm|m)\b/i;

/**
 * The units written first when `units` is not given: those of the first input, in the layout's order, that shows a unit.
 * NPS, inches and feet mean inches; DN and metric lengths mean millimeters, and so does nothing at all.
 */
const guessUnits = (layout: Layout, texts: Texts): Units => {
  for (const [key, field] of Object.entries(layout.fields)) {
    if (field.kind === 'text' || field.kind === 'choice') continue;
    const text = [texts[spellInput(key)] ?? []].flat().join(' ');
    if (inInches.test(text)) return 'in';
    if (inMillimetres.test(text)) return 'mm';
  }
  return 'mm';
};

/** Runs a reader and keeps what it finds wrong with the request, so that all faults are reported at once. */
const collect = <T>(issues: Issue[], read: () => T): T | undefined => {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof UserError) || error.failure !== 'request') throw error;
    issues.push(...error.issues);
    return undefined;
  }
};

const checkNames = (texts: Texts, known: readonly string[], issues: Issue[]): void => {
  for (const name of Object.keys(texts)) {
    if (known.includes(name)) continue;
    const near = findNearMiss(name, known);
    issues.push({
      code: 'unknown-input',
      path: name,
      message: say`there is no option "${name}"`,
      hint: near === undefined ? say`options: ${known.join(', ')}` : say`did you mean ${near}?`,
    });
  }
};

/** The texts an input uses: those given, else its default. Throws where it is missing, empty or given twice. */
const chooseTexts = (name: string, field: Field<unknown>, given: string | readonly string[] | undefined) => {
  const texts = given === undefined ? [] : [given].flat().map((text) => text.trim().normalize('NFC'));
  const example = say`give it, for example "${field.example}"`;
  if (texts.some((text) => text === ''))
    throw requestError(name, 'no-value', say`no value is given`, example);
  if (field.many) return texts;
  if (texts.length > 1)
    throw requestError(name, 'given-twice', say`given ${texts.length} times`, say`give it once`);
  if (texts.length === 0 && field.default !== undefined) return [field.default];
  if (texts.length === 0 && !field.optional)
    throw requestError(name, 'missing', say`missing: ${translate(field.help)}`, example);
  return texts;
};

/** Reads all fields of one group, collecting what is wrong and the texts that were used. */
const readFields = <F extends Fields>(
  fields: F,
  { texts, givenAs }: Named<string | readonly string[]>,
  units: Reading['units'],
  issues: Issue[],
  used: Record<string, string | readonly string[]>,
): Values<F> => {
  const values: Record<string, unknown> = {};
  for (const [key, field] of Object.entries(fields)) {
    const name = spellInput(key);
    const chosen = collect(issues, () => chooseTexts(name, field, texts[name])) ?? [];
    const read = chosen.map((text) =>
      collect(issues, () => field.parse(text, { units, path: givenAs.get(name) ?? name })),
    );
    values[key] = field.many ? read : read[0];
    if (chosen.length > 0) used[name] = field.many ? chosen : (chosen[0] ?? '');
  }
  return values as Values<F>;
};

const denominators = { '16': 16, '32': 32, '64': 64 } as const;

/** Thickness of 80 g/m² office paper, mm. */
const usualPaper = 0.1;

/**
 * Understands a request: the layout's name and its inputs, as a person writes them or as values (see `Inputs`). Angles may be bare numbers of
 * degrees; lengths need their unit unless `units` is given. `findCalibration` knows the printers of this machine; what
 * it finds goes into the spec. Throws one `request` UserError with everything wrong.
 */
export const readRequest = (
  layoutId: string,
  inputs: Inputs,
  among: readonly Layout[] = layouts,
  findCalibration: FindCalibration = knowNoPrinter,
): Request => {
  // A program without types may hand over anything; what it must be is said where it is read.
  const language = (inputs as Inputs | null | undefined)?.language;
  const read = (): Request => {
    const understood = understand(layoutId, inputs, among, findCalibration);
    return { ...understood, understood: shapeOf(understood) };
  };
  // Without a language of its own its faults come in the program's.
  return typeof language === 'string' ? inLanguage(languagesOf(readLanguage(language))[0], read) : read();
};

type Understood = Omit<Request, 'understood'>;

/** What shapes the print, of a request that has been understood. */
const shapeOf = ({ layout, values, setting, sheetNames, equal, paging }: Understood): unknown => {
  const { printer: _printer, second: _second, title, ...laid } = paging;
  const { supersededBy: _out, ...named } = title;
  return plainOf([layout.id, values, setting, sheetNames, equal, laid, named]);
};

/** Values by language: those that are known, and others read anew. */
const inEach = (known: Values<Fields>, read: () => Values<Fields>): Request['valuesIn'] => {
  const spoken = languageSpoken();
  const others = new Map<Language, Values<Fields>>();
  return (language) => {
    if (language === spoken) return known;
    const values = others.get(language) ?? inLanguage(language, read);
    others.set(language, values);
    return values;
  };
};

const understand = (
  layoutId: string,
  inputs: Inputs,
  among: readonly Layout[],
  findCalibration: FindCalibration,
): Understood => {
  const layout = findLayout(layoutId, among);
  const issues: Issue[] = [];
  const given = spellInputs(layout, inputs);
  const { texts, givenAs } = collect(issues, () => ownNames(layout, given)) ?? {
    texts: given,
    givenAs: new Map(),
  };
  const used: Record<string, string | readonly string[]> = {};
  checkNames(texts, [...listInputs(layout).keys()], issues);
  const unit = [texts.units].flat()[0]?.trim().toLowerCase();
  const bare = unit === 'in' || unit === 'mm' ? unit : undefined;
  const read = <F extends Fields>(fields: F) => readFields(fields, { texts, givenAs }, bare, issues, used);
  // A stock's own faults speak in the units of the request too.
  const typed = bare ?? guessUnits(layout, texts);
  const readValues = (): Values<Fields> =>
    inUnits(typed, () => readFields(layout.fields, { texts, givenAs }, bare, issues, used));
  const values = readValues();
  const {
    paper: paperText,
    margin,
    printer: printerName,
    calibration,
    notesPaper: notesText,
    sheets: sheetNames,
    equal,
    language = 'en',
    ...laid
  } = read(pagingFields);
  const { units = typed, fraction, feet: feetText, paperThickness: thickness } = read(settingFields);
  const { quantity, ...titles } = read(titleFields);
  const title = { ...titles, quantity: quantity?.toString() };

  const paperName = paperText ?? (units === 'in' ? 'letter' : 'a4');
  const paper = collect(issues, () => parsePaper(paperName));
  const notesPaper =
    notesText === undefined ? undefined : collect(issues, () => parsePaper(notesText, 'notes-paper'));
  // A label printer prints nearer to the edge than any other.
  const isNarrow = paper !== undefined && isNarrowRoll(paper) && texts.margin === undefined;
  if (isNarrow) used.margin = formatExactMm(narrowMargin);
  const printer =
    paper && collect(issues, () => readPrinter(printerName, calibration, paper, findCalibration));
  if (paper === undefined || issues.length > 0) throw new UserError('request', issues);
  // Last whether they were given or found, so that a print and its reprint are the same. Units would be guessed anew from a
  // spec, where defaults stand too and may show others.
  for (const name of ['units', 'paper', 'calibration']) delete used[name];
  Object.assign(used, { units, paper: paperName });
  if (printer !== undefined) used.calibration = formatCalibration(printer);
  const [denominator, feet] = [denominators[fraction], feetText === 'on'];
  const settingOn = (paperThickness: number): Setting => ({ units, denominator, feet, paperThickness });
  return {
    layout,
    values,
    valuesIn: inEach(values, readValues),
    setting: settingOn(thickness ?? usualPaper),
    cutterSetting: settingOn(thickness ?? 0),
    language,
    sheetNames,
    equal,
    paging: {
      ...laid,
      paper,
      notesPaper,
      margin: isNarrow ? { sides: narrowMargin, ends: narrowMargin } : { sides: margin[0], ends: margin[1] },
      units,
      denominator,
      feet,
      title,
      printer,
      second: languagesOf(language)[1],
    },
    spec: { layout: layout.id, ...used },
  };
};

/** Understands a request again from its spec, as it stands in a print's `soapstone.json`. */
export const readSpec = (
  spec: Spec,
  among: readonly Layout[] = layouts,
  findCalibration: FindCalibration = knowNoPrinter,
): Request => {
  checkIsKind(spec, ['layout'], 'spec', say`give the layout and its inputs, as a print carries them`);
  const { layout, ...texts } = spec;
  return readRequest(layout, texts, among, findCalibration);
};
