import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Mark, WrittenSheet } from '../../src/drawing/model.ts';
import type { Layout } from '../../src/fields/layout.ts';
import { spellInput } from '../../src/fields/describe.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { readExample } from '../../src/page/core/example.ts';
import { makeWrittenSheets } from '../../src/print.ts';
import { readRequest, type Texts } from '../../src/request.ts';
import { inLanguage } from '../../src/words/languages.ts';
import { translateSheet } from '../../src/words/say.ts';

const catalog = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../shared/words/es.json'), 'utf8'),
) as Record<string, string>;

const wordsOf = (text: string): readonly string[] =>
  [...text.matchAll(/\p{L}{3,}/gu)].map(([word]) => word.toLowerCase());

/** Words that Spanish has too. */
const alike =
  'base compare decide diagonal error lateral legal material metal quite sector sin tan total trace use usual zigzag';
/** Names of standards and offices, and the trade's own sign for the top. */
const names = 'aisc api asme din faa navy tdc';
/** What a sheet tells people to type: `tee NPS 6 length 143mm`, the option nest. A set-on branch is called so beside its Spanish. */
const toType = 'length nest set';
const shared = new Set([alike, names, toType].flatMap(wordsOf));
/** Every word of the English texts that Spanish does not have. */
const english = new Set(
  Object.keys(catalog)
    .flatMap(wordsOf)
    .filter((word) => !shared.has(word)),
);

const textsOf = (marks: readonly Mark[]): readonly string[] =>
  marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));

const allTexts = (sheet: WrittenSheet): readonly string[] => [
  inLanguage('es', () => translateSheet(sheet.name)),
  sheet.heading,
  ...sheet.subject,
  ...sheet.steps,
  ...sheet.cautions,
  ...sheet.facts.flat().map(String),
  ...sheet.tables.flatMap(({ title, header, rows }) => [title, ...header, ...rows.flat().map(String)]),
  ...textsOf(sheet.marks),
  ...sheet.pictures.flatMap(({ title, marks }) => [title, ...textsOf(marks)]),
];

/** Words of a request that stay as they are typed: designations and names, not the choices a sheet says in its own words. */
const typedIn = (layout: Layout, texts: Texts): ReadonlySet<string> =>
  new Set(
    Object.entries(layout.fields)
      .filter(([, { choices }]) => choices === undefined)
      .flatMap(([key]) => wordsOf(JSON.stringify(texts[key] ?? texts[spellInput(key)] ?? ''))),
  );

describe('a Spanish sheet', () => {
  it.each(layouts.map((layout) => [layout.id, layout] as const))(
    '%s has no English word on it',
    (id, layout) => {
      const left = layout.examples.flatMap((line) => {
        const texts = readExample(layout, line);
        const typed = typedIn(layout, texts);
        return makeWrittenSheets(readRequest(id, { ...texts, language: 'es' }))
          .flatMap(allTexts)
          .filter((text) => wordsOf(text).some((word) => english.has(word) && !typed.has(word)))
          .map(
            (text) =>
              `${wordsOf(text)
                .filter((word) => english.has(word) && !typed.has(word))
                .join(' ')}: ${text}`,
          );
      });
      expect([...new Set(left)]).toEqual([]);
    },
  );
});
