import type { PdfDocument } from './pdf-document.ts';

/** The operators of the current page, kept until it is drawn: one large piece is handed on much faster than thousands. */
export interface PageContent {
  /** Adds operators with their operands, ASCII. */
  write(operators: string): void;
  /** Hands what was written since the last time to the document's current page. */
  flush(): void;
}

export const createContent = (doc: PdfDocument): PageContent => {
  const encoder = new TextEncoder();
  let lines: string[] = [];
  return {
    write(operators) {
      lines.push(operators);
    },
    flush() {
      if (lines.length > 0) doc.addContent(encoder.encode(`${lines.join('\n')}\n`));
      lines = [];
    },
  };
};
