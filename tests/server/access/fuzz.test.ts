import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fuzz } from '../../bench/fuzz-protocol.ts';
import { Asker } from '../../builders/asker.ts';
import { type TwoHouseholds, twoHouseholds } from '../../builders/two-households.ts';

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
});

// What such requests found, kept so that it stays mended.
describe('used to end in a fault of ours', () => {
  let both: TwoHouseholds;
  let asker: Asker;
  beforeAll(async () => {
    both = await twoHouseholds();
    asker = new Asker(both.app, (who) => both.tokenOf.get(who) ?? '');
  });
  afterAll(() => both.close());

  const sendJson = async (url: string, body: Readonly<Record<string, unknown>>) => {
    const { csrf, form } = await asker.secrets();
    return both.app.inject({
      method: 'POST',
      url,
      cookies: { 'sign-in': both.tokenOf.get('medlar-owner') ?? '', form },
      payload: { _csrf: csrf, key: 'no-text-where-text', ...body },
    });
  };

  const odds: readonly unknown[] = [{ toString: 1 }, [[]], [null], { length: 3 }];
  test.each(odds.map((odd) => ({ odd })))(
    'a value that is no text, like $odd, is read as empty, in fields and ids',
    async ({ odd }) => {
      const fields = await sendJson('/kitchen/household', { name: odd, people: odd, units: odd });
      const ids = await sendJson('/shelf/moves', { lotIds: [odd], placeId: odd });
      const canner = await sendJson('/set-aside', { cannerId: odd, since: '2026-08-01' });

      expect([fields.statusCode, ids.statusCode, canner.statusCode]).toEqual([422, 422, 422]);
    },
  );

  test.each(['%EF%BC%91', '%00', 'a%0D%0Aset-cookie%3A%20x%3D1'])(
    'an address with %s in it is led on without a letter that no header may carry',
    async (odd) => {
      const { statusCode, headers } = await asker.ask('medlar-owner', {
        method: 'POST',
        url: `/year/${odd}/moves`,
      });

      expect(statusCode).toBeLessThan(500);
      expect(String(headers.location ?? '')).toMatch(/^[\x21-\x7e]*$/);
      expect(headers['set-cookie']).toBeUndefined();
    },
  );

  test('a batch whose id is none is one nobody has', async () => {
    const { statusCode } = await asker.ask(
      'medlar-owner',
      { method: 'POST', url: '/batches/%7B%7B7*7%7D%7D/standing' },
      { standing: 'set-aside', reason: 'a doubt' },
    );

    expect(statusCode).toBe(404);
  });
});
