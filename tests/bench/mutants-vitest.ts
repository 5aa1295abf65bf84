import { defineConfig } from 'vitest/config';

/** What `bench:mutants` lets Vitest run: the tests of the folders named in `MUTANTS_TESTS`, each file for itself. */
export default defineConfig({
  test: {
    include: (process.env.MUTANTS_TESTS ?? '').split(',').map((folder) => `${folder}/**/*.test.{ts,tsx}`),
    env: { TZ: 'UTC', NODE_ENV: 'test' },
    testTimeout: 60_000,
    hookTimeout: 60_000,
    isolate: process.env.MUTANTS_ISOLATE !== 'no',
  },
});
