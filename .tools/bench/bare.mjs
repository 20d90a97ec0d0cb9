/**
 * What is measured against: a script that only draws the marks of finished pages with pdfkit, in the published fonts, without
 * layout, layers or record. `bare.mjs MARKS.json TIMES OUT`: draws the pieces of MARKS so many times, into OUT.pdf as one book or
 * into the folder OUT as files, and says how long it took, ms, without starting up and reading the marks.
 */
import { createWriteStream, readFileSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import PDFDocument from 'pdfkit';

const [marksFile, times, out] = process.argv.slice(2);
const pieces = JSON.parse(readFileSync(marksFile, 'utf8'));
const fonts = ['DejaVuSansCondensed', 'DejaVuSansCondensed-Bold'].map((name) =>
  createRequire(import.meta.url).resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`),
);
const points = 72 / 25.4;

const drawPage = (doc, { width, height, marks }) => {
  doc.addPage({ size: [width * points, height * points], margin: 0 });
  doc.transform(points, 0, 0, -points, 0, height * points);
  for (const mark of marks) {
    if (mark.kind === 'text') {
      const [cos, sin] = [Math.cos(mark.angle), Math.sin(mark.angle)];
      doc.save().transform(cos, sin, sin, -cos, mark.at.x, mark.at.y);
      doc.font(mark.bold ? 'bold' : 'plain').fontSize(mark.height / 0.729);
      doc.text(mark.text, 0, 0, { lineBreak: false }).restore();
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
};

const open = (file) => {
  const doc = new PDFDocument({ autoFirstPage: false, margin: 0 });
  const written = new Promise((resolve) => doc.pipe(createWriteStream(file)).on('finish', resolve));
  doc.registerFont('plain', fonts[0]);
  doc.registerFont('bold', fonts[1]);
  return { doc, written };
};

const begin = performance.now();
if (statSync(out, { throwIfNoEntry: false })?.isDirectory()) {
  for (let i = 0; i < Number(times); i++) {
    const { doc, written } = open(join(out, `${i}.pdf`));
    for (const page of pieces[i % pieces.length]) drawPage(doc, page);
    doc.end();
    await written;
  }
} else {
  const { doc, written } = open(out);
  for (let i = 0; i < Number(times); i++) {
    for (const page of pieces[i % pieces.length]) drawPage(doc, page);
    // pdfkit has no brake: without a turn of the event loop the whole file would stand in memory.
    await new Promise((resolve) => setImmediate(resolve));
  }
  doc.end();
  await written;
}
process.stdout.write(`${performance.now() - begin}\n`);
