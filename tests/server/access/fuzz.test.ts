import { expect, test } from 'vitest';
import { fuzz } from '../../bench/fuzz-protocol.ts';

const seed = 20_261_125;
const requests = 400;

// The same with 20,000 requests: `npm run bench:fuzz`.
test(`${requests} requests over all routes, as forms and mutated (seed ${seed}), break nothing and leave nothing half-written`, async () => {
  const report = await fuzz({ requests, seed });

  expect(report.broken).toEqual([]);
  expect(report.halfWritten).toEqual([]);
  expect(report.wrongStock).toEqual([]);
  expect(report.integrity).toBe('ok');
  expect(report.foreignKeys).toBe(0);
  // Not a walk along closed doors: forms of most routes were found, and many a request did change something.
  expect(report.routesWithForms).toBeGreaterThan(40);
  expect(report.changed).toBeGreaterThan(20);
}, 240_000);
