import type { Laid, Prepared } from './lay-sheet.ts';
import type { PagingOptions } from './options.ts';

/** The first sheets of a list on one page together, as many as go there; undefined where not even two do. */
export const packSheets = (
  _sheets: readonly Prepared[],
  _options: PagingOptions,
): { readonly laid: Laid; readonly count: number } | undefined => undefined;
