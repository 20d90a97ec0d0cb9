#!/usr/bin/env node
import { main } from './main.ts';

// A reader that stops early, as in `soapstone layouts | head -1`, is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await main(process.argv.slice(2));
