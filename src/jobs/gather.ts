import type { PaperSize } from '../paging/options.ts';
import { mostPieces, type PiecesPage, planPieces } from '../paging/pieces-page.ts';
import type { Request } from '../request.ts';
import type { Work } from './plan.ts';

/** What a book must know of a piece before it is bound. */
export interface Bindable {
  readonly work: Work;
  readonly subject: string;
  readonly identity: string;
  /** How many pages it takes by itself. */
  readonly pages: number;
  /** Sizes of the ways it may be made on a page with other pieces; none where it stays by itself. */
  readonly panels: readonly PaperSize[];
}

/** Pieces whose pages follow one another: one with pages of its own, or several on a page. */
export type Gathered =
  | { readonly kind: 'own'; readonly piece: Bindable }
  | { readonly kind: 'shared'; readonly pieces: readonly Bindable[]; readonly plan: PiecesPage };

/** What must be alike where pieces share a page. */
const pageKey = ({ paging, language }: Request): string => {
  const { paper, orientation, margin, printer, second, title } = paging;
  return JSON.stringify([paper, orientation, margin, printer, second, title.supersededBy, language]);
};

/** Pieces in their order, those that follow each other on shared pages where two and more go on one. */
export const gatherPieces = (pieces: readonly Bindable[]): readonly Gathered[] => {
  const gathered: Gathered[] = [];
  for (let i = 0; i < pieces.length;) {
    const [first, ...others] = pieces.slice(i, i + mostPieces);
    if (!first) break;
    const { request } = first.work.piece;
    const key = pageKey(request);
    const other = others.findIndex(({ work }) => pageKey(work.piece.request) !== key);
    const alike = [first, ...(other < 0 ? others : others.slice(0, other))];
    const plan = planPieces(
      alike.map(({ panels }) => panels),
      { ...request.paging, identity: '' },
    );
    gathered.push(
      plan
        ? { kind: 'shared', pieces: alike.slice(0, plan.places.length), plan }
        : { kind: 'own', piece: first },
    );
    i += plan?.places.length ?? 1;
  }
  return gathered;
};
