/**
 * A word as a shell takes it whole, for commands that people copy. Double quotes, which every shell knows, where the word holds
 * nothing that they leave alive; single quotes (POSIX shells) for the rest.
 */
export const quoteWord = (word: string): string =>
  /^[\p{L}\p{N}./+_:=@%,-]+$/u.test(word) && !word.startsWith('-')
    ? word
    : /["$`\\!%]/.test(word)
      ? `'${word.replaceAll("'", `'\\''`)}'`
      : `"${word}"`;

/** A file name as one word that no program takes for an option. */
export const quoteFile = (file: string): string => quoteWord(file.startsWith('-') ? `./${file}` : file);
