import type { Texts } from '../../src/request.ts';
import { readCommand } from './commands.ts';

/** The inputs of an example command line; outputs are left out. */
export const readExample = (example: string): Texts => readCommand(example).texts;
