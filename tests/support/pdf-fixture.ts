import PDFDocument from 'pdfkit';

interface RawReference {
  readonly data: Record<string, unknown>;
  end(): void;
}
interface RawDocument {
  readonly _root: RawReference;
  readonly page: { readonly dictionary: RawReference; readonly resources: RawReference };
}

const points = (mm: number) => (mm * 72) / 25.4;

export interface FixtureOptions {
  readonly compress?: boolean;
  /** Sheet origin on each page, mm from the page's lower left corner. */
  readonly origins: readonly (readonly [number, number])[];
  /** What each page draws, in pdfkit's own coordinates (points, y down from the top), the page's layers set up. */
  readonly draw: (doc: PDFKit.PDFDocument, page: number) => void;
  readonly viewport?: boolean;
  readonly record?: unknown;
}
export const fixtureLayers = ['cut', 'text'];
export const fixtureHeight = 200;

/**
 * A small PDF of pages 150 x 200 mm made as the product is bound to make it: layers `cut` and `text` under /L0 and /L1, a
 * viewport in mm, an attachment, labels, bookmarks, language and print preferences.
 */
export async function makeFixture(options: FixtureOptions): Promise<Uint8Array> {
  const doc = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: '1.7',
    compress: options.compress ?? true,
    displayTitle: true,
    lang: 'en',
    info: { Title: 'Fixture (″)', CreationDate: new Date(0) },
  });
  const chunks: Buffer[] = [];
  doc.on('data', (chunk: Buffer) => chunks.push(chunk));
  const done = new Promise((resolve) => doc.on('end', resolve));
  const raw = doc as unknown as RawDocument;
  const writeObject = (data: Record<string, unknown>): RawReference => {
    const object = doc.ref(data) as unknown as RawReference;
    object.end();
    return object;
  };
  const layers = fixtureLayers.map((name) => {
    return writeObject({ Type: 'OCG', Name: new String(name) });
  });
  Object.assign(raw._root.data, { OCProperties: { OCGs: layers, D: { Order: layers, ON: layers } } });
  raw._root.data['PageLabels'] = writeObject({ Nums: [0, { S: 'D', P: new String('A-') }, 1, { S: 'r' }] });
  const preferences = raw._root.data['ViewerPreferences'] as RawReference;
  Object.assign(preferences.data, {
    PrintScaling: 'None',
    Enforce: ['PrintScaling'],
    PickTrayByPDFSize: true,
  });

  options.origins.forEach(([x, y], i) => {
    doc.addPage({ size: [points(150), points(fixtureHeight)], margin: 0 });
    raw.page.resources.data['Properties'] = { L0: layers[0], L1: layers[1] };
    const format = (C: number, unit: string) => [{ Type: 'NumberFormat', U: new String(unit), C, D: 1000 }];
    if (options.viewport !== false)
      raw.page.dictionary.data['VP'] = [
        {
          Type: 'Viewport',
          Name: new String('branch end 1.1'),
          BBox: [0, 0, points(150), points(fixtureHeight)],
          Measure: {
            Type: 'Measure',
            Subtype: 'RL',
            R: new String('1 mm = 1 mm'),
            X: format(25.4 / 72, 'mm'),
            D: format(1, 'mm'),
            A: format(1, 'mm²'),
            O: [points(x), points(y)],
          },
        },
      ];
    options.draw(doc, i);
  });
  const top = doc.outline.addItem('branch end');
  top.addItem('page A-1');
  if (options.record !== undefined)
    doc.file(Buffer.from(JSON.stringify(options.record)), {
      name: 'soapstone.json',
      type: 'application/json',
      creationDate: new Date(0),
      modifiedDate: new Date(0),
    });
  doc.end();
  await done;
  return Buffer.concat(chunks);
}
