import { LineCounter, parseDocument, visit, type Document } from 'yaml';
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

/** Faults of YAML that its parser words for programmers. */
const yamlFaults = (): Readonly<Record<string, readonly [message: string, hint: string]>> => ({
  MULTIPLE_DOCS: [
    say`a second document starts here`,
    say`put every job in a file of its own, without --- between`,
  ],
  TAG_RESOLVE_FAILED: [
    say`a tag (!) stands here`,
    say`job files have no tags: put the text in quotes if it begins with !`,
  ],
  DUPLICATE_KEY: [say`the key stands here a second time`, say`give every key once`],
});

const syntaxIssues = (source: Source): Issue[] =>
  [...source.document.errors, ...source.document.warnings].map(({ code, message, pos }) => {
    const [told, hint] = yamlFaults()[code] ?? [
      message,
      say`put texts with colons, quotes or commas in quotes, and keep keys of one piece in line`,
    ];
    return makeIssue(source.placeAt(pos[0]), 'bad-yaml', told, hint);
  });

const countAliases = (document: Document.Parsed): number => {
  let count = 0;
  visit(document, {
    Alias: () => {
      count++;
    },
  });
  return count;
};

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
      makeIssue(start, 'deep', 'the file is nested too deeply', 'a job file is three levels deep'),
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
  if (countAliases(document) > limits.aliases)
    return refuse(
      makeIssue(
        start,
        'aliases',
        `more than ${limits.aliases} references`,
        'put what pieces share under defaults',
      ),
    );
  let raw: unknown;
  try {
    raw = document.toJS({ maxAliasCount: limits.aliases });
  } catch (error) {
    if (!(error instanceof ReferenceError) && !(error instanceof RangeError)) throw error;
    return refuse(
      makeIssue(
        start,
        'aliases',
        'references multiply or go in a circle',
        'put what pieces share under defaults',
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
        `more than ${limits.pieces} pieces`,
        'split the file',
      ),
    );
  return readTree(source, checked.data, raw);
};
