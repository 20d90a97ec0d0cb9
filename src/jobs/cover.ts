import { textWidth } from '../drawing/lettering.ts';
import type { Sheet, Table } from '../drawing/model.ts';
import { spellInput } from '../fields/describe.ts';
import { identify } from '../identity.ts';
import { tellAsked } from '../paging/book.ts';
import type { TitleFields } from '../paging/options.ts';
import { paginate, type Paged } from '../paging/paginate.ts';
import type { Request } from '../request.ts';
import { nameOf } from '../words/captions.ts';
import { say } from '../words/say.ts';
import type { BookWork, Work } from './plan.ts';

/** One line of a book's index. */
export interface IndexRow {
  readonly work: Work;
  readonly subject: string;
  readonly identity: string;
  /** The first of its pages, where the page after the index is 1, and how many they are; other pieces may be on them. */
  readonly first: number;
  readonly pages: number;
}

/** So many rows under one head: two such tables stand on a page. */
const rowsPerTable = 18;
const lettering = 2.5;
/** What columns and frame take beside the words of an index, mm. */
const frame = 14;
const columnGap = 1.6 * lettering;

const cutText = (text: string, width: number): string => {
  if (textWidth(text, lettering, false) <= width) return text;
  let short = text;
  while (short !== '' && textWidth(`${short}…`, lettering, false) > width)
    short = [...short].slice(0, -1).join('');
  return `${short.trimEnd()}…`;
};

const textOf = (value: string | readonly string[] | undefined): string => [value ?? []].flat().join(', ');

interface Column {
  readonly head: string;
  readonly cells: readonly string[];
  /** Its texts may be cut where there is no room. */
  readonly mayBeCut?: true;
}

/** Inputs that every piece has alike or that say nothing of its shape. */
const ownInputs = (work: Work): readonly string[] =>
  Object.keys(work.piece.request.layout.fields).map(spellInput);

/** Of each layout, the inputs that its pieces do not all have alike. */
const listDiffering = (rows: readonly IndexRow[]): ReadonlyMap<string, readonly string[]> => {
  const values = new Map<string, Map<string, Set<string>>>();
  for (const { work } of rows) {
    const { layout, spec } = work.piece.request;
    const ofLayout = values.get(layout.id) ?? new Map<string, Set<string>>();
    values.set(layout.id, ofLayout);
    for (const name of ownInputs(work))
      ofLayout.set(name, (ofLayout.get(name) ?? new Set<string>()).add(textOf(spec[name])));
  }
  return new Map(
    [...values].map(([id, ofLayout]) => [
      id,
      [...ofLayout].filter(([, texts]) => texts.size > 1).map(([name]) => name),
    ]),
  );
};

/** For each piece, the inputs by which pieces of its layout differ, and their values: `angle 45°, offset 30mm`. */
const tellApart = (rows: readonly IndexRow[]): readonly string[] => {
  const differing = listDiffering(rows);
  return rows.map(({ work, subject }) => {
    const { layout, spec } = work.piece.request;
    return (differing.get(layout.id) ?? [])
      .map((name) => [name, textOf(spec[name])] as const)
      .filter(([, value]) => value !== '' && !subject.includes(value))
      .map(
        ([name, value]) =>
          `${nameOf(name, layout.id).replaceAll('-', ' ')} ${/^[\d.]+$/.test(value) && isAngle(work, name) ? `${value}°` : value}`,
      )
      .join(', ');
  });
};

const isAngle = ({ piece: { request } }: Work, name: string): boolean =>
  Object.entries(request.layout.fields).some(
    ([key, field]) => spellInput(key) === name && field.kind === 'angle',
  );

/** Columns of the index, without those that no piece fills; descriptions are cut to the room the paper leaves them. */
const listColumns = (rows: readonly IndexRow[], coverPages: number, room: number): readonly Column[] => {
  const fields = (name: string): readonly string[] =>
    rows.map(({ work }) => textOf(work.piece.request.spec[name]));
  const pages = rows.map(({ first }) => String(coverPages + first));
  const apart = tellApart(rows);
  const what = rows.map(({ work, subject }, i) => {
    const { spec, layout } = work.piece.request;
    // What sets it apart comes first, since the end is cut off where the paper is narrow.
    const words = [
      nameOf(layout.id),
      textOf(spec.title),
      apart[i] ?? '',
      spec.title === undefined ? subject : '',
    ];
    return words.filter((text) => text !== '').join(' · ');
  });
  const columns: readonly Column[] = [
    { head: say`Piece`, cells: rows.map(({ work }) => work.piece.mark ?? work.name) },
    { head: say`What`, cells: what, mayBeCut: true },
    { head: say`Quantity`, cells: fields('quantity') },
    { head: say`Revision`, cells: fields('revision') },
    { head: say`Identity`, cells: rows.map(({ identity }) => identity) },
    { head: say`Page`, cells: pages },
  ];
  const filled = columns.filter(({ cells }) => cells.some((cell) => cell !== ''));
  const widthOf = ({ head, cells }: Column): number =>
    cells.reduce(
      (most, cell) => Math.max(most, textWidth(cell, lettering, false)),
      textWidth(head, lettering, true),
    ) + columnGap;
  const others = filled
    .filter(({ mayBeCut }) => mayBeCut !== true)
    .reduce((sum, column) => sum + widthOf(column), 0);
  return filled.map((column) =>
    column.mayBeCut === true
      ? { ...column, cells: column.cells.map((cell) => cutText(cell, Math.max(20, room - others))) }
      : column,
  );
};

