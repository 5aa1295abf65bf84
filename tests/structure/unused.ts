import type { KnipConfig } from 'knip';

// `npm run unused`: nothing is exported, kept or depended on that nobody uses. The second of its runs looks at what runs in
// production alone: what only tests call there is dead as well. Every exception stands here with its reason.

const isProduction = process.argv.includes('--production');

const config: KnipConfig = {
  entry: [
    // Brought in by address, as threads or processes.
    'server/solver/highs-process.ts!',
    'server/files/file-reader.ts!',
    'tests/solver/processes/*.ts',
    // Brought in by name, in their order.
    'migrations/**/*.ts!',
    // Run by hand.
    'tests/bench/*.ts',
  ],
  project: ['{server,src,shared,views,migrations,seed-data}/**/*.{ts,tsx}!', 'tests/**/*.{ts,tsx}'],
  // The parts of a public type are public with it. In production a test may look at a part of what is used: at a limit, at a step.
  ignoreExportsUsedInFile: isProduction ? true : { interface: true, type: true },
  ignoreDependencies: [
    // Files of theirs are served or read, nothing is imported.
    '@fontsource-variable/atkinson-hyperlegible-next',
    '@fontsource-variable/bitter',
    'axe-core',
    // Run as a command by a test, and what its product is made with.
    'oazapfts',
    '@oazapfts/runtime',
    // Named as a plugin by bench:mutants.
    '@stryker-mutator/vitest-runner',
  ],
};

export default config;
