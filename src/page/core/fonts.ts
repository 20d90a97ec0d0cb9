import type { FontSource } from '../../render/font-files.ts';

/**
 * Stands for `render/font-files.ts` in the page's build: the lettering font lies in the page itself, whose script hands it
 * to the worker.
 */
let faces: readonly [regular: Uint8Array, bold: Uint8Array] | undefined;

/** Takes the two faces of the lettering font (TrueType). */
export const takeFonts = (regular: Uint8Array, bold: Uint8Array): void => {
  faces = [regular, bold];
};

export const readFontFile: FontSource = (bold) => {
  if (faces === undefined) throw new Error('the lettering font has not been handed over');
  return faces[bold ? 1 : 0];
};
