import { describe, expect, it } from 'vitest';
import { countOf } from '../../support/counts.ts';
import { profileKinds } from '../../support/random-profiles.ts';
import { seeded } from '../../support/random-poses.ts';
import { tryTransition } from '../../support/random-transitions.ts';

const kinds = Object.keys(profileKinds);
const rounds = countOf(30, 4);

describe(`a transition between any two ends in any position, ${rounds} times each pair of kinds`, () => {
  it.each(kinds)(
    '%s below every kind: its folded pattern closes, or it is said why not',
    async (lower) => {
      const random = seeded(71 + kinds.indexOf(lower));
      const seen = { closes: 0, refused: 0 };
      for (const upper of kinds)
        for (let i = 0; i < rounds; i++) seen[await tryTransition(random, lower, upper)]++;
      expect(seen.closes).toBeGreaterThan(rounds);
      expect(seen.refused).toBeGreaterThan(0);
    },
    1_800_000,
  );
});
