import type { Texts } from '../../src/request.ts';

/** The inputs of an example command line; outputs and flags without a value are left out. */
export const readExample = (example: string): Texts => {
  const words = [...example.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2] ?? '');
  const texts: Record<string, string[]> = {};
  words.forEach((word, i) => {
    const value = words[i + 1];
    if (!word.startsWith('--') || value === undefined || /^--?[a-z]/.test(value)) return;
    (texts[word.slice(2)] ??= []).push(value);
  });
  return texts;
};
