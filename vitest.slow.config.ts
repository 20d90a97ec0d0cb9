import { defineConfig } from 'vitest/config';

/** Long runs: thousands of pieces, bit flips and random joints, every layout in a browser. */
export default defineConfig({
  test: {
    include: ['tests/**/*.slow.test.ts'],
    setupFiles: ['tests/setup.ts'],
    testTimeout: 900_000,
    hookTimeout: 300_000,
    pool: 'forks',
    maxWorkers: '100%',
    // Most of what a test makes is thrown away at once: a large young heap, swept without threads of its own, saves a tenth. What
    // is hot in one test alone is not worth compiling for speed: another tenth.
    execArgv: ['--max-semi-space-size=32', '--single-threaded-gc', '--interrupt-budget=1000000'],
  },
});