const tableOf = (columns: readonly Column[], count: number): readonly Table[] =>
  Array.from({ length: Math.ceil(count / rowsPerTable) }, (_, t) => {
    const [first, end] = [t * rowsPerTable, Math.min(count, (t + 1) * rowsPerTable)];
    return {
      title: count <= rowsPerTable ? say`Pieces` : say`Pieces ${first + 1} to ${end} of ${count}`,
      header: columns.map(({ head }) => head),
      rows: Array.from({ length: end - first }, (_, r) => columns.map(({ cells }) => cells[first + r] ?? '')),
    };
  });

/** The title block's texts that all pieces share; a mark or a quantity is one piece's own. */
export const sharedTitle = (requests: readonly Request[]): TitleFields => {
  const [first, ...rest] = requests.map(({ paging }) => paging.title);
  const shared = Object.entries(first ?? {}).filter(
    ([key, value]) =>
      !['piece', 'quantity', 'title', 'documentType'].includes(key) &&
      rest.every((other) => other[key as keyof TitleFields] === value),
  );
  return Object.fromEntries(shared);
};

const requestsOf = (rows: readonly IndexRow[]): readonly Request[] =>
  rows.map(({ work }) => work.piece.request);

/** What the book is called: the job all its pieces are for, or else its file's name. */
export const titleBook = (file: string, rows: readonly IndexRow[]): string => {
  const { job } = sharedTitle(requestsOf(rows));
  const words = file.replace(/\.pdf$/i, '').replaceAll('-', ' ');
  return job ?? words.charAt(0).toUpperCase() + words.slice(1);
};

/** What holds for every piece: in full here, in one line on each sheet. */
const cautions = (): readonly string[] => [
  say`Before you mark: lay a steel rule on the scale checks of every page, 100 mm and 4 in, both ways. A page that is off is printed again, never made to fit.`,
  say`Measure the steel, not the drawing: outside, wall and how far it is out of round. Where a tape around it reads other than the sheet says, print again with the girth you measured.`,
  say`Compare the identity on each page with the index: a page of an older print has another.`,
  say`These sheets are geometry only. Pressure, strength, reinforcement and weld procedures are decided by qualified people under the code that rules the work.`,
  say`Before you cut or open anything that is or was in service: isolated, drained, cleaned and tested safe, with the permit the site asks for.`,
  say`Hot work: permit, fire watch, fresh air, no coating or galvanizing left in the heat. Eyes, ears, hands and lungs protected.`,
  say`Try every cut end in place, or against its mate, before you tack; check the whole before you weld out.`,
];

const count = (number: number, word: string): string => `${number} ${word}${number === 1 ? '' : 's'}`;

/** A book's cover: its index, on as many pages as it takes, on the paper of the first piece. */
export const layCover = (
  { file, sources, isWhole }: BookWork,
  rows: readonly IndexRow[],
): Paged & { readonly identity: string } => {
  const [first] = rows;
  if (first === undefined) throw new Error('a book without pieces has no cover');
  const { paging } = first.work.piece.request;
  const title = titleBook(file, rows);
  const last = rows.at(-1);
  const pages = last === undefined ? 0 : last.first + last.pages - 1;
  const identity = identify(
    rows.map((row) => [row.work.name, row.identity]),
    [],
  );
  const { paper } = paging;
  const across = paging.orientation === 'landscape' && paper.kind === 'sheet' ? paper.height : paper.width;
  const room = Math.min(across, 280) - 2 * paging.margin.sides - frame;
  const lay = (coverPages: number): Paged => {
    const sheet: Sheet = {
      name: 'index',
      heading: title,
      subject: [
        say`${count(rows.length, say`piece`)} on ${count(pages, say`page`)}, after ${count(coverPages, say`page`)} of index`,
        say`from ${sources.map((source) => source.replace(/.*[\\/]/, '')).join(', ')}`,
      ],
      marks: [],
      bounds: { minX: 0, minY: 0, maxX: 0, maxY: 0 },
      steps: [],
      facts: [],
      tables: tableOf(listColumns(rows, coverPages, room), rows.length),
      pictures: [],
      cautions: [
        ...(isWhole
          ? []
          : [
              say`Some pieces of the job are not in this book: they have faults, or were not asked for. Make it again to have them all.`,
            ]),
        ...cautions(),
      ],
    };
    return paginate([sheet], {
      ...paging,
      identity,
      title: { ...sharedTitle(requestsOf(rows)), documentType: say`Index`, title },
    });
  };
  // The index lists pages that come after its own, so it is laid out again until its length is the one assumed.
  let cover = lay(1);
  for (let tries = 0; tries < 5; tries++) {
    const next = lay(cover.pages.length);
    if (next.pages.length === cover.pages.length) {
      const asked = tellAsked(paging);
      return { ...next, pages: next.pages.map((page) => ({ ...page, asked })), identity };
    }
    cover = next;
  }
  throw new Error('the length of the index does not settle');
};
