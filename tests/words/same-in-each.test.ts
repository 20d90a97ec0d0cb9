import { describe, expect, it } from 'vitest';
import { makeWrittenSheets, readRequest } from '../../src/index.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { inLanguage, type Language } from '../../src/words/languages.ts';
import { readCommand } from '../support/commands.ts';

const examples = layouts.flatMap(({ id, examples }) => examples.map((example) => [id, example] as const));

describe.each(examples)('%s: %s', (id, example) => {
  const { texts } = readCommand(example);

  it('is the same print, whatever the program speaks', () => {
    const made = (spoken: Language) => inLanguage(spoken, () => makeWrittenSheets(readRequest(id, texts)));
    expect(made('es')).toEqual(made('en'));
  });

  it('says in its second language what a print in that language says', () => {
    const made = (language: string) => makeWrittenSheets(readRequest(id, { ...texts, language }));
    const alone = made('es').map(({ heading, subject, steps, cautions }) => ({
      heading,
      subject,
      steps,
      cautions,
    }));
    expect(made('en+es').map(({ also }) => also)).toMatchObject(alone);
  });
});
