import type { Sheet } from '../drawing/model.ts';
import type { Book } from '../paging/book.ts';
import { requestError } from '../issue.ts';
import { sceneMeshes, type PartMesh } from '../scene/mesh.ts';
import type { Scene } from '../scene/scene.ts';
import type { LengthFormat } from '../units/format.ts';
import { say } from '../words/say.ts';

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
  /** The finished parts in space; undefined where the layout makes no body. */
  readonly scene: () => Scene | undefined;
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
  stl: async ({ scene, book }) =>
    (await import('./stl.ts')).renderStl(
      finishedParts(scene()).map(({ mesh }) => mesh),
      book.title,
    ),
} as const satisfies Readonly<Record<string, Writer>>;

/** The meshes of what is made, and of what holes are cut in; what is only met is left out. */
export function finishedParts(scene: Scene | undefined): readonly PartMesh[] {
  const made = scene?.parts.filter(({ role, holed }) => role === 'work' || holed) ?? [];
  if (scene === undefined || made.length === 0)
    throw requestError(
      'output',
      'no-body',
      say`this template makes no body to write as STL`,
      say`write it as PDF, SVG, DXF or CSV`,
    );
  return sceneMeshes({ ...scene, parts: made });
}

/** A file format by its name, which is also the file's extension. */
export type Format = keyof typeof writers;

/** Names of the formats that can be written, in the order that help lists them. */
export const formats = Object.keys(writers) as readonly Format[];

/** True for the name of a format. */
export const isFormat = (name: string): name is Format => Object.hasOwn(writers, name);
