/**
 * Builds the command line into `dist`: one file with its packages in it, since Node takes longest to find and read many
 * small files, and pieces of its own for whatever is imported only when it is needed.
 */
import { chmodSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';

const root = join(import.meta.dirname, '..');
const dist = join(root, 'dist');

rmSync(dist, { recursive: true, force: true });
await build({
  entryPoints: { soapstone: join(root, 'src/cli/bin.ts') },
  outdir: dist,
  chunkNames: 'pieces/[name]-[hash]',
  bundle: true,
  splitting: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  minifyWhitespace: true,
  minifySyntax: true,
  legalComments: 'linked',
  // Packages written for CommonJS ask for Node's modules with require.
  banner: {
    js: "import{createRequire as makeRequire}from'node:module';const require=makeRequire(import.meta.url);",
  },
  logLevel: 'warning',
});
chmodSync(join(dist, 'soapstone.js'), 0o755);
