import { layouts } from '../layouts/registry.ts';
import { calibrateCommand } from './calibrate-command.ts';
import { say } from './command.ts';
import { tellFault } from './fault.ts';
import { jobCommand } from './job-command.ts';
import { layoutCommand } from './layout-command.ts';
import { layoutsCommand } from './layouts-command.ts';
import { pageCommand } from './page-command.ts';
import { parseArguments } from './parser.ts';
import { proofCommand } from './proof-command.ts';
import { reprintCommand } from './reprint-command.ts';

const commands = [
  ...layouts.map(layoutCommand),
  layoutsCommand(layouts),
  jobCommand,
  proofCommand,
  reprintCommand,
  calibrateCommand,
  pageCommand,
];

/** Runs one command line and returns its exit code. */
export const main = async (argv: readonly string[]): Promise<number> => {
  const options = new Set(commands.find(({ name }) => name === argv[0])?.options.map(({ name }) => name));
  try {
    const asked = await parseArguments(argv, commands);
    if (asked.kind === 'text') say(asked.text);
    else return (await asked.command.run(asked.given)) ?? 0;
    return 0;
  } catch (error) {
    return tellFault(error, options);
  }
};
