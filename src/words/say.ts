/** Texts of one language by their English, placeholders by position: `Wrap the band around the {0}.` */
export type Catalog = ReadonlyMap<string, string>;

/** What may stand in a text. */
type Part = string | number | bigint | boolean | undefined;

/** The language in force; English has no catalog, its texts stand in the code. */
let catalog: Catalog | undefined;

/** The English of each template in the code, with `{0}` and on for what stands in it. */
const keys = new WeakMap<TemplateStringsArray, string>();

const keyOf = (strings: TemplateStringsArray): string => {
  const known = keys.get(strings);
  if (known !== undefined) return known;
  const key = strings.reduce((text, part, i) => `${text}{${i - 1}}${part}`);
  keys.set(strings, key);
  return key;
};

/** A text that people read, in the language in force; what the catalog lacks stays English. */
export const say = (strings: TemplateStringsArray, ...parts: readonly Part[]): string => {
  const translated = catalog?.get(keyOf(strings));
  if (translated === undefined)
    return strings.reduce((text, string, i) => `${text}${String(parts[i - 1])}${string}`);
  return translated.replace(/\{(\d+)\}/g, (_, place: string) => String(parts[Number(place)]));
};

/** A text that was declared in English, where it is shown: help of inputs, summaries, names of sheets. */
export const translate = (text: string): string => catalog?.get(text) ?? text;

/** A text that is another word in one place, which `of` names: a leg of a wye is no leg of an angle. */
export const translateOf = (of: string, text: string): string =>
  catalog?.get(`${of}: ${text}`) ?? translate(text);

/** A name where people read it: `gore 3` is known by `gore`. */
export const translateName = (name: string): string => numbered(name, translate);

/** The same of a sheet, whose name may be another word than that of a part: `leg 2` of a wye. */
export const translateSheet = (name: string): string =>
  numbered(name, (words) => translateOf('sheet', words));

const numbered = (name: string, inWords: (words: string) => string): string =>
  name.replace(/^(.*?)((?: \d+)?)$/, (_, words: string, number: string) => `${inWords(words)}${number}`);

/** Runs something in a language; undefined stands for English. Nothing that waits may run in it. */
export const withCatalog = <T>(used: Catalog | undefined, run: () => T): T => {
  const before = catalog;
  catalog = used;
  try {
    return run();
  } finally {
    catalog = before;
  }
};

/** Whether a language's texts are those in force. */
export const isInForce = (used: Catalog | undefined): boolean => catalog === used;

/** The language from now on, for a program that speaks one. */
export const setCatalog = (used: Catalog | undefined): void => {
  catalog = used;
};
