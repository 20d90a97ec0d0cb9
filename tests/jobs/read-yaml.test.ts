import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limits } from '../../src/jobs/entry.ts';
import { placePieceIssue } from '../../src/jobs/place.ts';
import { readYaml } from '../../src/jobs/read-yaml.ts';

const read = (text: string) => readYaml(text, 'j.yaml');
const faults = (text: string): string[] => read(text).issues.map(({ message }) => message);

describe('readYaml', () => {
  it('takes every text as it stands there, and knows where', () => {
    const { entries, defaults, formats, book, issues } = read(`defaults:
  layout: band
  number: 0012
formats: [pdf, dxf]
book: bands.pdf
pieces:
  - piece: 007
    date: 2026-03-14
    mark: [37.5:lug, "90"]
    windows: yes
  - { piece: 1e3, pipe: NPS 2 sch 40 }
`);
    expect(issues).toEqual([]);
    expect(defaults?.texts).toEqual({ number: '0012' });
    expect(formats.map(({ text }) => text)).toEqual(['pdf', 'dxf']);
    expect(book?.text).toBe('bands.pdf');
    expect(entries.map(({ texts }) => texts)).toEqual([
      { piece: '007', date: '2026-03-14', mark: ['37.5:lug', '90'], windows: 'yes' },
      { piece: '1e3', pipe: 'NPS 2 sch 40' },
    ]);
    expect(entries[0]?.placeOf('date')).toEqual({ file: 'j.yaml', line: 8, column: 11 });
    expect(entries[1]?.place).toEqual({ file: 'j.yaml', line: 11, column: 5 });
  });

  it('lets pieces share by reference', () => {
    const { entries, issues } = read('pieces:\n  - &a { layout: band, pipe: NPS 2 sch 40 }\n  - *a\n');
    expect(issues).toEqual([]);
    expect(entries.map(({ texts }) => texts.pipe)).toEqual(['NPS 2 sch 40', 'NPS 2 sch 40']);
  });

  it.each([
    ['several faults at once', 'piezes: []\nangle: 3\n', [/1:1: .*"piezes"/, /2:1: .*"angle"/]],
    ['a group where pieces are listed', 'pieces:\n  a: 1\n', [/2:3: pieces cannot be a group/]],
    [
      'a group for a text',
      'pieces:\n  - layout: band\n    pipe: { a: 1 }\n',
      [/3:11: pipe cannot be a group/],
    ],
    ['lists in lists', 'pieces:\n  - { layout: band, mark: [[1]] }\n', [/mark cannot be/]],
    [
      'texts for pieces',
      'pieces:\n  - x\n  -\n',
      [/2:5: the piece cannot be "x"/, /3:4: the piece cannot be empty/],
    ],
    ['an empty file', '', [/1:1: the file cannot be empty/]],
    ['a key twice', 'book: a.pdf\nbook: b.pdf\n', [/2:1: the key stands here a second time/]],
    ['a second document', 'pieces: []\n---\npieces: []\n', [/2:1: a second document/]],
    ['a tag that would run code', 'pieces: !!js/function "x"\n', [/1:9: a tag/]],
    ['a tab as indentation', 'pieces:\n\t- { layout: band }\n', [/2:1: a tab stands before the text$/]],
    ['keys out of line', 'pieces:\n  - layout: band\n   piece: B1\n', [/3:1: this is not in line/]],
    ['a colon in a text', 'pieces:\n  - { layout: band }\n  - piece: a: b\n', [/3:12: a second key/]],
    ['a key without a colon', 'pieces:\n  - layout band\n    piece: B1\n', [/2:5: there is no colon/]],
    ['a backslash in double quotes', 'book: "C:\\x"\n', [/1:10: a backslash/]],
    ['a quote that is not closed', 'book: "x\npieces: []\n', [/3:1: a quote before this place/]],
    ['a bracket that is not closed', 'pieces: [{ layout: band }\n', [/2:1: a bracket before this place/]],
    ['text after a quote', 'book: "1/8""\n', [/1:12: this cannot be read$/]],
    ['a star that names nothing', 'pieces:\n  - piece: *M1\n', [/2:12: the reference \*M1 names nothing/]],
    ['a tag of its own', 'pieces:\n  - { layout: !band x }\n', [/2:15: a tag/]],
  ])('tells %s', (_what, text, wanted) => {
    const found = faults(text);
    expect(found).toHaveLength(wanted.length);
    wanted.forEach((pattern, i) => expect(found[i]).toMatch(pattern));
  });

  it('is not fooled by names that objects have of themselves', () => {
    expect(faults('__proto__: { a: b }\npieces: []\n')).toHaveLength(1);
    const { entries } = read('pieces:\n  - { layout: band, __proto__: x, constructor: y, "<<": { a: b } }\n');
    expect(Object.keys(entries[0]?.texts ?? {})).toEqual(['__proto__', 'constructor', '<<']);
    expect(({} as Record<string, unknown>).a).toBeUndefined();
  });
});

describe('hostile YAML', () => {
  const nine = (name: string): string => `[${Array(9).fill(`*${name}`).join(', ')}]`;
  it.each([
    [
      'references that multiply',
      `a: &a [${Array(9).fill('x').join(', ')}]\n${['b', 'c', 'd', 'e', 'f', 'g'].map((name, i) => `${name}: &${name} ${nine('abcdef'[i]!)}\n`).join('')}`,
    ],
    ['a reference to itself', 'pieces: &a [*a]\n'],
    ['lists nested in a line', '['.repeat(200_000)],
    ['groups nested in a line', '{a: '.repeat(100_000)],
    ['dashes in a line', '- '.repeat(100_000)],
    ['indentation without end', Array.from({ length: 2000 }, (_, i) => `${' '.repeat(i)}a:\n`).join('')],
    ['too many pieces', `pieces:\n${'  - {}\n'.repeat(limits.pieces + 1)}`],
    ['control characters', '\u0000\u0001\u001b[2J'],
  ])('is refused, and nothing of it read: %s', (_what, text) => {
    const { entries, issues } = read(text);
    expect(issues.length).toBeGreaterThan(0);
    expect(entries).toEqual([]);
  });

  it('is refused or read, whatever it is, without an exception', () => {
    const scraps = fc.constantFrom(
      'a',
      ': ',
      '- ',
      '\n',
      '  ',
      '[',
      ']',
      '{',
      '}',
      '&a ',
      '*a',
      '!t ',
      '"',
      "'",
      '|',
      '>',
      '#',
      '%',
      '?',
      'pieces:',
      'layout: band',
      '\t',
      '---\n',
    );
    fc.assert(
      fc.property(fc.array(scraps, { maxLength: 60 }), (parts) => void read(parts.join(''))),
      { numRuns: 2000 },
    );
  });
});

it('a piece whose mark is empty goes by its place', () => {
  const place = { file: 'a.yaml', line: 3, column: 12 };
  const own = { file: 'a.yaml', line: 2, column: 5 };
  const issue = { code: 'no-value', path: 'piece', message: 'no value is given', hint: 'give it' };
  expect(placePieceIssue(issue, place, { mark: '', place: own })).toMatchObject({
    message: 'a.yaml:3:12: piece: no value is given',
    piece: { name: 'a.yaml:2:5' },
  });
});
