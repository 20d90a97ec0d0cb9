/**
 * Compares one sheet from a cold command line with a bare pdfkit script that writes the same page in the same font.
 * Run: npm run build && npm run bench
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { makeBook, readRequest } from '../src/index.ts';

const rounds = 15;
const allowed = 1.5;
const root = join(import.meta.dirname, '..');
const texts = { pipe: 'NPS 4 sch 40', paper: 'tabloid' };
const { pages } = makeBook(readRequest('band', texts));
const [page] = pages;
if (page === undefined || pages.length > 1)
  throw new Error(`the sheet compared has ${pages.length} pages, not one`);

const font = (name: string): string =>
  createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`);

/** A script with the page's marks in it, that only draws them: no layout, no layers, no attachment. */
const bareScript = `import { createWriteStream } from 'node:fs';
import PDFDocument from 'pdfkit';
const marks = ${JSON.stringify(page.marks)};
const doc = new PDFDocument({ size: [${(page.width * 72) / 25.4}, ${(page.height * 72) / 25.4}], margin: 0 });
doc.pipe(createWriteStream(process.argv[2]));
doc.registerFont('plain', ${JSON.stringify(font('DejaVuSansCondensed'))});
doc.registerFont('bold', ${JSON.stringify(font('DejaVuSansCondensed-Bold'))});
doc.transform(72 / 25.4, 0, 0, -72 / 25.4, 0, ${(page.height * 72) / 25.4});
for (const mark of marks) {
  if (mark.kind === 'text') {
    doc.save().transform(Math.cos(mark.angle), Math.sin(mark.angle), Math.sin(mark.angle), -Math.cos(mark.angle), mark.at.x, mark.at.y);
    doc.font(mark.bold ? 'bold' : 'plain').fontSize(mark.height / 0.729).text(mark.text, 0, 0, { lineBreak: false }).restore();
    continue;
  }
  doc.moveTo(mark.path.start.x, mark.path.start.y);
  for (const part of mark.path.segments) {
    if (part.kind === 'line') doc.lineTo(part.to.x, part.to.y);
    else doc.bezierCurveTo(part.c1.x, part.c1.y, part.c2.x, part.c2.y, part.to.x, part.to.y);
  }
  if (mark.path.closed) doc.closePath();
  if (mark.kind === 'fill') doc.fill(mark.ink);
  else doc.lineWidth(mark.width).stroke();
}
doc.end();
`;

const time = (words: readonly string[]): number => {
  const start = performance.now();
  execFileSync(process.execPath, words, { stdio: 'ignore' });
  return performance.now() - start;
};

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[values.length >> 1] ?? NaN;

const cache = join(root, 'node_modules/.cache');
mkdirSync(cache, { recursive: true });
const folder = mkdtempSync(join(cache, 'bench-'));
try {
  const script = join(folder, 'bare.mjs');
  writeFileSync(script, bareScript);
  const options = Object.entries(texts).flatMap(([name, text]) => [`--${name}`, text]);
  const runs = {
    'bare pdfkit': [script, join(folder, 'bare.pdf')],
    soapstone: [join(root, 'dist/soapstone.js'), 'band', ...options, '-o', join(folder, 'band.pdf')],
  };
  const times = { 'bare pdfkit': [] as number[], soapstone: [] as number[] };
  // In turns, so that what else the machine does falls on both alike; the first turn fills the disk cache.
  for (let round = 0; round <= rounds; round++) {
    for (const name of ['bare pdfkit', 'soapstone'] as const) {
      const taken = time(runs[name]);
      if (round > 0) times[name].push(taken);
    }
  }
  const [bare, whole] = [median(times['bare pdfkit']), median(times.soapstone)];
  const ratio = whole / bare;
  process.stdout.write(
    `bare pdfkit ${bare.toFixed(0)} ms, soapstone ${whole.toFixed(0)} ms (medians of ${rounds}): ${ratio.toFixed(2)} times\n`,
  );
  if (!(ratio <= allowed)) {
    process.stderr.write(`more than ${allowed} times\n`);
    process.exitCode = 1;
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
