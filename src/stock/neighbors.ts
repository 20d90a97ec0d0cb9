/** The numbers in a label: `HSS 6x4x1/4` has 6, 4 and 0.25, `L 4x3-1/2x1/2` has 4, 3.5 and 0.5. */
const numbersIn = (label: string): readonly number[] =>
  [...label.matchAll(/(?:(\d+)-)?(\d+)\/(\d+)|\d+(?:\.\d+)?/g)].map(([text, whole = '0', n, d]) =>
    n === undefined ? Number(text) : Number(whole) + Number(n) / Number(d),
  );

/** How unlike two labels' sizes are: the first number counts most. */
const unlike = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + Math.abs(Math.log((value || 1) / (b[i] ?? value ?? 1) || 1)) / 4 ** i, 0);

/** The labels of a table that come nearest a size that is not in it, at most `count`, in the table's order. */
export const nearestLabels = (labels: readonly string[], wanted: string, count = 6): readonly string[] => {
  const sizes = numbersIn(wanted);
  const near = labels
    .map((label, i) => ({ label, i, far: unlike(sizes, numbersIn(label)) }))
    .sort((a, b) => a.far - b.far || a.i - b.i)
    .slice(0, count);
  return near.sort((a, b) => a.i - b.i).map(({ label }) => label);
};
