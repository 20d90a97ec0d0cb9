/** Edits that turn one word to another; swapping two neighbours counts as one (optimal string alignment distance). */
const countEdits = (a: string, b: string): number => {
  let last: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let edits = Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        edits = Math.min(edits, (last[j - 2] ?? 0) + 1);
      next.push(edits);
    }
    last = row;
    row = next;
  }
  return row[b.length] ?? 0;
};

/** The known word that was probably meant: at most a third of its letters off, or begun by the word given. */
export const findNearMiss = (word: string, known: readonly string[]): string | undefined => {
  const given = word.toLowerCase();
  const ranked = known
    .map((candidate) => ({
      candidate,
      edits: given.length >= 2 && candidate.startsWith(given) ? 1 : countEdits(given, candidate),
    }))
    .filter(({ candidate, edits }) => edits <= Math.max(1, Math.floor(candidate.length / 3)))
    .sort((a, b) => a.edits - b.edits);
  return ranked[0]?.candidate;
};
