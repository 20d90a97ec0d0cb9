import {
  LineCounter,
  parseDocument,
  visit,
  type Alias,
  type Document,
  type ErrorCode,
  type YAMLParseError,
  type YAMLWarning,
} from 'yaml';
import type * as z from 'zod';
import type { Issue } from '../issue.ts';
import { layouts } from '../layouts/registry.ts';
import { findNearMiss } from '../near-miss.ts';
import type { Texts } from '../request.ts';
import { limits, type Entry, type Listing } from './entry.ts';
import { fileShape, pieceShape } from './job-shape.ts';
import { makeIssue, type Place } from './place.ts';
import { locate, type Path, type Source } from './yaml-place.ts';
import { isTooDeep } from './yaml-depth.ts';
import { say } from '../words/say.ts';

const nameKind = (value: unknown): string =>
  value === null || value === ''
    ? say`empty`
    : Array.isArray(value)
      ? say`a list`
      : typeof value === 'object'
        ? say`a group of keys`
        : `"${typeof value === 'string' ? value : typeof value}"`;

const fileKeys = Object.keys(fileShape.shape);

const unknownKey = (place: Place, key: string): Issue => {
  const near = findNearMiss(key, fileKeys);
  const isInput = layouts.some((layout) => Object.hasOwn(pieceShape(layout).shape, key));
  const hint = isInput
    ? say`an input of all pieces stands under defaults`
    : near === undefined
      ? say`a job file has ${fileKeys.join(', ')}`
      : say`did you mean ${near}?`;
  return makeIssue(place, 'unknown-key', say`a job file has no key "${key}"`, hint);
};

const valueAt = (tree: unknown, path: Path): unknown =>
  path.reduce<unknown>(
    (value, step) => (value as Readonly<Record<string | number, unknown>> | undefined)?.[step],
    tree,
  );

/** What a shape finds wrong, at its place. Inputs that do not exist are left to the layout, which knows near misses. */
const tellShape = (source: Source, tree: unknown, found: z.ZodError, base: Path): Issue[] =>
  found.issues.flatMap((issue) => {
    const path = issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step));
    if (issue.code === 'unrecognized_keys')
      return base.length > 0
        ? []
        : issue.keys.map((key) => unknownKey(locate(source, [...base, ...path], key), key));
    const key = path[path.length - 1];
    const name = key ?? (base.length > 0 ? say`the piece` : say`the file`);
    const isTop = path.length === 1 && base.length === 0;
    const hint =
      name === 'pieces'
        ? say`write a list: every piece begins with a dash and its keys stand in line under each other`
        : key === undefined || (isTop && key === 'defaults')
          ? say`write keys and values, as in "paper: letter"`
          : say`write one text, or a list of texts where the input may be repeated`;
    const message = say`${String(name)} cannot be ${nameKind(valueAt(tree, path))}`;
    return [makeIssue(locate(source, [...base, ...path]), 'wrong-shape', message, hint)];
  });

type Told = readonly [message: string, hint: string];

/** Faults of YAML, which its parser words for programmers, by the parser's codes. */
const yamlFaults = (): Readonly<Partial<Record<ErrorCode, Told>>> => ({
  MULTIPLE_DOCS: [
    say`a second document starts here`,
    say`put every job in a file of its own, without --- between`,
  ],
  TAG_RESOLVE_FAILED: [
    say`a tag (!) stands here`,
    say`job files have no tags: put the text in quotes if it begins with !`,
  ],
  DUPLICATE_KEY: [say`the key stands here a second time`, say`give every key once`],
  TAB_AS_INDENT: [say`a tab stands before the text`, say`indent with spaces`],
  BAD_INDENT: [say`this is not in line with what is above it`, say`keep keys of one piece in line`],
  BLOCK_AS_IMPLICIT_KEY: [
    say`a second key stands in the value of this one`,
    say`put a text that holds a colon in quotes, and keep keys of one piece in line`,
  ],
  MULTILINE_IMPLICIT_KEY: [
    say`there is no colon after this key`,
    say`write keys and values, as in "paper: letter"`,
  ],
  BAD_DQ_ESCAPE: [
    say`a backslash stands in double quotes`,
    say`put the text in single quotes, in which it stands as it is`,
  ],
  BAD_SCALAR_START: [say`a text cannot begin with this sign`, say`put the text in quotes`],
});

