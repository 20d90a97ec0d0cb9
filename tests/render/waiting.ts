import type { Book } from '../../src/index.ts';
import { writePages } from '../../src/render/pdf.ts';

/** Lines of lettering on pages that wait for their book to be written, because a sign of theirs has other codes in other prints. */
export const waitingTexts = async (book: Book): Promise<string[]> =>
  (await writePages(book)).flatMap((page) =>
    'marks' in page ? page.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : [])) : [],
  );
