#!/usr/bin/env node
import { compileLess } from '../jobs/engine.ts';
import { codeOf } from '../render/file-fault.ts';
import { main } from './main.ts';
import { say } from '../words/say.ts';

compileLess();

/** The exit code that what became of the output asks for. */
let outputCode = 0;

process.stdout.on('error', (error) => {
  // A reader that stops early, as in `soapstone layouts | head -1`, is no fault.
  if (codeOf(error) === 'EPIPE' || outputCode !== 0) return;
  outputCode = 4;
  const reason = codeOf(error) === 'ENOSPC' ? say`the disk is full` : say`the system says ${codeOf(error)}`;
  process.stderr.write(
    say`wrong: cannot write the messages: ${reason}\nright: make room on the disk, or send it elsewhere\n`,
  );
  process.exitCode = outputCode;
});
// Where nobody hears a fault there is nobody to tell.
process.stderr.on('error', () => undefined);

const code = await main(process.argv.slice(2));
process.exitCode = outputCode === 0 ? code : outputCode;
