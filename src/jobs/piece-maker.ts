import { dirname, join } from 'node:path';
import { UserError, type Failure, type Issue } from '../issue.ts';
import { layouts } from '../layouts/registry.ts';
import { makePanels } from '../print.ts';
import type { Format } from '../render/formats.ts';
import { makeFolder, writeFile } from '../render/write-file.ts';
import { readSpec, type Request, type Spec } from '../request.ts';
import { digest } from './done-list.ts';
import { drawRequest, questionsOf, type Drawn } from './draw-request.ts';
import { renderFile } from './make.ts';
import { packPart } from './part-files.ts';

/** A file to be made of a piece; a `part` is its pages kept for a book. */
export interface Target {
  readonly file: string;
  readonly format: Format | 'part';
}

/** One piece to be made, as plain data: it may go to another thread. */
export interface Order {
  readonly folder: string;
  readonly spec: Spec;
  /** Nothing is written where there are none: the piece is only tried. */
  readonly targets: readonly Target[];
  /** Lets the piece have any number of pages. */
  readonly isSure: boolean;
}

/** What became of it, as plain data too. */
export type Outcome =
  | {
      readonly kind: 'made';
      readonly identity: string;
      readonly pages: number;
      /** Size of the first page, mm. */
      readonly page: { readonly width: number; readonly height: number } | undefined;
      /** What looks wrong in what was asked. */
      readonly questions: readonly string[];
      /** Digests of the files' bytes, in the order of the targets. */
      readonly contents: readonly string[];
    }
  | { readonly kind: 'issues'; readonly failure: Failure; readonly issues: readonly Issue[] }
  | { readonly kind: 'fault'; readonly stack: string };

const renderPart = async (request: Request, { book, sheets, identity }: Drawn): Promise<Uint8Array> => {
  const [{ writePages }, { recordSheet }] = await Promise.all([
    import('../render/pdf.ts'),
    import('../render/pdf-record.ts'),
  ]);
  return packPart({
    title: book.title,
    subject: book.subject,
    sheets: book.sheets.map(recordSheet),
    identity,
    pages: await writePages(book),
    panels: makePanels(request, sheets).map(({ width, height }) => ({ width, height })),
  });
};

const writeTarget = async (
  folder: string,
  { file, format }: Target,
  request: Request,
  drawn: Drawn,
): Promise<string> => {
  const bytes = await (format === 'part' ? renderPart(request, drawn) : renderFile(format, drawn));
  const path = join(folder, file);
  if (format === 'part') await makeFolder(dirname(path), 'output');
  await writeFile(path, bytes);
  return digest(bytes);
};

/** Draws a piece and writes its files, each whole or not at all. `known` is what its spec says, where that is read already. */
export const makePiece = async (order: Order, known?: Request): Promise<Outcome> => {
  const { folder, spec, targets, isSure } = order;
  try {
    const request = known ?? readSpec(spec, layouts);
    const drawn = drawRequest(request, isSure);
    const contents: string[] = [];
    for (const target of targets) contents.push(await writeTarget(folder, target, request, drawn));
    const { pages } = drawn.book;
    const [page] = pages;
    return {
      kind: 'made',
      identity: drawn.identity,
      pages: pages.length,
      page: page && { width: page.width, height: page.height },
      questions: questionsOf(drawn.sheets),
      contents,
    };
  } catch (error) {
    if (error instanceof UserError) return { kind: 'issues', failure: error.failure, issues: error.issues };
    return { kind: 'fault', stack: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
};
