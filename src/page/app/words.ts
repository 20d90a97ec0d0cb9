import { translate } from '../../words/say.ts';
import { plainCaption } from '../captions.ts';

/** The caption of an input or a template in the page's language. One name may mean something else on one template. */
export const captionOf = (name: string, layout = ''): string => {
  const own = `${layout} --${name}`;
  const said = translate(own);
  return said === own ? translate(plainCaption(name)) : said;
};

/** The first letter large. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A text of the command line for the page, where inputs have captions: `--set-on` is “Set on”. */
export const spoken = (text: string): string =>
  text.replace(/--([a-z][a-z-]*)/g, (_, name: string) => `“${captionOf(name)}”`);
