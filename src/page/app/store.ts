import { createStore, get, set, update } from 'idb-keyval';
import type { Profiles } from '../core/printers.ts';
import type { Language } from '../../words/languages.ts';
import type { Asked } from '../core/views.ts';

/** What the page keeps on the device. */
export interface Kept {
  /** The list of pieces. */
  readonly pieces: readonly Asked[];
  /** Layouts last used, the newest first. */
  readonly recent: readonly string[];
  readonly printers: Profiles;
  readonly light: 'auto' | 'bright' | 'dark';
  readonly language: Language;
}

let store: ReturnType<typeof createStore> | undefined;
const open = (): ReturnType<typeof createStore> => (store ??= createStore('soapstone', 'kept'));

/** What is kept under a name; undefined where nothing is, or the browser keeps nothing for this page. */
export const readKept = async <K extends keyof Kept>(name: K): Promise<Kept[K] | undefined> => {
  try {
    return await get<Kept[K]>(name, open());
  } catch {
    // A browser may keep nothing for a page opened from a file, or in a private window: the page works without.
    return undefined;
  }
};

/** Keeps a value. False where the browser keeps nothing for this page. */
export const keep = async <K extends keyof Kept>(name: K, value: Kept[K]): Promise<boolean> => {
  try {
    await set(name, value, open());
    return true;
  } catch {
    return false;
  }
};

/**
 * Changes what is kept under a name, as it is kept now: another window of the page may have changed it since. What is kept
 * then; undefined where the browser keeps nothing for this page.
 */
export const keepChanged = async <K extends keyof Kept>(
  name: K,
  change: (kept: Kept[K] | undefined) => Kept[K],
): Promise<Kept[K] | undefined> => {
  let next: Kept[K] | undefined;
  try {
    await update<Kept[K]>(name, (kept) => (next = change(kept)), open());
    return next;
  } catch {
    return undefined;
  }
};
