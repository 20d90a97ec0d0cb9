import type { SecondWords, Sheet } from '../drawing/model.ts';

const wordsOf = ({
  heading,
  subject,
  steps,
  cautions,
  questions,
  facts,
  tables,
  pictures,
}: Sheet): SecondWords => ({
  heading,
  subject,
  steps,
  cautions,
  ...(questions && { questions }),
  labels: facts.map(([label]) => label),
  tables: tables.map(({ title }) => title),
  pictures: pictures.map(({ title }) => title),
});

/** Sheets with what the same sheets say in another language beside their own words. */
export const inTwo = (sheets: readonly Sheet[], others: readonly Sheet[]): readonly Sheet[] =>
  sheets.map((sheet, i) => {
    const other = others[i];
    return other === undefined ? sheet : { ...sheet, also: wordsOf(other) };
  });
