/**
 * A layout of your own: the end of a pipe cut to a flat wall that leans. Run it from the checkout:
 *
 *     npx tsx shared/docs/own-layout.ts wall-end.pdf
 */
import { writeFileSync } from 'node:fs';
import * as soapstone from '../../src/index.ts';

const { angleField, bandFields, bandSheet, contactField, drawCutBand, endPicture, lengthOf, pickBand } =
  soapstone;
const { defineLayout, makeBook, readRequest, renderPdf, solidMate, stockField, vec3 } = soapstone;

export const wallEnd = defineLayout({
  id: 'wall-end',
  summary: 'end of a pipe that meets a flat wall at an angle',
  family: 'pipe ends',
  words: ['wall', 'stub'],
  fields: {
    stock: stockField('the pipe to be cut', { example: 'NPS 4 sch 40' }),
    slope: angleField('how far the wall leans from square', { above: 0, below: Math.PI / 3 }),
    contact: contactField('wall'),
    ...bandFields,
  },
  examples: ['wall-end --stock "NPS 4 sch 40" --slope 15'],
  draw: ({ stock, slope, contact, ...rest }, setting) => {
    const making = pickBand(rest);
    const wall: soapstone.Solid = {
      kind: 'plane',
      through: vec3(0, 0, 0),
      normal: vec3(Math.sin(slope), 0, -Math.cos(slope)),
    };
    const end = { mate: solidMate(wall), contact, gap: 0 };
    const band = drawCutBand(stock, end, making, ['LONG', '', 'SHORT', ''], setting);
    const { high, low } = band.development;
    const own: soapstone.BandSheet = {
      name: 'wall end',
      heading: 'Wall end',
      stock,
      band,
      making,
      contact,
      about: ['Long side at station 0'],
      lines: [{ which: 'upper', contact, gap: 0, solids: [wall] }],
      wrap: 'Wrap it printed side out, station 0 on the long side, until the reference edge meets itself.',
      after: ['Cut square to the surface on the line.'],
      facts: [['Cutback, long to short', lengthOf(high - low)]],
      tables: [band.table],
      pictures: [endPicture('Facing the cut end', stock, ['long', '', 'short', ''])],
    };
    return [bandSheet(own, setting)];
  },
});

const [file] = process.argv.slice(2);
if (process.argv[1]?.endsWith('own-layout.ts') && file !== undefined) {
  const request = readRequest('wall-end', { stock: 'NPS 4 sch 40', slope: '15' }, [wallEnd]);
  writeFileSync(file, await renderPdf(makeBook(request)));
}
