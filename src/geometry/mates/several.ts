import type { Hit, Mate } from '../mate.ts';

/** Bodies that make one body, as one mate: the first touch over all of them; each keeps its own names of faces. */
export const unionMate = (mates: readonly Mate[]): Mate => {
  const parts = mates.flatMap((mate) => mate.parts ?? [mate]);
  return {
    convex: false,
    parts,
    enter: (line) => {
      let first: Hit | undefined;
      for (const part of parts) {
        const hit = part.enter(line);
        if (hit && (!first || hit.t < first.t - 1e-12)) first = hit;
      }
      return first;
    },
  };
};

/** Several bodies at once as one mate: a face is named after its body's place in the list. */
export const severalMate = (mates: readonly Mate[]): Mate =>
  unionMate(mates.flatMap((mate, i) => (mate.parts ?? [mate]).map((part) => renameFaces(part, `${i + 1} `))));

const renameFaces = (mate: Mate, prefix: string): Mate => ({
  convex: mate.convex,
  enter: (line) => {
    const hit = mate.enter(line);
    return hit && { ...hit, face: prefix + hit.face };
  },
});
