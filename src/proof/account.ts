import { BeyondLimit, limits } from './limits.ts';
import type { PdfObjects } from './pdf-document.ts';
import { roles } from './record.ts';
import {
  isArray,
  isDict,
  isName,
  isRef,
  isStream,
  isText,
  tellValue,
  textOf,
  type PdfDict,
  type PdfValue,
} from './pdf-values.ts';
import { say } from '../words/say.ts';

/**
 * An account of the whole document: every object that can be reached from the trailer is of a kind the program writes, with the
 * entries the program gives it, and nothing else. What a viewer might show, run or print besides the pages that are measured
 * (annotations, forms, scripts, other layer states, boxes that hide part of a page, files, fonts of another kind) stands in
 * some entry, and every entry that is not known is a fault.
 */
export interface Account {
  readonly faults: readonly string[];
  /** How many values were looked at. */
  readonly values: number;
}

interface Walk {
  readonly objects: PdfObjects;
  readonly faults: string[];
  readonly seen: Map<Check, Set<PdfValue>>;
  values: number;
}

/** Holds one value against what may stand in its place; `where` names the place in words. */
type Check = (walk: Walk, value: PdfValue, where: string) => void;

/** More are not told. */
const mostFaults = 20;

const fault = ({ faults }: Walk, what: string): void => {
  if (faults.length < mostFaults) faults.push(what);
};

const visit = (walk: Walk, check: Check, value: PdfValue, where: string): void => {
  walk.values += 1;
  if (walk.values > limits.accounted) throw new BeyondLimit(say`the file holds more than any print`);
  check(walk, walk.objects.resolve(value) ?? null, where);
};

/** What passes `test`. */
const holds =
  (test: (value: PdfValue) => boolean, want: string): Check =>
  (walk, value, where) => {
    if (!test(value)) fault(walk, say`${where} is ${tellValue(value)}, not ${want}`);
  };

const number = () => holds((v) => typeof v === 'number', say`a number`);
const text = holds((v) => isText(v), 'text');
const anyName = () => holds((v) => isName(v), say`a name`);
const exactly = (wanted: number | boolean): Check => holds((v) => v === wanted, String(wanted));
const name = (...wanted: readonly string[]): Check =>
  holds((v) => isName(v) && wanted.includes(v.name), `/${wanted.join(say` or /`)}`);
const textIs = (wanted: string): Check => holds((v) => isText(v) && textOf(v) === wanted, `(${wanted})`);

/** A list of any length, or of the one given. */
const list =
  (each: Check, length?: number): Check =>
  (walk, value, where) => {
    if (!isArray(value) || (length !== undefined && value.length !== length))
      return fault(
        walk,
        say`${where} is ${tellValue(value)}, not a list${length === undefined ? '' : say` of ${length}`}`,
      );
    value.forEach((item, i) => visit(walk, each, item, `${where} ${i + 1}`));
  };

type Entries = Readonly<Record<string, Check>>;

const checkEntries = (
  walk: Walk,
  dict: PdfDict,
  where: string,
  known: Entries,
  needed: readonly string[],
): void => {
  for (const [key, value] of dict) {
    const check = Object.hasOwn(known, key) ? known[key] : undefined;
    if (check === undefined) fault(walk, say`${where} has an entry /${key.slice(0, 40)} that no print has`);
    else visit(walk, check, value, `${where} /${key}`);
  }
  for (const key of needed) if (!dict.has(key)) fault(walk, say`${where} has no entry /${key}`);
};

/** A dictionary with these entries and no other. Each is walked once, however many lead to it. */
const entries = (known: Entries, needed: readonly string[] = []): Check => {
  const check: Check = (walk, value, where) => {
    if (!isDict(value)) return fault(walk, say`${where} is ${tellValue(value)}, not a dictionary`);
    const seen = walk.seen.get(check) ?? new Set();
    walk.seen.set(check, seen);
    if (seen.has(value)) return;
    seen.add(value);
    checkEntries(walk, value, where, known, needed);
  };
  return check;
};

/** How a stream is packed says nothing of what is in it. */
const packing: Entries = {
  Length: number(),
  Filter: () => undefined,
  DecodeParms: () => undefined,
};

const stream = (known: Entries): Check => {
  const inner = { ...packing, ...known };
  return (walk, value, where) => {
    if (!isStream(value)) return fault(walk, say`${where} is ${tellValue(value)}, not a stream`);
    checkEntries(walk, value.dict, where, inner, []);
  };
};

const none = entries({});
/** Names of the page tree and links to a page: read where the pages are. */
const elsewhere: Check = () => undefined;

