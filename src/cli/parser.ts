import { UserError, requestError, type Issue } from '../issue.ts';
import { findNearMiss } from '../near-miss.ts';
import { version } from '../version.ts';
import { say, translate } from '../words/say.ts';
import { program, type Command, type Given, type Option } from './command.ts';

/** What the command line asks for: a command with what was given to it, or a text to print (help, completion). */
export type Asked =
  | { readonly kind: 'command'; readonly command: Command; readonly given: Given }
  | { readonly kind: 'text'; readonly text: string };

interface Untyped {
  usageConfiguration: (configuration: { readonly 'hide-types': boolean }) => void;
}

/** Options yargs answers by itself. */
const builtIn = ['help', 'version', 'get-yargs-completions'];

/**
 * Joins an option and its value where yargs would take the value for an option: `--offset -10mm`, `-oFILE`.
 * Everything after `--` is left alone.
 */
const joinValues = (argv: readonly string[], options: readonly Option[]): readonly string[] => {
  const taking = new Set(
    options.flatMap(({ kind, name, letter, aliases = [] }) =>
      kind === 'text'
        ? [...[name, ...aliases].map((word) => `--${word}`), ...(letter === undefined ? [] : [`-${letter}`])]
        : [],
    ),
  );
  const joined: string[] = [];
  for (let i = 0; i < argv.length; i++) {
    const word = argv[i] ?? '';
    const next = argv[i + 1];
    if (word === '--') return [...joined, ...argv.slice(i)];
    if (taking.has(word) && next !== undefined && /^-[.\d]/.test(next)) {
      joined.push(`${word}=${next}`);
      i++;
    } else {
      joined.push(
        /^-[a-z][^=]/.test(word) && taking.has(word.slice(0, 2))
          ? `${word.slice(0, 2)}=${word.slice(2)}`
          : word,
      );
    }
  }
  return joined;
};

/** Sorts what yargs found into texts and flags. Throws one `request` UserError for all options that do not exist. */
const sortGiven = (found: Readonly<Record<string, unknown>>, command: Command): Given => {
  const texts: Record<string, string | readonly string[]> = {};
  const flags = new Set<string>();
  const issues: Issue[] = [];
  const known = new Map(command.options.map((option) => [option.name, option]));
  const others = new Set(command.options.flatMap(({ letter, aliases = [] }) => [letter, ...aliases]));
  for (const [name, value] of Object.entries(found)) {
    if (name === '_' || name === '$0' || builtIn.includes(name) || others.has(name)) continue;
    const option = known.get(name);
    if (option === undefined) issues.push(tellUnknown(name, command));
    else if (option.kind === 'flag') {
      if ([value].flat().some((item) => item === true)) flags.add(name);
    } else texts[name] = Array.isArray(value) ? value.map(String) : String(value);
  }
  const words = (found._ as readonly unknown[]).map(String).slice(1);
  if (words.length > command.words)
    issues.push(
      tellWord(
        words[command.words] ?? '',
        Object.keys(texts).every((name) => name === 'output'),
        command,
      ),
    );
  if (issues.length > 0) throw new UserError('request', issues);
  return { texts, flags, words };
};

const tellUnknown = (name: string, command: Command): Issue => {
  const near = findNearMiss(name, [...command.options.map((option) => option.name), 'help', 'version']);
  return {
    code: 'unknown-option',
    path: '',
    message: say`${command.name} has no option ${name.length === 1 ? '-' : '--'}${name}`,
    hint: nameOptions(name, near, command),
  };
};

