import { configDefaults, defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: [...configDefaults.exclude, 'tests/**/*.slow.test.ts'],
    setupFiles: ['tests/setup.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
    pool: 'forks',
    maxWorkers: '100%',
    // Most of what a test makes is thrown away at once: a large young heap, swept without threads of its own, saves a tenth. What
    // is hot in one test alone is not worth compiling for speed: another tenth.
    execArgv: ['--max-semi-space-size=32', '--single-threaded-gc', '--interrupt-budget=1000000'],
    // Files share what they load: reading the program and starting the CAD kernel anew for each took a third of the time.
    isolate: false,
  },
});
