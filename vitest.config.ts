import { defineConfig } from 'vitest/config';
import { onFilesAlone, onPostgres, postgresTests } from './tests/postgres/project.ts';

// Two projects: everything that needs no browser, and the walks through a real one.
const environment = { TZ: 'UTC', NODE_ENV: 'test' };

/** Ends what hangs; a busy machine takes the time it takes. */
const longest = 600_000;

export default defineConfig({
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'core',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**', 'tests/postgres/**'],
          env: environment,
          setupFiles: ['tests/property-seed.ts'],
          testTimeout: longest,
          hookTimeout: longest,
          maxWorkers: '100%',
          isolate: false,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        plugins: [onPostgres],
        test: {
          name: 'postgres',
          include: postgresTests,
          exclude: [...onFilesAlone],
          env: environment,
          setupFiles: ['tests/property-seed.ts'],
          globalSetup: ['tests/postgres/start.ts'],
          testTimeout: longest,
          hookTimeout: longest,
          maxWorkers: '100%',
          isolate: false,
          sequence: { groupOrder: 2 },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          env: environment,
          testTimeout: 3 * longest,
          hookTimeout: 3 * longest,
          fileParallelism: false,
          isolate: false,
          sequence: { groupOrder: 3 },
          globalSetup: ['tests/browser/unpack-chromium.ts'],
        },
      },
    ],
  },
});
