import fc from 'fast-check';
import { isRequired, listInputs } from '../../src/fields/describe.ts';
import type { Field } from '../../src/fields/field.ts';
import type { Layout } from '../../src/fields/layout.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { paperNames } from '../../src/paging/paper.ts';
import { formats, type Format } from '../../src/render/formats.ts';

/** One request as a person might type it, sensible or not. */
export interface FuzzRequest {
  readonly layout: string;
  readonly texts: Readonly<Record<string, string | readonly string[]>>;
  /** The format it is written in besides the print. */
  readonly also: Format;
}

type Asked = Omit<FuzzRequest, 'also'>;

/** What no reader may stumble over. */
const junk = fc.constantFrom(
  '', ' ', '-', '0', '-1', '1e9', 'NaN', 'Infinity', 'constructor', '__proto__', 'toString', '5', '1/0', "1'-", '½"',
  '999999999999mm', '0.0000001mm', '٣mm', 'é', 'e\u0301', '\u0000', '\u202e5mm', '漢', '😀', 'a\nb', '<b>&"\'', '$(id)',
  '%s%n', '../../x', 'x'.repeat(3000), '='.repeat(90), '1:0', '90°90', '360', '-360',
); // prettier-ignore

const digits = (value: number): string => String(Number(value.toPrecision(4)));

/** A size from a tenth of a millimetre to ten metres, most of them those of a shop. */
const size = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: Math.log(5), max: Math.log(800), noNaN: true }) },
  { weight: 1, arbitrary: fc.double({ min: Math.log(0.001), max: Math.log(1e5), noNaN: true }) },
).map(Math.exp); // prettier-ignore

const length = fc
  .tuple(size, fc.constantFrom('mm', 'mm', 'in', 'cm', 'ft', '"', '-5/8in', '\'-3 1/2"', ''), fc.boolean())
  .map(([mm, unit, isMinus]) => {
    const value =
      unit === 'mm' || unit === '' ? digits(mm)
      : unit === 'cm' ? digits(mm / 10)
      : unit === 'ft' ? digits(mm / 304.8)
      : unit === 'in' || unit === '"' ? digits(mm / 25.4)
      : String(Math.floor(mm / (unit.startsWith('-') ? 25.4 : 304.8))); // prettier-ignore
    return `${isMinus && mm < 20 ? '-' : ''}${value}${unit}`;
  });

const angle = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: 0.5, max: 179.5, noNaN: true }).map(digits) },
  { weight: 2, arbitrary: fc.constantFrom('90', '45', '60', '30', '22.5', '0', '180', '1:12', '3in/ft', '5%', '22°30\'') }, // prettier-ignore
  { weight: 1, arbitrary: fc.constantFrom('0.01', '0.000000001', '89.98', '89.9999999', '179.999', '-30', '359.9') }, // prettier-ignore
);

const pipe = fc.oneof(
  fc
    .tuple(
      fc.constantFrom(
        '1/2',
        '1',
        '1-1/2',
        '2',
        '2 1/2',
        '3',
        '4',
        '6',
        '8',
        '10',
        '12',
        '16',
        '24',
        '36',
        '48',
      ),
      fc.constantFrom('sch 40', 'sch 80', 'STD', 'XS', 'XXS', 'sch 10S', 'sch 5', 'wall 5mm'),
    )
    .map(([nps, wall]) => `NPS ${nps} ${wall}`),
  fc
    .tuple(
      fc.constantFrom('15', '25', '50', '80', '100', '150', '200', '300', '600'),
      fc.constantFrom('sch 40', 'sch 80', 'STD'),
    ) // prettier-ignore
    .map(([dn, wall]) => `DN ${dn} ${wall}`),
  fc.tuple(size, fc.double({ min: 0.01, max: 0.6, noNaN: true })).map(([od, k]) => `OD ${digits(od)}mm wall ${digits(od * k)}mm`), // prettier-ignore
);

