import type { FastifyInstance } from 'fastify';
import { sql } from 'kysely';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { allowToBegin } from '../../../server/access/begin-permission.ts';
import { invite } from '../../../server/access/invitations.ts';
import { removeMember } from '../../../server/access/members.ts';
import { buildApp } from '../../../server/app.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { engineOf } from '../../../server/database/engine-of.ts';
import {
  deletedStaysMs,
  forgetHousehold,
  purgeHouseholds,
} from '../../../server/records/household/household-deletion.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { households } from '../../builders/all-households.ts';
import { furnish, member, memberPassphrase } from '../../builders/furnished-household.ts';
import { htmlProblems } from '../../builders/html-problems.ts';
import { quinceYardPages } from '../../builders/quince-yard-pages.ts';
import { medlarLane, noon, quinceYard } from '../../builders/two-households.ts';
import { Visitor, wordsOf } from '../../builders/visitor.ts';

let db: Database;
let app: FastifyInstance;
let at: number;
const proxied = { host: 'pantry.example', 'x-forwarded-proto': 'https', 'x-forwarded-for': '203.0.113.7' };
beforeEach(async () => {
  at = noon;
  db = await openDatabase(':memory:');
  await furnish(db, medlarLane, 'medlar', '2026-12-14');
  await furnish(db, quinceYard, 'quince', '2026-12-07');
  app = await buildApp({
    db,
    reference: loadReferenceTables(),
    now: () => at,
    publicAddress: 'https://pantry.example',
  });
});
afterEach(async () => {
  await app.close();
  await db.destroy();
});

const visitor = async (id: string, role: 'owner' | 'cook' | 'helper' | 'reader', of = medlarLane) =>
  new Visitor(app, { '__Host-sign-in': await member(db, of, { id, role }, noon) }, '', proxied);
const remove = (who: Visitor, fill: Record<string, string>) =>
  who.submitOn('/households/removal', { form: '/households/removal', fill });
const nameOf = async (id: string) =>
  (await db.selectFrom('household').select('name').where('id', '=', id).executeTakeFirstOrThrow()).name;
/** How many rows each table holds of the household. */
const rowsOf = async (id: string): Promise<Record<string, number>> => {
  const tables = await engineOf(db).tables(db);
  const counts: Record<string, number> = {};
  for (const { name } of tables.filter(({ columns }) => columns.includes('household_id'))) {
    const { rows } = await sql<{
      n: number;
    }>`SELECT count(*) AS n FROM ${sql.table(name)} WHERE household_id = ${id}`.execute(db);
    if ((rows[0]?.n ?? 0) > 0) counts[name] = rows[0]?.n ?? 0;
  }
  return counts;
};

describe('a household', () => {
  test('is deleted by an owner who writes its name and the passphrase, and by nobody else', async () => {
    const ida = await visitor('Ida', 'owner');
    const name = await nameOf(medlarLane);
    for (const role of ['cook', 'helper', 'reader'] as const)
      expect((await (await visitor(`the ${role}`, role)).open('/households/removal')).status).toBe(403);

    const wrong = [
      await remove(ida, { name: 'Another', present: memberPassphrase }),
      await remove(ida, { name, present: 'not the present one' }),
      await remove(ida, { name }),
    ];
    expect(wrong.map(({ status }) => status)).toEqual([422, 422, 422]);
    expect((await ida.open('/shelf')).status).toBe(200);
    expect((await ida.open('/files/household.json')).status).toBe(200);

    expect((await remove(ida, { name, present: memberPassphrase })).location).toBe('/households');
    expect((await households(db)).map(({ id }) => id)).toEqual([quinceYard]);
  });

  test('that was deleted is seen by no page, link or calendar; its members are told, and an owner brings it back whole', async () => {
    const ida = await visitor('Ida', 'owner');
    const odo = await visitor('Odo', 'reader');
    await ida.submitOn('/calendar', { form: '/calendar/address' });
    const feed = await db.selectFrom('calendar_feed').select('token').executeTakeFirstOrThrow();
    const invitation = await invite(db, medlarLane, 'cook', noon);
    const before = await rowsOf(medlarLane);
    const name = await nameOf(medlarLane);
    await remove(ida, { name, present: memberPassphrase });

    for (const who of [ida, odo]) {
      const page = await who.open('/shelf');
      expect([page.status, page.location]).toEqual([302, '/households']);
    }
    expect((await odo.open(`/calendar/${feed.token}.ics`)).status).toBe(404);
    expect(
      (await new Visitor(app, {}, '', proxied).openLink(`https://pantry.example/invitations#${invitation}`))
        .status,
    ).toBe(404);
    const told = await odo.open('/households');
    expect(wordsOf(told.body)).toContain(`${name} was deleted by Ida`);
    const bringBack = async (who: Visitor) =>
      (await who.post(await who.open('/sign-in'), `/households/${medlarLane}/return`)).status;
    expect(await bringBack(odo)).toBe(404);
    const stranger = await visitor('Cleo', 'owner', quinceYard);
    expect(wordsOf((await stranger.open('/households')).body)).not.toContain(name);
    expect(await bringBack(stranger)).toBe(404);

    at += deletedStaysMs - 1;
    const again = new Visitor(app, {}, '', proxied);
    await again.submitOn('/sign-in', {
      form: '/sign-in',
      fill: { name: 'Ida', passphrase: memberPassphrase },
    });
    await again.submitOn('/households', { form: `/households/${medlarLane}/return` });

    expect((await again.open('/shelf')).status).toBe(200);
    const { invitation: links, household_token: tokens, security_event: _, ...rest } = before;
    expect([links, tokens]).toEqual([1, 2]);
    expect(await rowsOf(medlarLane)).toMatchObject({ ...rest, household_token: 1 });
  });

  test('that was deleted seven days ago is gone for good, and the others stay as they were', async () => {
    const ida = await visitor('Ida', 'owner');
    const others = await rowsOf(quinceYard);
    await remove(ida, { name: await nameOf(medlarLane), present: memberPassphrase });
    expect(await purgeHouseholds(db, at + deletedStaysMs - 1)).toBe(0);

    expect(await purgeHouseholds(db, at + deletedStaysMs)).toBe(1);

    expect(await rowsOf(medlarLane)).toEqual({});
    expect(
      await db.selectFrom('job').selectAll().where('subject', 'like', `${medlarLane}%`).execute(),
    ).toEqual([]);
    expect(await rowsOf(quinceYard)).toEqual(others);
    // A server looks at each row as it is written.
    if (engineOf(db).name === 'SQLite')
      expect((await sql`PRAGMA foreign_key_check`.execute(db)).rows).toEqual([]);
  });

  test('that is the invented one is not deleted', async () => {
    const alone = await buildApp({ db, reference: loadReferenceTables(), now: () => at });
    await db.updateTable('household').set({ is_demo: 1 }).where('id', '=', quinceYard).execute();
    await db.transaction().execute((trx) => forgetHousehold(trx, medlarLane));
    const anybody = new Visitor(alone);

    expect((await anybody.open('/households/removal')).status).toBe(404);
    const name = await nameOf(quinceYard);
    const page = await anybody.open('/start');
    expect((await anybody.post(page, '/households/removal', { name })).status).toBe(404);
    expect(await households(db)).toHaveLength(1);
    await alone.close();
  });

  test('has pages about it that follow the HTML standard', async () => {
    const ida = await visitor('Ida', 'owner');
    const asked = await ida.open('/households/removal');
    const wrong = await remove(ida, { name: 'Another' });
    await remove(ida, { name: await nameOf(medlarLane), present: memberPassphrase });

    for (const { body } of [asked, wrong, await ida.open('/households')])
      expect(await htmlProblems(body)).toEqual([]);
  });
});

