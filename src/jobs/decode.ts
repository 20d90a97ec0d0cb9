import { fileError } from '../issue.ts';
import { say } from '../words/say.ts';

const decode = (bytes: Uint8Array, encoding: string): string | undefined => {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch (error) {
    if (error instanceof TypeError) return undefined;
    throw error;
  }
};

/** UTF-16 by its byte order mark, else UTF-8; undefined where the bytes are neither. */
const decodeEither = (bytes: Uint8Array): string | undefined => {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return decode(bytes, 'utf-16le');
  if (first === 0xfe && second === 0xff) return decode(bytes, 'utf-16be');
  return decode(bytes, 'utf-8');
};

const notUnicode = (file: string) =>
  fileError('', 'not-utf8', say`${file} is not written in UTF-8`, say`save it as UTF-8 in the editor`);

/** A file's text in UTF-8, or UTF-16 with its mark. Throws a `file` UserError for bytes that are neither. */
export const decodeUnicode = (bytes: Uint8Array, file: string): string => {
  const text = decodeEither(bytes);
  if (text === undefined) throw notUnicode(file);
  return text;
};

/**
 * As `decodeUnicode`, and the other way in which spreadsheets save their lists: Windows-1252. No list holds a NUL; UTF-16
 * that has lost its mark does.
 */
export const decodeSpreadsheet = (bytes: Uint8Array, file: string): string => {
  const text = decodeEither(bytes) ?? decode(bytes, 'windows-1252') ?? '';
  if (text.includes('\0')) throw notUnicode(file);
  return text;
};
