import { captionOf } from '../../words/captions.ts';

/** The first letter large. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A text of the command line for the page, where inputs have captions: `--set-on` is “Set on”. */
export const spoken = (text: string): string =>
  text.replace(/--([a-z][a-z-]*)/g, (_, name: string) => `“${captionOf(name)}”`);
