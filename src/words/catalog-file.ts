import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** The catalog of a language in `shared/words`, as JSON. A page in a browser carries it instead. */
export const readCatalogFile = (language: 'es'): string =>
  readFileSync(createRequire(import.meta.url).resolve(`#words/${language}.json`), 'utf8');
