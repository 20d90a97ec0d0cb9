import { translate } from './say.ts';

/** An input's or a template's name as a caption: `seam-allowance` is `Seam allowance`. */
export const plainCaption = (name: string): string => {
  const plain = name.replaceAll('-', ' ');
  return plain.charAt(0).toUpperCase() + plain.slice(1);
};

/** The caption of an input or a template in the language in force. One name may mean something else on one template. */
export const captionOf = (name: string, layout = ''): string => {
  const own = `${layout} --${name}`;
  const said = translate(own);
  return said === own ? translate(plainCaption(name)) : said;
};

/** An input's or a template's name within a sentence: as it is typed in English, else its caption with a small letter. */
export const nameOf = (name: string, layout = ''): string => {
  const caption = captionOf(name, layout);
  return caption === plainCaption(name) ? name : caption.charAt(0).toLowerCase() + caption.slice(1);
};
