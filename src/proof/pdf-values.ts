import { say } from '../words/say.ts';

/** The objects of a PDF file (ISO 32000-1 §7.3), and an operator of a content stream. */
export type PdfName = { readonly kind: 'name'; readonly name: string };
export type PdfText = { readonly kind: 'string'; readonly raw: string };
export type PdfRef = { readonly kind: 'ref'; readonly id: number; readonly generation: number };
export type PdfOperator = { readonly kind: 'operator'; readonly name: string };
export type PdfDict = ReadonlyMap<string, PdfValue>;
export type PdfStream = { readonly kind: 'stream'; readonly dict: PdfDict; readonly raw: string };
export type PdfValue =
  | null
  | boolean
  | number
  | PdfName
  | PdfText
  | PdfRef
  | PdfOperator
  | PdfStream
  | PdfDict
  | readonly PdfValue[];

/** Follows a reference to its object; any other value is its own. */
export type Resolve = (value: PdfValue | undefined) => PdfValue | undefined;

const hasKind = <K extends string>(
  value: PdfValue | undefined,
  kind: K,
): value is Extract<PdfValue, { kind: K }> =>
  typeof value === 'object' && value !== null && 'kind' in value && value.kind === kind;
export const isRef = (value: PdfValue | undefined): value is PdfRef => hasKind(value, 'ref');
export const isStream = (value: PdfValue | undefined): value is PdfStream => hasKind(value, 'stream');
export const isOperator = (value: PdfValue | undefined): value is PdfOperator => hasKind(value, 'operator');
export const isName = (value: PdfValue | undefined): value is PdfName => hasKind(value, 'name');
export const isDict = (value: PdfValue | undefined): value is PdfDict => value instanceof Map;
export const isArray = (value: PdfValue | undefined): value is readonly PdfValue[] => Array.isArray(value);
export const isText = (value: PdfValue | undefined): value is PdfText => hasKind(value, 'string');

const wrong = (want: string, got: PdfValue | undefined): never => {
  throw new Error(`PDF: expected ${want}, found ${tellValue(got)}`);
};

/** A value in a few words, for a finding. */
export const tellValue = (value: PdfValue | undefined): string => {
  if (value === undefined || value === null) return say`nothing`;
  if (typeof value !== 'object') return String(value);
  if (isDict(value)) return say`a dictionary`;
  if (isArray(value)) return say`a list of ${value.length}`;
  if (isName(value)) return `/${value.name.slice(0, 40)}`;
  if (isText(value)) return `(${value.raw.slice(0, 40)})`;
  return `a ${value.kind}`;
};

export const nameOf = (v: PdfValue | undefined): string => (isName(v) ? v.name : wrong(say`a name`, v));
export const numberOf = (v: PdfValue | undefined): number =>
  typeof v === 'number' ? v : wrong(say`a number`, v);
export const dictOf = (v: PdfValue | undefined): PdfDict => (isDict(v) ? v : wrong(say`a dictionary`, v));
export const arrayOf = (v: PdfValue | undefined): readonly PdfValue[] =>
  isArray(v) ? v : wrong(say`an array`, v);

/** A text string (ISO 32000-1 §7.9.2.2): UTF-16BE or UTF-8 where it says so by its first bytes, else Latin-1. */
export function textOf(value: PdfValue | undefined): string {
  const raw = isText(value) ? value.raw : wrong(say`a string`, value);
  const bytes = Buffer.from(raw, 'latin1');
  if (raw.startsWith('\xfe\xff')) return bytes.subarray(2).swap16().toString('utf16le');
  return raw.startsWith('\xef\xbb\xbf') ? bytes.subarray(3).toString('utf8') : raw;
}

/** An array of numbers. */
export const numbersOf = (value: PdfValue | undefined): readonly number[] => arrayOf(value).map(numberOf);
