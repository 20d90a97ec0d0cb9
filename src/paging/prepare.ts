import { markBounds } from '../drawing/extent.ts';
import type { Sheet, WrittenSheet } from '../drawing/model.ts';
import type { Role } from '../drawing/role.ts';
import { unionBox } from '../drawing/paths.ts';
import { writeSheet } from '../drawing/written.ts';
import { say } from '../words/say.ts';
import type { Block } from './block.ts';
import { cardsOf } from './card-pages.ts';
import { inkBands } from './ink.ts';
import type { Prepared } from './lay-sheet.ts';
import type { PagingOptions } from './options.ts';
import { pictureBlock } from './picture-block.ts';
import { settleBox, settleSheet } from './settle.ts';
import { isSignedOff, signOffBlock } from './sign-off.ts';
import { tableBlock } from './table-block.ts';
import { type Also, cautionsBlock, factsBlock, stepsBlock } from './text-blocks.ts';

/** A block with what it says, so that it is known again beside another sheet's. */
const saying = (block: Block, content: unknown): Block => {
  let text: string | undefined;
  return { ...block, says: () => (text ??= JSON.stringify(content)) };
};

const blocksOf = (sheet: WrittenSheet, { second }: PagingOptions): Block[] => {
  const { also, pictures, tables, steps, facts, cautions } = sheet;
  const other = (texts: readonly string[] | undefined): Also | undefined =>
    second === undefined || texts === undefined ? undefined : { language: second, texts };
  return [
    ...pictures.map((picture) => saying(pictureBlock(picture), picture)),
    ...tables
      .filter(({ rows }) => rows.length > 0)
      .map((table) => ({ ...saying(tableBlock(table), table), isSpare: table.ifRoom })),
    ...(steps.length > 0 ? [saying(stepsBlock(steps, other(also?.steps)), steps)] : []),
    ...(facts.length > 0 ? [saying(factsBlock(facts, also?.labels), facts)] : []),
    saying(cautionsBlock(cautions, other(also?.cautions)), cautions),
    ...(isSignedOff(sheet) ? [saying(signOffBlock(), '')] : []),
  ];
};

const inBoth = (text: string, other: string | undefined): string =>
  other === undefined || other === text ? text : `${text} · ${other}`;

/** A sheet in two languages with both in its heading, and where they are wanted in its subject, its titles and its labels. */
export const withBoth =
  (parts: readonly ('subject' | 'titles' | 'labels')[]) =>
  (sheet: Sheet): Sheet => {
    const { also, heading, subject, tables, pictures } = sheet;
    if (also === undefined) return sheet;
    const more = parts.includes('subject') ? also.subject.filter((line) => !subject.includes(line)) : [];
    const titles = (
      own: readonly { readonly title: string }[],
      others: readonly string[],
    ): readonly string[] =>
      own.map(({ title }, i) => (parts.includes('titles') ? inBoth(title, others[i]) : title));
    const [tableTitles, pictureTitles] = [titles(tables, also.tables), titles(pictures, also.pictures)];
    return {
      ...sheet,
      heading: inBoth(heading, also.heading),
      subject: [...subject, ...more],
      tables: tables.map((table, i) => ({ ...table, title: tableTitles[i] ?? table.title })),
      pictures: pictures.map((picture, i) => ({ ...picture, title: pictureTitles[i] ?? picture.title })),
      also: parts.includes('labels') ? also : { ...also, labels: [] },
    };
  };

/** The heading, and how many are made from the sheet where it is more than one. */
const headingOf = ({ heading, make = 1 }: Sheet, { title }: PagingOptions): string => {
  if (make <= 1) return heading;
  const pieces = Number(title.quantity ?? 1);
  return pieces > 1
    ? say`${heading}: make ${make * pieces} (${make} for each piece)`
    : say`${heading}: make ${make}`;
};

/** Lines of these roles are laid on the steel; a drawing without any is a figure. */
const fullSizeRoles: ReadonlySet<Role> = new Set(['cut', 'bend', 'punch', 'station', 'reference', 'scale']);

export const prepare = (drawn: Sheet, options: PagingOptions): Prepared => {
  const sheet = settleSheet(drawn);
  const boxed = sheet.marks.map((mark) => ({ mark, box: settleBox(markBounds(mark)) }));
  const written = writeSheet(sheet, options);
  return {
    name: sheet.name,
    heading: headingOf(sheet, options),
    subject: sheet.subject,
    marks: sheet.marks,
    isFullSize: sheet.marks.some(({ role }) => fullSizeRoles.has(role)),
    drawing: {
      bounds: unionBox([sheet.bounds, ...boxed.map(({ box }) => box)]),
      boxed,
      ink: inkBands(sheet.marks),
    },
    cards: cardsOf((sheet.cards ?? []).map(settleBox), boxed),
    blocks: blocksOf(written, options),
    says: {
      steps: JSON.stringify(sheet.steps),
      cautions: JSON.stringify(sheet.cautions),
      pictures: JSON.stringify(sheet.pictures.map(({ title }) => title)),
    },
  };
};