const layer = entries(
  {
    Type: name('OCG'),
    Name: holds(
      (v) => isText(v) && (roles as readonly string[]).includes(textOf(v)),
      'the name of a layer that prints have',
    ),
    Intent: name('View'),
  },
  ['Name'],
);

const layers = entries(
  {
    OCGs: list(layer),
    // Only a state in which every layer is shown: no base state, no list of those off, no automatic states.
    D: entries({
      Name: text,
      Order: list(layer),
      ON: list(layer),
      BaseState: name('ON'),
      OFF: list(layer, 0),
    }),
  },
  ['OCGs', 'D'],
);

const attachment = entries({
  Type: name('Filespec'),
  AFRelationship: name('Source'),
  F: textIs('soapstone.json'),
  UF: textIs('soapstone.json'),
  EF: entries({
    F: stream({
      Type: name('EmbeddedFile'),
      Subtype: name('application/json'),
      Params: entries({ CreationDate: text, ModDate: text, CheckSum: text, Size: number() }),
    }),
  }),
});

/** A tree of names or numbers: pairs of a key and a value, or further nodes. */
const tree = (key: 'Names' | 'Nums', value: Check): Check => {
  const pairs: Check = (walk, items, where) => {
    if (!isArray(items)) return fault(walk, say`${where} is ${tellValue(items)}, not a list`);
    items.forEach((item, i) => {
      if (i % 2 === 1) visit(walk, value, item, `${where} ${(i + 1) / 2}`);
    });
  };
  const node: Check = entries({
    [key]: pairs,
    Limits: list(() => undefined, 2),
    Kids: (walk, kids, where) => {
      list(node)(walk, kids, where);
    },
  });
  return node;
};

const bookmarkEntries: Entries = {
  Title: text,
  Parent: elsewhere,
  Prev: elsewhere,
  Next: elsewhere,
  First: (walk, value, where) => {
    bookmarks(walk, value, where);
  },
  Last: elsewhere,
  Count: number(),
  Dest: (walk, value, where) => {
    if (!isArray(value) || value.length !== 2 || !isRef(value[0]) || !isName(value[1]))
      fault(walk, say`${where} leads to no page`);
  },
};

/** A bookmark and all that come after it. That they end has been seen where they were read. */
const bookmarks: Check = (walk, first, where) => {
  const next = (of: PdfDict): PdfValue => walk.objects.resolve(of.get('Next')) ?? null;
  for (let at = first; isDict(at); at = next(at)) checkEntries(walk, at, where, bookmarkEntries, ['Title']);
};

const preferences = entries(
  {
    DisplayDocTitle: exactly(true),
    PrintScaling: name('None'),
    Enforce: list(name('PrintScaling'), 1),
    PickTrayByPDFSize: exactly(true),
    Duplex: name('Simplex'),
    NumCopies: exactly(1),
  },
  ['PrintScaling', 'Enforce'],
);

const fontNames = /^[A-Z]{6}\+DejaVuSansCondensed(-Bold)?$/;
const fontName = () => holds((v) => isName(v) && fontNames.test(v.name), say`the lettering font`);

const descriptor = entries({
  Type: name('FontDescriptor'),
  FontName: fontName(),
  Flags: number(),
  FontBBox: list(number(), 4),
  ItalicAngle: number(),
  Ascent: number(),
  Descent: number(),
  CapHeight: number(),
  XHeight: number(),
  StemV: number(),
  FontFile2: stream({ Length1: number() }),
});

const innerFont = entries({
  Type: name('Font'),
  Subtype: name('CIDFontType2'),
  BaseFont: fontName(),
  CIDSystemInfo: entries({ Registry: textIs('Adobe'), Ordering: textIs('Identity'), Supplement: number() }),
  FontDescriptor: descriptor,
  W: elsewhere,
  CIDToGIDMap: name('Identity'),
});

const font = entries({
  Type: name('Font'),
  Subtype: name('Type0'),
  BaseFont: fontName(),
  Encoding: name('Identity-H'),
  DescendantFonts: list(innerFont, 1),
  ToUnicode: stream({}),
});

/** A dictionary of any names, each with a value of one kind. */
const named =
  (each: Check): Check =>
  (walk, value, where) => {
    if (!isDict(value)) return fault(walk, say`${where} is ${tellValue(value)}, not a dictionary`);
    for (const [key, item] of value) visit(walk, each, item, `${where} /${key.slice(0, 40)}`);
  };

const resources = entries({
  ProcSet: list(anyName()),
  Properties: named(layer),
  Font: named(font),
  ColorSpace: none,
  ExtGState: none,
  XObject: none,
  Pattern: none,
  Shading: none,
});

