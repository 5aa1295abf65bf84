import fc from 'fast-check';

/**
 * Properties are checked on the same draws in every run, so that a run says something about the code and not about its
 * luck. `npm run bench:properties` looks with other draws: PROPERTY_SEED and PROPERTY_RUNS set them here.
 */
const { PROPERTY_SEED, PROPERTY_RUNS } = process.env;

fc.configureGlobal({
  seed: PROPERTY_SEED === undefined ? 20_261_128 : Number(PROPERTY_SEED),
  ...(PROPERTY_RUNS !== undefined && { numRuns: Number(PROPERTY_RUNS) }),
});
