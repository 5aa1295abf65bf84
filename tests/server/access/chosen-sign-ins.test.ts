import { expect, it } from 'vitest';
import { beginSignIn, endChosenSignIns, signInsOf } from '../../../server/access/sign-ins.ts';
import { openDatabase } from '../../../server/database/database.ts';

it('ends every sign-in that was chosen, and of the person’s own alone', async () => {
  const db = await openDatabase(':memory:');
  for (const id of ['ida', 'odo'])
    await db
      .insertInto('person')
      .values({ id, name: id, name_key: id, passphrase_hash: 'none', created_at: 0 })
      .execute();
  for (const id of ['ida', 'ida', 'ida', 'odo']) await beginSignIn(db, id, 1);
  const own = (await signInsOf(db, 'ida', 2)).map(({ id }) => id);
  const [others] = await signInsOf(db, 'odo', 2);

  expect(await endChosenSignIns(db, 'ida', [...own.slice(0, 2), others?.id ?? ''])).toBe(2);

  expect((await signInsOf(db, 'ida', 2)).map(({ id }) => id)).toEqual(own.slice(2));
  expect(await signInsOf(db, 'odo', 2)).toHaveLength(1);
  await db.destroy();
});
