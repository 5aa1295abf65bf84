import { defineConfig } from 'vitest/config';

// Two projects: everything that needs no browser, and the walks through a real one.
const environment = { TZ: 'UTC', NODE_ENV: 'test' };

export default defineConfig({
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'core',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**'],
          env: environment,
          testTimeout: 60_000,
          hookTimeout: 60_000,
          maxWorkers: '100%',
          isolate: false,
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          env: environment,
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
          isolate: false,
          sequence: { groupOrder: 2 },
          globalSetup: ['tests/browser/unpack-chromium.ts'],
        },
      },
    ],
  },
});
