/**
 * Builds after `npm ci` and before packing. `npx soapstone` in this folder has npm prepare the package once more before
 * the command runs; what stands in `dist` then is good, and building it again would only keep the user waiting.
 */
import { execSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const isRunByNpx = process.env['npm_command'] === 'exec';
if (!isRunByNpx || !existsSync('dist/lib/index.js')) execSync('npm run build', { stdio: 'inherit' });
