import type { BookView, PageView } from '../core/views.ts';

const svgOf = ({ width, height, picture, label }: PageView): SVGSVGElement => {
  const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  svg.setAttribute('viewBox', picture.view.join(' '));
  svg.setAttribute('width', `${width}mm`);
  svg.setAttribute('height', `${height}mm`);
  svg.setAttribute('class', 'drawing');
  svg.setAttribute('aria-label', label);
  svg.innerHTML = picture.content;
  return svg;
};

/** A print page for each size of paper: the browser must neither scale nor add margins. */
const rulesFor = (pages: readonly PageView[]): string => {
  const sizes = new Map(pages.map(({ width, height }) => [nameSize(width, height), { width, height }]));
  return [...sizes]
    .map(
      ([name, { width, height }]) =>
        `@page ${name}{size:${width}mm ${height}mm;margin:0}.${name}{page:${name}}`,
    )
    .join('');
};

const nameSize = (width: number, height: number): string =>
  `size-${width.toFixed(1)}-${height.toFixed(1)}`.replaceAll('.', '_');

/** Prints a book from the browser, every page on its own paper at true size. */
export const printBook = async ({ pages, title }: BookView): Promise<void> => {
  const stack = document.createElement('div');
  stack.id = 'print';
  for (const page of pages) {
    const sheet = document.createElement('section');
    sheet.className = nameSize(page.width, page.height);
    sheet.append(svgOf(page));
    stack.append(sheet);
  }
  const style = new CSSStyleSheet();
  style.replaceSync(rulesFor(pages));
  const [before, name] = [document.adoptedStyleSheets, document.title];
  document.adoptedStyleSheets = [...before, style];
  document.title = title;
  document.body.append(stack);
  await document.fonts.ready;
  const clear = (): void => {
    stack.remove();
    document.adoptedStyleSheets = before;
    document.title = name;
  };
  addEventListener('afterprint', clear, { once: true });
  print();
};