/** A description as far as its first stop, without the sign for the value. */
const firstWords = (text: string): string =>
  text
    .replace(/^[A-Z]+: /, '')
    .split(/[:;,(]/)[0]
    ?.trim() ?? '';

/** The option of nearly that name, or those whose help speaks of it. */
const nameOptions = (name: string, near: string | undefined, { name: layout, options }: Command): string => {
  if (near !== undefined) return say`did you mean --${near}?`;
  const word = new RegExp(`\\b${name.replace(/[^\p{L}\p{N}-]/gu, '')}\\b`, 'iu');
  const about = options.filter(({ help }) => word.test(help)).slice(0, 2);
  return about.length === 0
    ? say`"${program} ${layout} --help" lists its options`
    : say`did you mean ${about.map((option) => `--${option.name} (${firstWords(option.help)})`).join(say` or `)}?`;
};

const tellWord = (word: string, isAlone: boolean, { name, examples: [example] }: Command): Issue => ({
  code: 'stray-word',
  path: '',
  message: say`"${word}" belongs to no option`,
  hint:
    isAlone && example !== undefined
      ? say`name the option each value is for, as in: ${program} ${example.startsWith(name) ? example : `${name} ${example}`}`
      : say`put a text with spaces in quotes, as in --pipe "NPS 4 sch 40"`,
});

/** The commands that a word was probably meant for: those that people call so, else one of nearly that name or word. */
const nameNear = (word: string, commands: readonly Command[]): string | undefined => {
  const calledSo = (said: string | undefined): string | undefined => {
    const called = commands.filter(({ known = [] }) => said !== undefined && known.includes(said));
    if (called.length === 0) return undefined;
    return called
      .map(({ name, summary }) => (called.length > 1 ? `${name} (${firstWords(summary)})` : name))
      .join(say` or `);
  };
  return (
    calledSo(word.toLowerCase()) ??
    findNearMiss(
      word,
      commands.map(({ name }) => name),
    ) ??
    calledSo(
      findNearMiss(
        word,
        commands.flatMap(({ known = [] }) => known),
      ),
    )
  );
};

const findCommand = (word: string, commands: readonly Command[]): Command => {
  const found = commands.find((command) => command.name === word);
  if (found !== undefined) return found;
  const near = nameNear(word, commands);
  throw requestError(
    '',
    'unknown-command',
    word.startsWith('-')
      ? say`${word} stands where a layout's name must`
      : say`there is no layout or command "${word}"`,
    near === undefined
      ? say`"${program} layouts" lists what there is, to be named first`
      : say`did you mean ${near}?`,
  );
};

/** Stands for the head of a help text until yargs has wrapped the rest: command lines must not be wrapped. */
const head = '\ue000';

/** The head of a help text: examples first, then the command line in general. */
const writeHead = (chosen: Command | undefined, commands: readonly Command[]): string => {
  const {
    summary,
    usage,
    examples: lines,
  } = chosen ?? {
    summary: 'full-size layout templates for pipe and plate work, printed true to size',
    usage: 'LAYOUT --options [-o FILE]…',
    examples: [
      ...commands.slice(0, 3).flatMap(({ examples }) => examples.slice(0, 1)),
      'layouts',
      `${commands[0]?.name} --help`,
    ],
  };
  return [
    `${translate(summary).charAt(0).toUpperCase()}${translate(summary).slice(1)}.\n`,
    say`Examples:`,
    ...lines.map((line) => `  ${program} ${line}`),
    say`\nUsage: ${program} ${usage}`,
  ].join('\n');
};

/** Understands a command line. Throws a `request` UserError where it cannot. */
export const parseArguments = async (
  argv: readonly string[],
  commands: readonly Command[],
): Promise<Asked> => {
  const word = argv.find((item) => !/^--?(help|h|version)$/.test(item));
  const isCompletion = word?.startsWith('--get-yargs-completions') === true || word === 'completion';
  const chosen = word === undefined || isCompletion ? undefined : findCommand(word, commands);
  const { default: yargs } = await import('yargs');
  const parser = yargs()
    .scriptName(program)
    .locale('en')
    .updateStrings({ 'Commands:': say`Commands:`, 'Options:': say`Options:` })
    .parserConfiguration({
      'camel-case-expansion': false,
      'dot-notation': false,
      'boolean-negation': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
    })
    .wrap(Math.min(process.stdout.columns ?? 100, 100))
    .usage(head)
    .alias('help', 'h')
    .describe('help', say`show this help`)
    .version(version)
    .describe('version', say`show the version`);
  // The published types lack this one method.
  (parser as unknown as Untyped).usageConfiguration({ 'hide-types': true });
  const words = argv.length === 0 ? ['--help'] : joinValues(argv, chosen?.options ?? []);
  // The help of a command is laid out at every run of it, whoever asked; hidden options cost nothing there.
  const hidden = !isCompletion && !words.some((text) => /^(-\w*h|--help)/.test(text));
  for (const command of chosen === undefined ? commands : [chosen]) {
    parser.command(
      command.name,
      translate(command.summary),
      (sub) => {
        sub.usage(head);
        for (const { name, letter, aliases = [], group, help, kind, choices } of command.options)
          sub.option(name, {
            alias: [...(letter === undefined ? [] : [letter]), ...aliases],
            group: translate(group),
            describe: translate(help),
            type: kind === 'flag' ? 'boolean' : 'string',
            hidden,
            ...(isCompletion && { choices }),
          });
        return sub;
      },
      () => undefined,
    );
  }
  parser.completion('completion', say`print a script for completion by bash or zsh`);
  let text = '';
  const found = await parser.parseAsync([...words], {}, (error: unknown, _found: unknown, output: string) => {
    if (error instanceof Error) throw error;
    text = output;
  });
  if (text !== '' || chosen === undefined)
    return { kind: 'text', text: text.replace(head, () => writeHead(chosen, commands)) };
  return { kind: 'command', command: chosen, given: sortGiven(found, chosen) };
};
