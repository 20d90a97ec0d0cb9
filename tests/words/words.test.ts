import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { listDeclared } from './declared.ts';
import { findTexts } from './texts.ts';

const catalog = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../shared/words/es.json'), 'utf8'),
) as Record<string, string>;

const placeholders = (text: string): string => [...text.matchAll(/\{\d+\}/g)].map(String).sort().join(' ');
const edges = (text: string): string => `${/^\s*/.exec(text)?.[0] ?? ''}|${/\s*$/.exec(text)?.[0] ?? ''}`;

describe('the Spanish catalog', () => {
  const { said, untagged, strings } = findTexts();
  const declared = listDeclared();
  const texts = new Map([...said, ...declared]);

  it('has every text that is said or declared', () => {
    const missing = [...texts].filter(([text]) => catalog[text] === undefined);
    expect(missing.map(([text, place]) => `${place}: ${text}`)).toEqual([]);
  });

  it('has nothing that is no longer said', () => {
    const stale = Object.keys(catalog).filter((text) => !texts.has(text) && !strings.has(text));
    expect(stale).toEqual([]);
  });

  it('fills the same places as the English, each as often', () => {
    const wrong = Object.entries(catalog).filter(
      ([english, spanish]) =>
        placeholders(english) !== placeholders(spanish) || edges(english) !== edges(spanish),
    );
    expect(wrong).toEqual([]);
  });

  it('says one thing by one word, as the glossary has it', () => {
    // Left of each: words for what the glossary calls a barreno, revisar, desperdicio, doblez, ramal and encabezado.
    const others =
      /\bagujeros?\b|\bverifi(?:que|car)|\bverifíque|\bdesecho\b|\bplegado\b|\binjerto\b(?! (?:sobrepuesto|insertado))|\bcabeza con #/i;
    expect(Object.values(catalog).filter((spanish) => others.test(spanish))).toEqual([]);
  });

  it('finds no text of a sheet or an error without its tag', () => {
    expect(untagged).toEqual([]);
  });
});