/** Designations of every kind that some help example or field shows, from which others are made by changing numbers. */
const shown: readonly string[] = [
  ...new Set(
    layouts.flatMap((layout) => [
      ...[...listInputs(layout).values()].filter(({ kind }) => kind === 'designation' || kind === 'stock').map(({ example }) => example), // prettier-ignore
      ...layout.examples.flatMap((line) => [...line.matchAll(/"([^"]+)"/g)].map((found) => found[1] ?? '')),
    ]),
  ),
];

const changed = fc
  .tuple(
    fc.constantFrom(...shown),
    fc.infiniteStream(fc.double({ min: 0.2, max: 5, noNaN: true })),
    fc.boolean(),
  )
  .map(([text, factors, isPlain]) =>
    isPlain
      ? text
      : text.replace(/\d+(?:\.\d+)?/g, (number) => {
          const { value } = factors.next() as { readonly value: number };
          return digits(Number(number) * value);
        }),
  );

const word = fc.oneof(
  { weight: 5, arbitrary: fc.constantFrom('S12-3', 'lug', 'codo 90°', 'Ø lateral', 'pump house') },
  { weight: 1, arbitrary: fc.string({ unit: 'grapheme', maxLength: 90 }) },
);

const good = (field: Field<unknown>): fc.Arbitrary<string> => {
  switch (field.kind) {
    case 'length':
      return length;
    case 'angle':
      return angle;
    case 'count':
      return fc.oneof({ weight: 6, arbitrary: fc.integer({ min: 1, max: 40 }) }, { weight: 1, arbitrary: fc.integer() }).map(String); // prettier-ignore
    case 'number':
      return fc.double({ min: 0.001, max: 20, noNaN: true }).map(digits);
    case 'choice':
    case 'flag':
      return fc.constantFrom(...(field.choices ?? ['yes', 'no']));
    case 'text':
      return word;
    case 'stock':
      return fc.oneof({ weight: 3, arbitrary: pipe }, { weight: 1, arbitrary: changed });
    case 'mark':
      return fc.tuple(angle, word).map(([at, label]) => `${at}:${label}`);
    case 'designation':
      return fc.oneof(changed, pipe);
  }
};

const textOf = (field: Field<unknown>): fc.Arbitrary<string> => {
  const one = fc.oneof(
    { weight: 40, arbitrary: good(field) },
    { weight: 12, arbitrary: fc.constant(field.example) },
    { weight: 1, arbitrary: junk },
  );
  return field.list === true
    ? fc.array(one, { minLength: 1, maxLength: 5 }).map((texts) => texts.join(','))
    : one;
};

const valueOf = (field: Field<unknown>): fc.Arbitrary<string | readonly string[]> =>
  field.many ? fc.array(textOf(field), { minLength: 1, maxLength: 4 }) : textOf(field);

const requestOf = (layout: Layout): fc.Arbitrary<Asked> => {
  const inputs = [...listInputs(layout)];
  const own = new Set(Object.keys(layout.fields).length === 0 ? [] : inputs.slice(0, Object.keys(layout.fields).length).map(([name]) => name)); // prettier-ignore
  return fc
    .tuple(
      ...inputs.map(([name, field]) => {
        const chance = isRequired(field) ? 40 : own.has(name) ? 3 : 1;
        const rest = isRequired(field) ? 1 : own.has(name) ? 4 : 12;
        return fc.oneof(
          { weight: chance, arbitrary: valueOf(field).map((value) => [name, value] as const) },
          { weight: rest, arbitrary: fc.constant(undefined) },
        );
      }),
    )
    .map((entries) => ({
      layout: layout.id,
      texts: Object.fromEntries(entries.filter((entry) => entry !== undefined)),
    }));
};

/** A command line of the help as a request. */
const readExample = (layout: Layout, line: string): Asked => {
  const texts: Record<string, string | readonly string[]> = {};
  for (const [, name = '', quoted, plain] of line.matchAll(/--([a-z-]+)(?:[ =](?:"([^"]*)"|([^-\s]\S*)))?/g))
    texts[name] = [...[texts[name] ?? []].flat(), quoted ?? plain ?? 'yes'];
  const known = listInputs(layout);
  const isOne = (name: string): boolean => known.get(name)?.many !== true;
  return {
    layout: layout.id,
    texts: Object.fromEntries(
      Object.entries(texts).map(([name, value]) => [name, isOne(name) ? ([value].flat()[0] ?? '') : value]),
    ),
  };
};

/** An example of the help with one to three of its inputs changed. */
const exampleOf = (layout: Layout): fc.Arbitrary<Asked> => {
  const inputs = [...listInputs(layout)];
  const change = fc
    .constantFrom(...inputs)
    .chain(([name, field]) => valueOf(field).map((value) => [name, value] as const));
  return fc
    .tuple(fc.constantFrom(...layout.examples), fc.array(change, { minLength: 1, maxLength: 3 }))
    .map(([line, changes]) => {
      const { texts } = readExample(layout, line);
      return { layout: layout.id, texts: { ...texts, ...Object.fromEntries(changes) } };
    });
};

/** Every paper known, and one of a person's own. */
const papers = fc.constantFrom(...paperNames, '200x150mm');

/** Layouts of which a print takes a second or so, asked a fourth as often as the others. */
const slow = new Set([
  'turn',
  'breech',
  'transition',
  'cone',
  'wye',
  'rolling-offset',
  'hopper',
  'piece',
  'orange-peel',
]);

const asked: fc.Arbitrary<Asked> = fc.oneof(
  ...layouts.flatMap((layout) => {
    const weight = slow.has(layout.id) ? 1 : 4;
    return [
      { weight, arbitrary: requestOf(layout) },
      { weight: 2 * weight, arbitrary: exampleOf(layout) },
    ];
  }),
);

/** Requests of all layouts: some put together at random, more of them examples with something changed, half with a paper of their own. */
export const requests: fc.Arbitrary<FuzzRequest> = fc
  .tuple(asked, fc.option(papers), fc.constantFrom(...formats.filter((format) => format !== 'pdf')))
  .map(([{ layout, texts }, paper, also]) => ({
    layout,
    texts: paper === null || 'paper' in texts ? texts : { ...texts, paper },
    also,
  }));
