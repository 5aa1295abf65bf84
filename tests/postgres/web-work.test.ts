import { expect, test } from 'vitest';
import { killWebAndWork } from '../bench/web-work-protocol.ts';
import { ownDatabase } from './database.ts';

// A small round of `npm run bench:web-work`: two servers without work and one program that works, on one database.

test('of servers and a program that works any may be killed at any moment: nothing is lost, doubled or left undone', async () => {
  const own = await ownDatabase();
  const report = await killWebAndWork({
    address: own.address,
    seed: 3,
    kills: 3,
    restarts: 0,
    restart: () => {},
    takers: 2,
    nights: 6,
    askers: 1,
    planMs: 200,
    pauseMs: 1000,
  });
  await own.drop();

  expect(report.takes).toBeGreaterThan(0);
  expect(report.jobs).toBeGreaterThanOrEqual(2 * 6);
  expect(report).toMatchObject({ lost: 0, doubled: 0, jobsNotDone: 0, keptTwice: 0, keptNever: 0 });
});
