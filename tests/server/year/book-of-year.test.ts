import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { jamAndBeans } from '../../builders/acts-on-a-shelf.ts';
import { type Cast, plumJam, shelve } from '../../builders/quince-yard.ts';
import { Visitor, wordsOf } from '../../builders/visitor.ts';

/** Noon of Monday, 17 August 2026. */
const noon = Date.UTC(2026, 7, 17, 18);
const reference = loadReferenceTables();

let cast: Cast;
beforeEach(async () => {
  cast = await jamAndBeans();
});
afterEach(() => cast.db.destroy());

const visitorWith = async (tables: typeof reference) =>
  new Visitor(await buildApp({ db: cast.db, reference: tables, now: () => noon }));

describe('what is written down of the jars', () => {
  it('is shown though the picture of the year cannot be made', async () => {
    await shelve(cast.db, {
      id: 'hissing',
      itemId: plumJam,
      units: 2,
      madeOn: '2026-08-01',
      bestQualityUntil: '2027-08-01',
      setAside: 'It hisses.',
    });
    const visitor = await visitorWith(
      new Proxy(reference, {
        get: (tables, name) => {
          if (name === 'harvestWindows') throw new Error('the seasons cannot be read');
          return Reflect.get(tables, name);
        },
      }),
    );

    expect((await visitor.open('/year')).status).toBe(500);
    expect(wordsOf((await visitor.open('/safety')).body)).toContain('Set aside now: 1 batch.');
    expect(wordsOf((await visitor.open('/set-aside')).body)).toContain('It hisses.');
    expect(wordsOf((await visitor.open('/search?q=beans')).body)).toContain('Green beans');
  });

  it('stands on the shelf though its day is still to come', async () => {
    await shelve(cast.db, {
      id: 'tomorrow',
      itemId: plumJam,
      units: 3,
      madeOn: '2026-08-18',
      bestQualityUntil: '2027-08-18',
    });
    const visitor = await visitorWith(reference);

    expect(wordsOf((await visitor.open('/shelf/plum-jam')).body)).toContain('tomorrow');
  });
});
