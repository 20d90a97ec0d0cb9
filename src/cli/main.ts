import { layouts } from '../layouts/registry.ts';
import { calibrateCommand } from './calibrate-command.ts';
import { languagesOf, readLanguage, speak, type Language } from '../words/languages.ts';
import { tellLine, withLanguage, type Command } from './command.ts';
import { tellFault } from './fault.ts';
import { jobCommand } from './job-command.ts';
import { layoutCommand } from './layout-command.ts';
import { layoutsCommand } from './layouts-command.ts';
import { pageCommand } from './page-command.ts';
import { parseArguments } from './parser.ts';
import { proofCommand } from './proof-command.ts';
import { reprintCommand } from './reprint-command.ts';

/** Commands with their options, described in the language in force. */
const listCommands = (): readonly Command[] => [
  ...layouts.map(layoutCommand),
  ...[layoutsCommand(layouts), jobCommand, proofCommand, reprintCommand(), calibrateCommand, pageCommand].map(
    withLanguage,
  ),
];

/** The language that a command line asks for, before anything else of it is understood. */
const languageOf = (argv: readonly string[]): Language => {
  const at = argv.findIndex((word) => word === '--language' || word.startsWith('--language='));
  const text = argv[at]?.split('=')[1] ?? argv[at + 1];
  return languagesOf(readLanguage(at < 0 ? undefined : text))[0];
};

/** Runs one command line and returns its exit code. */
export const main = async (argv: readonly string[]): Promise<number> => {
  speak(languageOf(argv));
  const commands = listCommands();
  const options = new Set(commands.find(({ name }) => name === argv[0])?.options.map(({ name }) => name));
  try {
    const asked = await parseArguments(argv, commands);
    if (asked.kind === 'text') tellLine(asked.text);
    else return (await asked.command.run(asked.given)) ?? 0;
    return 0;
  } catch (error) {
    return tellFault(error, options);
  }
};
