import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** Gives the bytes of the lettering font (TrueType), regular or bold. */
export type FontSource = (bold: boolean) => Uint8Array;

/** DejaVu Sans Condensed as installed with the package. A page in a browser supplies a source of its own instead. */
export const readFontFile: FontSource = (bold) => {
  const name = bold ? 'DejaVuSansCondensed-Bold' : 'DejaVuSansCondensed';
  return readFileSync(createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`));
};
