import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** Gives the bytes of the lettering font (TrueType), regular or bold. */
export type FontSource = (bold: boolean) => Uint8Array;

/** The two faces in `shared/fonts`. A page in a browser supplies a source of its own instead. */
export const readFontFile: FontSource = (bold) =>
  readFileSync(createRequire(import.meta.url).resolve(`#fonts/lettering${bold ? '-bold' : ''}.ttf`));
