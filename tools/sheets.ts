/**
 * Prints a standard set of real sheets into `out/`, through the command line as a fitter would.
 * Run: npm run sheets
 */
import { mkdirSync } from 'node:fs';
import { join, relative } from 'node:path';
import { main } from '../src/cli/main.ts';

/** File name and command line of each sheet: both papers, small and large, every template. */
const sheets: Readonly<Record<string, readonly string[]>> = {
  'band-nps-4': ['band', '--pipe', 'NPS 4 sch 40', '--paper', 'letter'],
  'band-dn-100': ['band', '--pipe', 'DN 100 sch 40S', '--mark', '37.5:lug', '--paper', 'a4'],
  'miter-nps-6-22.5': ['miter', '--pipe', 'NPS 6 sch 40', '--cut', '22.5deg', '--paper', 'letter'],
  'miter-dn-200-45': ['miter', '--pipe', 'DN 200 sch 40', '--cut', '45deg', '--paper', 'a4'],
  'tee-nps-3-on-6': ['branch', '--branch', 'NPS 3 sch 40', '--header', 'NPS 6 sch 40', '--paper', 'letter'],
  'lateral-dn-80-on-dn-150': ['branch', '--branch', 'DN 80 sch 40', '--header', 'DN 150 sch 40', '--angle', '60deg', '--paper', 'a4'], // prettier-ignore
  'equal-tee-nps-4': ['branch', '--branch', 'NPS 4 sch 40', '--header', 'NPS 4 sch 40', '--paper', 'letter'],
  'offset-set-in-dn-50-on-dn-200': ['branch', '--branch', 'DN 50 sch 80', '--header', 'DN 200 sch 40', '--offset', '40mm', '--set', 'in', '--gap', '2mm', '--paper', 'a4'], // prettier-ignore
  'lateral-nps-12-on-24': ['branch', '--branch', 'NPS 12 sch 40', '--header', 'NPS 24 sch 40', '--angle', '45deg', '--paper', '36in-roll'], // prettier-ignore
};

const folder = join(import.meta.dirname, '../out');
mkdirSync(folder, { recursive: true });
for (const [name, words] of Object.entries(sheets)) {
  const files = ['pdf', 'csv'].flatMap((kind) => ['-o', relative('', join(folder, `${name}.${kind}`))]);
  const code = await main([...words, ...files]);
  if (code !== 0) throw new Error(`${name} ended with ${code}`);
}
