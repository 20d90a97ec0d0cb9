/** The words of a command line as a shell splits them. */
const splitWords = (line: string): readonly string[] =>
  [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare ?? '');

/** A printed command line as a layout and its inputs; a flag alone is yes. */
export const readCommand = (
  line: string,
): { readonly layout: string; readonly texts: Readonly<Record<string, readonly string[]>> } => {
  const [layout = '', ...words] = splitWords(line);
  const texts: Record<string, string[]> = {};
  words.forEach((word, i) => {
    if (!word.startsWith('--')) return;
    const value = words[i + 1];
    const flag = value === undefined || /^-(?![\d.])/.test(value);
    (texts[word.slice(2)] ??= []).push(flag ? 'yes' : value);
  });
  return { layout, texts };
};
