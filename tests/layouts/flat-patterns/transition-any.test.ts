import { describe, expect, it } from 'vitest';
import { profileKinds } from '../../support/random-profiles.ts';
import { seeded } from '../../support/random-poses.ts';
import { tryTransition } from '../../support/random-transitions.ts';

const kinds = Object.keys(profileKinds);

/** Each kind of end below each other one; transition-any.slow.test.ts tries every pair many times. */
describe('a transition between any two ends in any position', () => {
  it.each(kinds)('%s below every kind: its folded pattern closes, or it is said why not', async (lower) => {
    const random = seeded(31 + kinds.indexOf(lower));
    const outcomes: string[] = [];
    for (const upper of kinds) outcomes.push(await tryTransition(random, lower, upper));
    expect(outcomes).toContain('closes');
  });
});
