/** A print in the picture index. */
export interface Shown {
  readonly piece: string;
  readonly subject: string;
  /** The picture's file, and the page of the book it links to. */
  readonly picture: string;
  readonly page: number;
  readonly pages: number;
  readonly identity: string;
}

/** The prints of one job file. */
export interface Chapter {
  readonly title: string;
  /** The book's file. */
  readonly book: string;
  readonly shown: readonly Shown[];
}

const escape = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

const style = `
body { font: 16px/1.4 system-ui, sans-serif; margin: 2rem auto; max-width: 75rem; padding: 0 1rem; color: #000; background: #fff }
h2 { margin: 2.5rem 0 0; font-size: 1.15rem }
p { margin: 0.2rem 0 0.8rem }
ul { display: grid; grid-template-columns: repeat(auto-fill, minmax(13rem, 1fr)); gap: 1rem; list-style: none; padding: 0 }
li a { display: block; color: inherit; text-decoration: none }
img { width: 100%; height: 11rem; object-fit: contain; border: 1px solid #888; background: #fff }
a:hover img, a:focus img { border-color: #000; outline: 2px solid #000 }
b { display: block }
small { color: #333 }
`;

const writeShown = (book: string, { piece, subject, picture, page, pages, identity }: Shown): string =>
  `<li><a href="${escape(book)}#page=${page}"><img loading="lazy" src="${escape(picture)}" alt="${escape(`${piece}: ${subject}`)}"><b>${escape(piece)}</b><small>${escape(subject)}<br>${pages} ${pages === 1 ? 'page' : 'pages'}, identity ${escape(identity)}</small></a></li>`;

const writeChapter = ({ title, book, shown }: Chapter): string =>
  `<h2>${escape(title)}</h2>\n<p><a href="${escape(book)}">${escape(book)}</a></p>\n<ul>\n${shown.map((one) => writeShown(book, one)).join('\n')}\n</ul>`;

/** A page that shows every print with its picture; it needs nothing but the files beside it. */
export const writeIndex = (chapters: readonly Chapter[]): string => `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Soapstone: standard templates</title>
<style>${style}</style>
<h1>Standard templates</h1>
<p>Pictures are for choosing; print the PDFs, at 100 %, and check the rules on every page.</p>
${chapters.map(writeChapter).join('\n')}
</html>
`;
