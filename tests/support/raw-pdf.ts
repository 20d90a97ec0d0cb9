import { deflateSync } from 'node:zlib';

/** A PDF put together from its objects' texts, numbered from 1, with a table of where they are. The first is the catalog. */
export const rawPdf = (objects: readonly (string | Uint8Array)[], trailer = ''): Uint8Array => {
  const parts: Buffer[] = [Buffer.from('%PDF-1.7\n', 'latin1')];
  let at = parts[0]!.length;
  const offsets: number[] = [];
  const push = (part: Buffer): void => {
    parts.push(part);
    at += part.length;
  };
  objects.forEach((object, i) => {
    offsets.push(at);
    push(Buffer.from(`${i + 1} 0 obj\n`, 'latin1'));
    push(typeof object === 'string' ? Buffer.from(object, 'latin1') : Buffer.from(object));
    push(Buffer.from('\nendobj\n', 'latin1'));
  });
  const start = at;
  const rows = offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`).join('');
  push(
    Buffer.from(
      `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${rows}trailer\n<< /Size ${objects.length + 1} /Root 1 0 R ${trailer} >>\nstartxref\n${start}\n%%EOF\n`,
      'latin1',
    ),
  );
  return new Uint8Array(Buffer.concat(parts));
};

/** A stream, packed by Flate so many times over. */
export const packed = (bytes: Uint8Array, times = 1, dict = ''): Uint8Array => {
  let body = Buffer.from(bytes);
  for (let i = 0; i < times; i += 1) body = deflateSync(body, { level: 9 });
  const filters = Array.from({ length: times }, () => '/FlateDecode').join(' ');
  return Buffer.concat([
    Buffer.from(`<< /Length ${body.length} /Filter [${filters}] ${dict} >>\nstream\n`, 'latin1'),
    body,
    Buffer.from('\nendstream', 'latin1'),
  ]);
};
