import { requestError } from '../issue.ts';
import type { Book } from '../paging/book.ts';

/** Most pages made of one request unless the person is sure. */
export const pageLimit = 400;

/** Throws a `request` UserError for a book longer than anybody means to print. */
export const refuseLongBook = (book: Book, isSure: boolean): void => {
  if (book.pages.length <= pageLimit || isSure) return;
  throw requestError(
    'paper',
    'many-pages',
    `this makes ${book.pages.length} pages, more than ${pageLimit}`,
    'choose larger paper, or add --yes to make them all',
  );
};
