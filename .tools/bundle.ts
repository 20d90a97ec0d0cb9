import { join } from 'node:path';
import { build, type Plugin } from 'esbuild';
import { unusedPackages } from './unused-packages.ts';

const root = join(import.meta.dirname, '..');

const leaveOut: Plugin = {
  name: 'leave out',
  setup: (bundling) => {
    bundling.onResolve({ filter: /./ }, ({ path }) =>
      unusedPackages.has(path) ? { path, namespace: 'left-out' } : undefined,
    );
    bundling.onLoad({ filter: /.*/, namespace: 'left-out' }, () => ({ contents: 'export default {};' }));
  },
};

/**
 * Builds the command line into a folder of this repository: one file with its packages in it, since Node takes longest to find
 * and read many small files, and pieces of its own for whatever is imported only when it is needed.
 */
export const bundle = async (outdir: string): Promise<void> => {
  await build({
    entryPoints: {
      soapstone: join(root, 'src/cli/bin.ts'),
      'job-worker': join(root, 'src/jobs/worker.ts'),
    },
    outdir,
    chunkNames: 'pieces/[name]-[hash]',
    bundle: true,
    splitting: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    minifyWhitespace: true,
    minifySyntax: true,
    legalComments: 'linked',
    plugins: [leaveOut],
    // Packages written for CommonJS ask for Node's modules with require.
    banner: {
      js: "import{createRequire as makeRequire}from'node:module';const require=makeRequire(import.meta.url);",
    },
    logLevel: 'warning',
  });
};