/** Where one code stands for several faults, what the parser's own words tell apart. */
const yamlWords = (): readonly (readonly [words: RegExp, told: Told | undefined])[] => [
  [
    /^Missing closing/,
    [say`a quote before this place is not closed`, say`close it, or leave both quotes out`],
  ],
  [/ end with a [}\]]/, [say`a bracket before this place is not closed`, say`close it on its own line`]],
  [/without - indicator/, yamlFaults().BAD_INDENT],
];

const tellSyntax = ({ code, message }: YAMLParseError | YAMLWarning): Told =>
  yamlWords().find(([words]) => words.test(message))?.[1] ??
  yamlFaults()[code] ?? [
    say`this cannot be read`,
    say`put texts with colons, quotes or commas in quotes, and keep keys of one piece in line`,
  ];

/** What the parser finds: one fault a line, since what follows in it mostly comes of the first. */
const syntaxIssues = (source: Source): Issue[] => {
  const found = [...source.document.errors, ...source.document.warnings].map((fault) => ({
    place: source.placeAt(fault.pos[0]),
    told: tellSyntax(fault),
  }));
  return found
    .filter(({ place }, i) => found.findIndex((one) => one.place.line === place.line) === i)
    .map(({ place, told: [message, hint] }) => makeIssue(place, 'bad-yaml', message, hint));
};

const listAliases = (document: Document.Parsed): readonly Alias[] => {
  const found: Alias[] = [];
  visit(document, {
    Alias: (_, alias) => {
      found.push(alias);
    },
  });
  return found;
};

/** References to nothing: most likely texts that begin with a star. */
const strayAliases = ({ document, placeAt }: Source, aliases: readonly Alias[]): readonly Issue[] =>
  aliases
    .filter((alias) => alias.resolve(document) === undefined)
    .map(({ source, range }) =>
      makeIssue(
        placeAt(range?.[0] ?? 0),
        'no-anchor',
        say`the reference *${source} names nothing`,
        say`put the text in quotes if it begins with *`,
      ),
    );

type Tree = z.infer<typeof fileShape>;

/** A key that no layout has may hold anything: the layout reports it as unknown when it reads it. */
const writeText = (value: unknown): string | readonly string[] =>
  Array.isArray(value) ? value.map(String) : typeof value === 'string' ? value : '?';

const readTexts = (value: Readonly<Record<string, unknown>>): Texts =>
  Object.fromEntries(
    Object.entries(value).flatMap(([key, text]) => (key === 'layout' ? [] : [[key, writeText(text)]])),
  );

/** A group of inputs as an entry; undefined, with the reason, where it has another shape. */
const readEntry = (
  source: Source,
  value: unknown,
  path: Path,
  fallback: string | undefined,
  issues: Issue[],
): Entry | undefined => {
  const isGroup = typeof value === 'object' && value !== null && !Array.isArray(value);
  const own = isGroup ? (value as Record<string, unknown>) : {};
  const name = typeof own.layout === 'string' ? own.layout : fallback;
  const layout = layouts.find(({ id }) => id === name);
  const checked = (layout === undefined ? fileShape.shape.defaults.unwrap() : pieceShape(layout)).safeParse(
    isGroup && layout !== undefined ? { ...own, layout: layout.id } : value,
  );
  const wrong = checked.success ? [] : tellShape(source, value, checked.error, path);
  const long = Object.entries(own).filter(([, one]) => Array.isArray(one) && one.length > limits.values);
  wrong.push(
    ...long.map(([key]) =>
      makeIssue(
        locate(source, [...path, key]),
        'many-values',
        say`more than ${limits.values} values`,
        say`give fewer`,
      ),
    ),
  );
  issues.push(...wrong);
  if (wrong.length > 0) return undefined;
  return {
    layout: typeof own.layout === 'string' ? own.layout : undefined,
    texts: readTexts(own),
    place: locate(source, path),
    placeOf: (input) => (Object.hasOwn(own, input) ? locate(source, [...path, input]) : locate(source, path)),
  };
};

