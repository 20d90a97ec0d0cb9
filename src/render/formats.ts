import type { Sheet } from '../drawing/model.ts';
import type { Book } from '../paging/book.ts';
import type { LengthFormat } from '../units/format.ts';

/** What the writers draw on: the sheets, and the book of pages made of them. */
export interface Made {
  readonly sheets: readonly Sheet[];
  readonly book: Book;
  /** How lengths are written. */
  readonly lengths: LengthFormat;
  /** The sheets as a cutter needs them; drawn when asked for. */
  readonly cutterSheets: () => readonly Sheet[];
  /** Pieces found to be cut, by input name, where the layout finds any. */
  readonly cutList: readonly Readonly<Record<string, string>>[] | undefined;
}

export type Writer = (made: Made) => Promise<Uint8Array>;

/** File formats by name. A new format is one line here. */
export const writers = {
  pdf: async ({ book }) => (await import('./pdf.ts')).renderPdf(book),
  csv: async ({ sheets, lengths, cutList }) => {
    const { renderCsv, renderCutList } = await import('./csv.ts');
    return new TextEncoder().encode(cutList ? renderCutList(cutList) : renderCsv(sheets, lengths));
  },
  svg: async ({ cutterSheets, book }) =>
    new TextEncoder().encode((await import('./svg.ts')).renderSvg(cutterSheets(), book.title)),
  dxf: async ({ cutterSheets }) =>
    new TextEncoder().encode((await import('./dxf.ts')).renderDxf(cutterSheets())),
} as const satisfies Readonly<Record<string, Writer>>;

/** A file format by its name, which is also the file's extension. */
export type Format = keyof typeof writers;

/** Names of the formats that can be written, in the order help tells them. */
export const formats = Object.keys(writers) as readonly Format[];

/** True for the name of a format. */
export const isFormat = (name: string): name is Format => Object.hasOwn(writers, name);