const numberFormat = entries({ Type: name('NumberFormat'), U: text, C: number(), F: name('D'), D: number() });
const formats = list(numberFormat, 1);
const viewport = entries({
  Type: name('Viewport'),
  BBox: list(number(), 4),
  Name: text,
  Measure: entries({
    Type: name('Measure'),
    Subtype: name('RL'),
    R: text,
    X: formats,
    Y: formats,
    CYX: exactly(1),
    D: formats,
    A: formats,
    O: list(number(), 2),
  }),
});

/** Every page has content of its own. */
const contents: Check = (walk, value, where) => {
  const drawn = stream({});
  const seen = walk.seen.get(contents) ?? new Set();
  walk.seen.set(contents, seen);
  const one: Check = (_walk, content, at) => {
    if (seen.has(content)) fault(walk, say`${at} is drawn on another page too`);
    seen.add(content);
    drawn(walk, content, at);
  };
  if (isArray(value)) list(one)(walk, value, where);
  else one(walk, value, where);
};

const pageEntries: Entries = {
  Type: name('Page'),
  Parent: elsewhere,
  MediaBox: list(number(), 4),
  Contents: contents,
  Resources: resources,
  UserUnit: exactly(1),
  Rotate: exactly(0),
  VP: list(viewport),
};

const hidingBoxes = ['CropBox', 'BleedBox', 'TrimBox', 'ArtBox'] as const;

/** Any other box must be the whole page: what lies outside it is not shown, not printed or cut away. */
const isWholePage = (box: PdfValue | undefined, media: PdfValue | undefined): boolean =>
  box === undefined ||
  (isArray(box) && isArray(media) && box.length === 4 && box.every((side, i) => side === media[i]));

const page: Check = (walk, value, where) => {
  if (!isDict(value)) return fault(walk, say`${where} is ${tellValue(value)}, not a page`);
  const { resolve } = walk.objects;
  const kept = new Map(value);
  for (const key of hidingBoxes) {
    if (!isWholePage(resolve(kept.get(key)), resolve(kept.get('MediaBox'))))
      fault(walk, say`${where} shows only part of the paper (/${key})`);
    kept.delete(key);
  }
  checkEntries(walk, kept, where, pageEntries, ['MediaBox', 'Contents', 'Resources']);
};

/** Pages hand their size, resources and turning down to those below. */
const pageTree: Check = (walk, value, where) => {
  const root: Check = entries({
    Type: name('Pages'),
    Count: number(),
    Parent: elsewhere,
    Kids: (_walk, kids) => {
      if (isArray(kids))
        for (const kid of kids) {
          const below = walk.objects.resolve(kid);
          if (isDict(below) && isName(below.get('Type')) && !below.has('Kids')) continue;
          visit(walk, root, kid, where);
        }
    },
    MediaBox: list(number(), 4),
    Resources: resources,
    Rotate: exactly(0),
  });
  root(walk, value, where);
};

const catalog = entries(
  {
    Type: name('Catalog'),
    Version: anyName(),
    Pages: pageTree,
    Names: entries({ Dests: tree('Names', elsewhere), EmbeddedFiles: tree('Names', attachment) }),
    Lang: text,
    ViewerPreferences: preferences,
    OCProperties: layers,
    PageLabels: tree('Nums', entries({ Type: name('PageLabel'), P: text })),
    AF: list(attachment),
    Outlines: entries({
      Type: name('Outlines'),
      First: bookmarks,
      Last: elsewhere,
      Count: number(),
    }),
    PageMode: name('UseOutlines', 'UseNone'),
    Metadata: stream({ Type: name('Metadata'), Subtype: name('XML'), length: number() }),
  },
  ['Pages', 'OCProperties', 'ViewerPreferences', 'Names'],
);

const trailerEntries: Entries = {
  Size: number(),
  Root: catalog,
  Info: (walk, value, where) => {
    if (!isDict(value)) return fault(walk, say`${where} is ${tellValue(value)}, not a dictionary`);
    for (const [key, item] of value)
      visit(walk, key === 'Trapped' ? anyName() : text, item, `${where} /${key.slice(0, 40)}`);
  },
  ID: list(text, 2),
  Prev: number(),
  // Of a cross-reference stream, whose dictionary is the trailer.
  Type: name('XRef'),
  W: list(number(), 3),
  Index: list(number()),
  ...packing,
};

/** Takes the account of an open file whose pages have been found. */
export const takeAccount = (objects: PdfObjects, pages: readonly PdfDict[]): Account => {
  const walk: Walk = { objects, faults: [], seen: new Map(), values: 0 };
  checkEntries(walk, objects.trailer, say`the trailer`, trailerEntries, ['Root']);
  pages.forEach((one, i) => visit(walk, page, one, say`page ${i + 1}`));
  return { faults: walk.faults, values: walk.values };
};
