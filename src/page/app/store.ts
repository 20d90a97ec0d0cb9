import { createStore, get, set } from 'idb-keyval';
import type { Profiles } from '../core/printers.ts';
import type { Language } from '../../words/languages.ts';
import type { Asked } from '../core/views.ts';

/** What the page keeps on the device. */
interface Kept {
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
