import { readCode } from './code.ts';
import { factFinding, type Finding } from './finding.ts';
import { readPageText, type Fonts } from './font-checks.ts';
import { hull } from './ink-checks.ts';
import type { PdfFile, PdfPage } from './pdf-reader.ts';
import { say } from '../words/say.ts';

const MM = 25.4 / 72;
/** Sides of a symbol's modules, mm, and of the whole symbol: as the program draws it, a printer's correction allowed for. */
const module = { least: 0.2, most: 1 } as const;
const side = { least: 8, most: 20 } as const;
/** Fewer modules are no symbol. */
const fewest = 40;
/** Pixels to a millimetre, and white round the symbol, in pixels. */
const FINE = 20;
const QUIET = 60;

/** A print's identity: Crockford's base 32, eight signs in two groups. */
const identity = /^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$/;

type Box = ReturnType<typeof hull>;

/** The black upright rectangles of a symbol's modules, mm. */
const modulesOf = ({ fills }: PdfPage): readonly Box[] =>
  fills.flatMap(({ layer, path, colour }) => {
    const [only, ...more] = path;
    const isPlain = only?.segments.every(({ kind }) => kind === 'line') === true && only.segments.length <= 5;
    if (layer !== 'page' || more.length > 0 || !isPlain || colour.some((part) => part !== 0)) return [];
    const { minX, minY, maxX, maxY } = hull(path);
    const box = { minX: minX * MM, minY: minY * MM, maxX: maxX * MM, maxY: maxY * MM };
    const height = box.maxY - box.minY;
    return height >= module.least && height <= module.most && box.maxX - box.minX >= module.least
      ? [box]
      : [];
  });

/** Modules nearer than this belong to one symbol, mm; between symbols there is more white. */
const near = 3;

/** Boxes in groups, each nearer than `near` to another of its group. */
const gatherSymbols = (boxes: readonly Box[]): readonly (readonly Box[])[] => {
  const cellOf = ({ minX, minY }: Box): readonly [number, number] => [
    Math.floor(minX / near),
    Math.floor(minY / near),
  ];
  const cells = new Map<string, Box[]>();
  for (const box of boxes) {
    const key = cellOf(box).join();
    const cell = cells.get(key) ?? [];
    cell.push(box);
    cells.set(key, cell);
  }
  const groups: Box[][] = [];
  for (const start of cells.keys()) {
    const group: Box[] = [];
    const open = [start];
    for (let key = open.pop(); key !== undefined; key = open.pop()) {
      const found = cells.get(key);
      if (found === undefined) continue;
      cells.delete(key);
      for (const box of found) group.push(box);
      const [x = 0, y = 0] = key.split(',').map(Number);
      for (const dx of [-1, 0, 1]) for (const dy of [-1, 0, 1]) open.push(`${x + dx},${y + dy}`);
    }
    if (group.length > 0) groups.push(group);
  }
  return groups;
};

/** A symbol as a gray picture. */
const paintCode = (
  modules: readonly Box[],
): { gray: Uint8Array; width: number; height: number } | undefined => {
  if (modules.length < fewest) return undefined;
  const whole = modules.reduce((a, b) => ({
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  }));
  const [wide, high] = [whole.maxX - whole.minX, whole.maxY - whole.minY];
  if ([wide, high].some((length) => length < side.least || length > side.most)) return undefined;
  const dots = (length: number): number => Math.ceil(length * FINE) + 2 * QUIET;
  const [width, height] = [dots(wide), dots(high)];
  const gray = new Uint8Array(width * height).fill(255);
  for (const box of modules) {
    const [left, right] = [box.minX, box.maxX].map((x) => Math.round((x - whole.minX) * FINE) + QUIET);
    const [top, bottom] = [box.maxY, box.minY].map((y) => Math.round((whole.maxY - y) * FINE) + QUIET);
    for (let y = top ?? 0; y < (bottom ?? 0); y += 1)
      gray.fill(0, y * width + (left ?? 0), y * width + (right ?? 0));
  }
  return { gray, width, height };
};

/** The codes of each page that has some, each against the identity printed on that page. */
export const checkCodes = (file: PdfFile, fonts: Fonts): readonly Finding[] => {
  const wrong: string[] = [];
  let read = 0;
  for (const page of file.pages) {
    const pictures = gatherSymbols(modulesOf(page)).flatMap((modules) => paintCode(modules) ?? []);
    if (pictures.length === 0) continue;
    const printed = readPageText(page, fonts).flatMap(({ text }) => (identity.test(text) ? [text] : []));
    for (const picture of pictures) {
      read += 1;
      const found = readCode(picture.gray, picture.width, picture.height);
      const said = found?.text.split(' ').at(-1) ?? '';
      if (!printed.includes(said))
        wrong.push(
          say`${page.label}: the code says ${said.slice(0, 20) || 'nothing'}, the page ${printed[0] ?? say`nothing`}`,
        );
    }
  }
  return read === 0
    ? []
    : [
        factFinding(
          say`codes`,
          say`all pages`,
          wrong.length === 0,
          wrong.length === 0 ? say`${read} read` : wrong.slice(0, 3).join('; '),
          say`the identity printed beside them`,
        ),
      ];
};
