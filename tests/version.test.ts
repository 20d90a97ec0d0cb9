import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { version } from '../src/version.ts';

test('the version written into files is the package version', () => {
  const text = readFileSync(new URL('../package.json', import.meta.url), 'utf8');
  expect(JSON.parse(text)).toMatchObject({ name: 'soapstone', version });
});
