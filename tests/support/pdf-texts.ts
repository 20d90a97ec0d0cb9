import { PDFParse } from 'pdf-parse';

/** The text of each page, in page order, as a reader other than ours extracts it (pdf-parse). */
export async function readTexts(bytes: Uint8Array): Promise<string[]> {
  // The parser takes the buffer over, so it gets its own copy.
  const parser = new PDFParse({ data: new Uint8Array(bytes) });
  try {
    const { pages } = await parser.getText();
    return pages.map((page) => page.text);
  } finally {
    await parser.destroy();
  }
}
