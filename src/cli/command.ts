import { languages } from '../words/languages.ts';

/** The program's name, as it is typed. */
export const program = 'soapstone';

/** One option of a command, as help and the parser need it. */
export interface Option {
  readonly name: string;
  /** One-letter form. */
  readonly letter?: string;
  /** Other names it is also given by. */
  readonly aliases?: readonly string[];
  /** Heading it stands under in help. */
  readonly group: string;
  readonly help: string;
  /** A `flag` takes no value. */
  readonly kind: 'text' | 'flag';
  /** Words offered by shell completion. */
  readonly choices?: readonly string[];
}

/** What stood on the command line after the command's name. */
export interface Given {
  /** Options with a value; an array where one was given several times. */
  readonly texts: Readonly<Record<string, string | readonly string[]>>;
  /** Flags that were set. */
  readonly flags: ReadonlySet<string>;
  /** Words that belong to no option. */
  readonly words: readonly string[];
}

/** One command. It writes its result to stdout and throws a UserError for anything the person can put right. */
export interface Command {
  readonly name: string;
  /** What else people call it, so that it is named to them. */
  readonly known?: readonly string[];
  readonly summary: string;
  /** The command line in general, without `soapstone`. */
  readonly usage: string;
  /** Command lines without `soapstone`, most usual first. */
  readonly examples: readonly string[];
  readonly options: readonly Option[];
  /** Most words it takes besides options. */
  readonly words: number;
  /** Returns the exit code where it is not 0. */
  readonly run: (given: Given) => Promise<number | void> | number | void;
}

/** A command of no template, with the language of its results. */
export const withLanguage = (command: Command): Command =>
  command.options.some(({ name }) => name === 'language')
    ? command
    : {
        ...command,
        options: [
          ...command.options,
          {
            name: 'language',
            group: 'Output:',
            kind: 'text',
            choices: languages,
            help: 'TEXT: language of messages, en or es',
          },
        ],
      };

/** Writes a result, or one line of it, to stdout. */
export const tellLine = (text: string): void => {
  process.stdout.write(`${text}\n`);
};
