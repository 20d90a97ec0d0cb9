/** Builds the command line into `dist`. */
import { chmodSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { bundle } from './bundle.ts';

const dist = join(import.meta.dirname, '../dist');
rmSync(dist, { recursive: true, force: true });
await bundle(dist);
chmodSync(join(dist, 'soapstone.js'), 0o755);
