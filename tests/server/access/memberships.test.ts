import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { acceptInvitation, invite } from '../../../server/access/invitations.ts';
import { addMember } from '../../../server/access/members.ts';
import type { Database } from '../../../server/database/database.ts';
import { quinceYard, quinceYardHousehold } from '../../builders/quince-yard.ts';

// No row of a household points at a person by a rule of the schema: accounts may stand elsewhere. What holds instead is here.

let db: Database;
beforeAll(async () => {
  db = (await quinceYardHousehold()).db;
});
afterAll(() => db.destroy());

describe('a person nobody knows', () => {
  const members = () => db.selectFrom('membership').selectAll().execute();

  it('becomes no member, and the household stays open', async () => {
    const added = db.transaction().execute((trx) => addMember(trx, quinceYard, 'nobody', 'owner', 0));

    await expect(added).rejects.toThrow('nobody has the id nobody');
    expect(await members()).toEqual([]);
    expect(await db.selectFrom('household').select('is_open').execute()).toEqual([{ is_open: 1 }]);
  });

  it('uses up no invitation', async () => {
    const token = await invite(db, quinceYard, 'cook', 0);

    await expect(acceptInvitation(db, token, { personId: 'nobody' }, 1)).rejects.toThrow('nobody has the id');
    expect(await members()).toEqual([]);
    expect(await db.selectFrom('invitation').select('role').execute()).toEqual([{ role: 'cook' }]);
  });
});

it('people are never deleted, so that no membership outlives its person', () => {
  const files = readdirSync('server', { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  );

  const deleting = files.filter((name) =>
    /deleteFrom\('person'\)|DELETE FROM person\b/.test(readFileSync(join('server', name), 'utf8')),
  );

  expect(files.length).toBeGreaterThan(200);
  expect(deleting).toEqual([]);
});
