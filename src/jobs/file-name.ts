import { isRequired, listInputs } from '../fields/describe.ts';
import type { Request } from '../request.ts';

/** Longest name without its extension, in bytes: file systems take 255 and some tools add to it. */
const longest = 120;

/** Names that Windows keeps for devices, whatever extension follows. */
const device = /^(?:con|prn|aux|nul|conin\$|conout\$|com[0-9¹²³]|lpt[0-9¹²³])(?:\.|$)/i;

const slug = (text: string): string => text.replace(/[^\p{L}\p{N}.]+/gu, '-').replace(/^[-.]+|[-.]+$/g, '');

const byteLength = (text: string): number => new TextEncoder().encode(text).length;

const shorten = (text: string, limit = longest): string => {
  let short = text;
  while (byteLength(short) > limit) short = [...short].slice(0, -1).join('');
  return short.replace(/[-.]+$/, '');
};

/**
 * A text as the name of a file without its extension: letters, digits, hyphens and inner dots alone, so that it names a file
 * of the folder it is put in and no other, on every system. Undefined where nothing is left of it.
 */
export const nameFile = (text: string): string | undefined => {
  const name = shorten(slug(text.normalize('NFC')));
  if (name === '') return undefined;
  return device.test(name) ? `piece-${name}` : name;
};

const some = '-only';

/** The name of a book of some pieces of its job, so that the book of all of them stays as it is. */
export const nameBookOfSome = (book: string): string =>
  `${shorten(book.replace(/\.pdf$/, ''), longest - some.length)}${some}.pdf`;

/** Two names that some system takes for the same file have the same key. */
export const fileKey = (file: string): string => file.normalize('NFC').toLowerCase();

const listGiven = ({ layout, spec }: Request): readonly string[] =>
  [...listInputs(layout)]
    .slice(0, Object.keys(layout.fields).length)
    .filter(([name, field]) => spec[name] !== undefined && spec[name] !== field.default)
    .flatMap(([name, field]) =>
      isRequired(field) ? [spec[name] ?? ''].flat() : [name, spec[name] ?? ''].flat(),
    );

/** The name of a file nobody named: the piece's mark and what was asked for, so that other requests get other names. */
export const nameRequest = (request: Request): string => {
  const { layout, spec } = request;
  const words = [spec.piece ?? [], layout.id, listGiven(request)].flat().map(slug);
  return nameFile(words.filter((word) => word !== '').join('-')) ?? layout.id;
};
