import { defineConfig } from 'vitest/config';

/** What `bench:mutants` lets Vitest run: the tests of the folders named in `MUTANTS_TESTS`. */
export default defineConfig({
  test: {
    include: (process.env.MUTANTS_TESTS ?? '').split(',').map((folder) => `${folder}/**/*.test.{ts,tsx}`),
    setupFiles: ['tests/property-seed.ts'],
    runner: 'tests/bench/mutants-runner.ts',
    env: { TZ: 'UTC', NODE_ENV: 'test' },
    testTimeout: 600_000,
    hookTimeout: 600_000,
    // Modules are read anew for every run all the same: what is worked out as a module loads is changed too.
    isolate: false,
  },
});
