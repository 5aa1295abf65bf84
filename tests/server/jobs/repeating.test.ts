import { expect, test } from 'vitest';
import { repeating } from '../../../server/jobs/repeating.ts';

test('a fault is told and stops neither the server nor the next round', async () => {
  const told: unknown[] = [];
  let rounds = 0;
  const job = repeating(
    async () => {
      rounds += 1;
      if (rounds === 1) throw new Error('the file is locked');
    },
    (cause) => told.push(cause),
  );

  await job.run();
  await job.run();

  expect(rounds).toBe(2);
  expect(told).toEqual([new Error('the file is locked')]);
});

test('a second call while a round runs waits for it; once closed there is no other', async () => {
  let rounds = 0;
  const job = repeating(async () => {
    rounds += 1;
    await Promise.resolve();
  });

  await Promise.all([job.run(), job.run()]);
  await job.close();
  await job.run();

  expect(rounds).toBe(1);
});
