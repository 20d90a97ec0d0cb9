/** An input's name as a caption: `seam-allowance` is `Seam allowance`. */
export const captionOf = (name: string): string => {
  const plain = name.replaceAll('-', ' ');
  return plain.charAt(0).toUpperCase() + plain.slice(1);
};

/** The first letter large. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A text of the command line for the page, where inputs go by their captions: `--set-on` is “Set on”. */
export const spoken = (text: string): string =>
  text.replace(/--([a-z][a-z-]*)/g, (_, name: string) => `“${captionOf(name)}”`);
