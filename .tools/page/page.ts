/** Builds the page, one HTML file, into `dist/page`, and with a folder named also writes it there as `soapstone.html`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildPage } from './build-page.ts';

const root = join(import.meta.dirname, '../..');
const { html, keeper } = await buildPage(root);
const dist = join(root, 'dist/page');
mkdirSync(dist, { recursive: true });
writeFileSync(join(dist, 'page.html'), html);
writeFileSync(join(dist, 'keeper.js'), keeper);
const [folder] = process.argv.slice(2);
if (folder !== undefined) {
  mkdirSync(folder, { recursive: true });
  const file = join(folder, 'soapstone.html');
  writeFileSync(file, html);
  console.log(`Wrote ${file}, ${(html.length / 1e6).toFixed(2)} MB`);
}
