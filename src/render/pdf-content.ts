import { joinBytes } from './bytes.ts';
import type { PdfDocument } from './pdf-document.ts';

/** The operators of the current page with their operands, kept as bytes until the page is drawn. */
export interface PageContent {
  /** Adds words and operators as they stand, ASCII. A space or the end of the line must follow. */
  readonly write: (text: string) => void;
  /** Adds a number, to a millionth (of a point: 1.8e-7 mm) and never with a power of ten, and a space. */
  readonly number: (value: number) => void;
  /** Adds an operator and ends its line. */
  readonly operator: (name: string) => void;
  /** The whole content of the document's page, what pdfkit began it with included; then this one is empty again. */
  readonly take: () => Uint8Array;
}

const [space, lineEnd, point, minus, zero] = [32, 10, 46, 45, 48];
const millionth = 1e6;
/** No number takes more: sign, nine places, point, six places, space. */
const longestNumber = 18;

/** Bytes that grow. */
interface Ink {
  bytes: Uint8Array;
  at: number;
}

const makeRoom = (ink: Ink, more: number): void => {
  if (ink.at + more <= ink.bytes.length) return;
  const larger = new Uint8Array(2 * (ink.at + more));
  larger.set(ink.bytes.subarray(0, ink.at));
  ink.bytes = larger;
};

const addText = (ink: Ink, text: string): void => {
  makeRoom(ink, text.length + 1);
  for (let i = 0; i < text.length; i += 1) ink.bytes[ink.at++] = text.charCodeAt(i);
};

/** Adds a whole number with at least so many places. */
const addWhole = (ink: Ink, value: number, places: number): void => {
  let count = 1;
  for (let rest = value; rest >= 10; rest = Math.floor(rest / 10)) count += 1;
  count = Math.max(count, places);
  let rest = value;
  for (let i = ink.at + count - 1; i >= ink.at; i -= 1) {
    const tens = Math.floor(rest / 10);
    ink.bytes[i] = zero + rest - 10 * tens;
    rest = tens;
  }
  ink.at += count;
};

const addNumber = (ink: Ink, value: number): void => {
  if (!(Math.abs(value) < 1e9)) throw new Error(`not a number for a page: ${value}`);
  makeRoom(ink, longestNumber);
  const rounded = Math.round(value * millionth);
  const size = Math.abs(rounded);
  if (rounded < 0) ink.bytes[ink.at++] = minus;
  const whole = Math.floor(size / millionth);
  addWhole(ink, whole, 1);
  let rest = size - whole * millionth;
  if (rest > 0) {
    ink.bytes[ink.at++] = point;
    let places = 6;
    for (; rest % 10 === 0; rest /= 10) places -= 1;
    addWhole(ink, rest, places);
  }
  ink.bytes[ink.at++] = space;
};

export const createContent = (doc: PdfDocument): PageContent => {
  const ink: Ink = { bytes: new Uint8Array(1 << 16), at: 0 };
  return {
    write: (text) => {
      addText(ink, text);
    },
    number: (value) => {
      addNumber(ink, value);
    },
    operator: (name) => {
      addText(ink, name);
      ink.bytes[ink.at++] = lineEnd;
    },
    take: () => {
      const whole = joinBytes([...doc.page.content.buffer, ink.bytes.subarray(0, ink.at)]);
      ink.at = 0;
      return whole;
    },
  };
};