const empty: Omit<Listing, 'issues'> = {
  defaults: undefined,
  entries: [],
  formats: [],
  book: undefined,
  list: undefined,
};

const readTree = (source: Source, tree: Tree, raw: unknown): Listing => {
  const issues: Issue[] = [];
  const at = (text: string | undefined, ...path: Path) =>
    text === undefined ? undefined : { text, place: locate(source, path) };
  const defaults =
    tree.defaults === undefined
      ? undefined
      : readEntry(source, valueAt(raw, ['defaults']), ['defaults'], undefined, issues);
  const pieces = tree.pieces ?? [];
  const fallback = typeof tree.defaults?.layout === 'string' ? tree.defaults.layout : undefined;
  return {
    defaults,
    entries: pieces.flatMap((piece, i) => readEntry(source, piece, ['pieces', i], fallback, issues) ?? []),
    formats:
      typeof tree.formats === 'string'
        ? tree.formats.split(',').map((text) => ({ text, place: locate(source, ['formats']) }))
        : (tree.formats ?? []).map((text, i) => ({ text, place: locate(source, ['formats', i]) })),
    book: at(tree.book, 'book'),
    list: at(tree.list, 'list'),
    issues,
  };
};

/**
 * Reads a job file's YAML 1.2. Every scalar is taken as the text that stands there, so `007` stays `007`; tags, merge
 * keys and other documents in the file are faults. `file` is its name as places give it.
 */
export const readYaml = (text: string, file: string): Listing => {
  const lines = new LineCounter();
  const refuse = (issue: Issue): Listing => ({ ...empty, issues: [issue] });
  const start: Place = { file, line: 1, column: 1 };
  if (isTooDeep(text))
    return refuse(
      makeIssue(start, 'deep', say`the file is nested too deeply`, say`a job file is three levels deep`),
    );
  const document = parseDocument(text, {
    schema: 'failsafe',
    lineCounter: lines,
    prettyErrors: false,
    strict: true,
    logLevel: 'error',
  });
  const placeAt = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { file, line: Math.max(1, line), column: Math.max(1, col) };
  };
  const source: Source = { document, placeAt };
  const syntax = syntaxIssues(source);
  if (syntax.length > 0) return { ...empty, issues: syntax };
  const aliases = listAliases(document);
  if (aliases.length > limits.aliases)
    return refuse(
      makeIssue(
        start,
        'aliases',
        say`more than ${limits.aliases} references`,
        say`put what pieces share under defaults`,
      ),
    );
  const stray = strayAliases(source, aliases);
  if (stray.length > 0) return { ...empty, issues: stray };
  let raw: unknown;
  try {
    raw = document.toJS({ maxAliasCount: limits.aliases });
  } catch (error) {
    if (!(error instanceof ReferenceError) && !(error instanceof RangeError)) throw error;
    return refuse(
      makeIssue(
        start,
        'aliases',
        say`references multiply or go in a circle`,
        say`put what pieces share under defaults`,
      ),
    );
  }
  const checked = fileShape.safeParse(raw);
  const issues = checked.success ? [] : tellShape(source, raw, checked.error, []);
  if (!checked.success) return { ...empty, issues };
  if ((checked.data.pieces ?? []).length > limits.pieces)
    return refuse(
      makeIssue(
        locate(source, ['pieces']),
        'many-pieces',
        say`more than ${limits.pieces} pieces`,
        say`split the file`,
      ),
    );
  return readTree(source, checked.data, raw);
};
