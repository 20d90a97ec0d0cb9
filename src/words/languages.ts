import { readCatalogFile } from './catalog-file.ts';
import { isInForce, setCatalog, withCatalog, type Catalog } from './say.ts';

/** Languages that people are spoken to in. */
export const languages = ['en', 'es'] as const;
export type Language = (typeof languages)[number];

/** What may be asked for: one language, or sheets in two, the first one leading. */
export const languageChoices = [...languages, 'en+es'] as const;
export type LanguageChoice = (typeof languageChoices)[number];

/** The languages of a choice in their order. */
export const languagesOf = (choice: LanguageChoice): readonly [Language, Language?] =>
  choice === 'en+es' ? ['en', 'es'] : [choice];

let spanish: Catalog | undefined;

const catalogOf = (language: Language): Catalog | undefined => {
  if (language === 'en') return undefined;
  spanish ??= new Map(Object.entries(JSON.parse(readCatalogFile(language)) as Record<string, string>));
  return spanish;
};

/** Runs something in a language; nothing that waits may run in it. */
export const inLanguage = <T>(language: Language, run: () => T): T => withCatalog(catalogOf(language), run);

/** The language in force. */
export const languageSpoken = (): Language =>
  languages.find((language) => isInForce(catalogOf(language))) ?? 'en';

/** The language from now on. */
export const speak = (language: Language): void => setCatalog(catalogOf(language));

/** The choice that a text stands for; English where it stands for none. */
export const readLanguage = (text: string | undefined): LanguageChoice =>
  languageChoices.find((choice) => choice === text?.trim().toLowerCase()) ?? 'en';

/** A language's texts, for a program part that does not carry them. */
export const listTexts = (language: Language): string | undefined =>
  language === 'en' ? undefined : readCatalogFile(language);