describe('a further household, where others reach the program', () => {
  const begin = async (who: Visitor) => {
    const page = await who.open('/start');
    if (page.status !== 200) return [page.status, page.location];
    const answer = await who.submit(page, { form: '/start', fill: { region: 'NJ' } });
    return [answer.status, answer.location];
  };

  test('is begun by owners, not by members with a lesser role, nor by sending the form all the same', async () => {
    expect(await begin(await visitor('Ida', 'owner'))).toEqual([303, '/?said=started']);
    for (const role of ['cook', 'helper', 'reader'] as const) {
      const who = await visitor(`the ${role}`, role);
      expect(await begin(who)).toEqual([303, '/households']);
      expect((await who.post(await who.open('/households'), '/start', { region: 'NJ' })).status).toBe(403);
    }
    expect(await households(db)).toHaveLength(3);
  });

  test('is not begun by somebody removed, unless the operator allows it', async () => {
    const odo = await visitor('Odo', 'cook');
    await visitor('Ida', 'owner');
    await allowToBegin(db, 'Odo', true, noon);
    await removeMember(db, medlarLane, 'Odo' as never);
    expect(await begin(odo)).toEqual([303, '/households']);

    await allowToBegin(db, 'Odo', true, noon);
    expect(await begin(odo)).toEqual([303, '/?said=started']);
  });
});

describe('a household nobody signs in to', () => {
  test('says who can delete it and bring it back, asks its name, and comes back whole on this machine', async () => {
    const here = await quinceYardPages();
    try {
      expect((await here.visitor.open('/people')).body).toContain('href="/households/removal"');
      const page = await here.visitor.open('/households/removal');
      expect(wordsOf(page.body)).toContain('whoever opens it on this machine can delete it');
      expect(wordsOf(page.body)).not.toContain('an owner can bring it back');
      const sent = (name: string) =>
        here.visitor.submit(page, { form: '/households/removal', fill: { name } });
      expect((await sent('')).status).toBe(422);
      expect((await sent('Another')).status).toBe(422);
      expect((await here.visitor.open('/shelf')).status).toBe(200);

      const gone = await sent('Quince Yard');
      expect([gone.status, gone.location]).toEqual([303, '/households']);
      const shelf = await here.visitor.open('/shelf');
      expect([shelf.status, shelf.location]).toEqual([302, '/households']);
      const list = await here.visitor.open('/households');
      expect(wordsOf(list.body)).toContain('Quince Yard was deleted by whoever sits at this machine');
      await here.visitor.submit(list, { form: `/households/${quinceYard}/return` });
      expect(wordsOf((await here.visitor.open('/items')).body)).toContain('Plum jam');
    } finally {
      await here.close();
    }
  });
});
