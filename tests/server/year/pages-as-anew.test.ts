import fc from 'fast-check';
import type { FastifyInstance } from 'fastify';
import { expect, test } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import type { Database } from '../../../server/database/database.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { act, doIt, jamAndBeans } from '../../builders/acts-on-a-shelf.ts';

// What pages need is remembered beside the picture of a household's year. Whatever is done, in whatever order, and on whatever day somebody
// looks: each page is the one of a program that has read nothing of this household yet.

const pages = [
  '/',
  '/shelf',
  '/shelf/plum-jam',
  '/shelf/open',
  '/shelf/places',
  '/shelf/count',
  '/shelf/count?item=plum-jam',
  '/shelf/put-up',
  '/shelf/sheet',
  '/shelf/tallies',
  '/labels',
  '/set-aside',
  '/found-unsealed',
  '/safety',
  '/search?q=jam',
  '/items',
  '/items/plum-jam',
  '/items/new',
  '/year',
  '/year/plum-jam',
  '/targets',
  '/targets/plum-jam',
  '/glut?crop=plums&amount=40&unit=lb',
  '/harvest',
  '/buying',
  '/kitchen',
  '/look-back',
  '/look-back/years',
];

const noon = Date.UTC(2026, 7, 17, 18);
const dayMs = 24 * 3_600_000;
const reference = loadReferenceTables();

/** The page without what is another one each time it is sent: its secrets and the keys of its forms. */
const lasting = (body: string): string =>
  body
    .replaceAll(/name="_csrf" value="[^"]*"/g, '')
    .replaceAll(/[\da-f]{8}(?:-[\da-f]{4}){3}-[\da-f]{12}/g, '');

const look = async (app: FastifyInstance, url: string): Promise<string> => {
  const { statusCode, body } = await app.inject({ method: 'GET', url });
  return `${statusCode} ${lasting(body)}`;
};

test('pages say what pages made from nothing say, whatever was done before', async () => {
  let clock = noon;
  const appOn = (db: Database) => buildApp({ db, reference, now: () => clock });
  const page = fc.nat({ max: pages.length - 1 });
  const looks = fc.array(page, { minLength: 4, maxLength: 4 });
  await fc.assert(
    fc.asyncProperty(fc.array(fc.tuple(act, looks), { minLength: 3, maxLength: 9 }), async (acts) => {
      const cast = await jamAndBeans();
      const kept = await appOn(cast.db);
      const anew = await appOn(cast.db);
      const entries: string[] = [];
      for (const [at, [doing, looked]] of acts.entries()) {
        if (doing.does !== 'look') await doIt(cast, doing, entries, at);
        clock = noon - (doing.does === 'look' ? doing.back : 0) * dayMs;
        anew.db = cast.db.withoutPlugins();
        for (const url of looked.map((which) => pages[which] ?? '/'))
          expect(await look(kept, url), url).toBe(await look(anew, url));
      }
      await kept.close();
      await anew.close();
      await cast.db.destroy();
    }),
    { numRuns: 25 },
  );
});
