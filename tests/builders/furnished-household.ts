import type { FastifyInstance } from 'fastify';
import { connectThing } from '../../server/access/connected-things.ts';
import { invite } from '../../server/access/invitations.ts';
import { hashPassphrase } from '../../server/access/passphrase.ts';
import type { Role } from '../../server/access/roles.ts';
import { beginSignIn } from '../../server/access/sign-ins.ts';
import type { Database } from '../../server/database/database.ts';
import { nextSeq } from '../../server/records/next-seq.ts';
import { loadPlanningYear } from '../../server/year/load-year.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { asDate } from '../../shared/week.ts';
import { worked } from './outcomes.ts';
import { keepPlanOf } from './planned-week.ts';
import { formOf, Visitor } from './visitor.ts';

// A household with one of everything that an address can name, so that two of them can be held against each other.

const furnishedWeek = '2026-W34';
const furnishedDay = '2026-08-22';

/** What stands for each `:name` in the addresses of a household. */
export type AddressIds = Readonly<Record<string, string>>;

/**
 * Rows of every kind; `prefix` begins every id and name, so that whose they are can be seen in an answer. The household is
 * away, and school is out, from `awayFrom` on.
 */
export async function furnish(
  db: Database,
  householdId: HouseholdId,
  prefix: string,
  awayFrom: string,
): Promise<Record<string, string>> {
  const own = { household_id: householdId };
  const id = (what: string): string => `${prefix}-${what}`;
  // A jam that names quinces or medlars is asked about: its process was tested for plums.
  const jamName = `${prefix === 'quince' ? 'larch' : 'alder'} plum jam`;
  const ids = {
    item: id('jam'),
    lot: id('lot'),
    source: id('tree'),
    recipe: id('jam-batch'),
    canner: id('kettle'),
    place: id('cellar'),
    group: id('spreads'),
    occasion: id('feast'),
    rule: id('saturdays'),
    pause: id('august'),
    task: id('descaling'),
    pack: id('pack'),
    supply: id('sugar'),
    material: id('pulp'),
    conflict: id('conflict'),
    letter: id('letter'),
    person: id('owner'),
    household: householdId,
    year: '2026',
    week: furnishedWeek,
    day: furnishedDay,
    from: awayFrom,
    number: '1',
    batch: id('begun'),
  };
  await db
    .insertInto('household')
    .values({
      id: householdId,
      name: `${prefix} home`,
      time_zone: 'America/Denver',
      region: 'CO',
      altitude_ft: 1200,
      created_at: 0,
    })
    .execute();
  await db
    .insertInto('canner')
    .values({
      ...own,
      id: ids.canner,
      name: `${prefix} kettle`,
      method: 'boiling-water',
      quart_jars: 7,
      pint_jars: 9,
      half_pint_jars: 12,
    })
    .execute();
  await db
    .insertInto('place')
    .values({ ...own, id: ids.place, name: `${prefix} cellar`, kind: 'cellar' })
    .execute();
  const away = { ...own, from_on: awayFrom, until_on: '2026-12-20' };
  await db.insertInto('away').values(away).execute();
  await db.insertInto('school_holiday').values(away).execute();
  await db
    .insertInto('item')
    .values([
      {
        ...own,
        id: ids.item,
        name: jamName,
        kind: 'preserve',
        keeping: 'canned',
        family: 'stone-fruit',
        unit: 'jar',
        usual_jar: 'half-pint/regular',
        best_quality_days: 365,
        servings_per_unit: 16,
      },
      {
        ...own,
        id: id('oats'),
        name: `${prefix} oats`,
        kind: 'staple',
        keeping: 'bought',
        family: 'dry-goods',
        unit: 'lb',
        best_quality_days: 540,
      },
    ])
    .execute();
  await db
    .insertInto('declared_use')
    .values({
      ...own,
      item_id: ids.item,
      since_on: '2026-01-01',
      amount: 0.5,
      per: 'week',
      counted_in: 'units',
      recorded_at: 0,
    })
    .execute();
  await db
    .insertInto('item_group')
    .values({ ...own, id: ids.group, name: `${prefix} spreads`, total_units: 20 })
    .execute();
  await db
    .insertInto('item_group_member')
    .values({ ...own, group_id: ids.group, item_id: ids.item })
    .execute();
  await db
    .insertInto('occasion')
    .values({
      ...own,
      id: ids.occasion,
      item_id: ids.item,
      kind: 'occasion',
      on_date: '2026-12-24',
      units: 2,
    })
    .execute();
  await db
    .insertInto('session_rule')
    .values({ ...own, id: ids.rule, weekday: 6, which: 'every', hours: 5 })
    .execute();
  await db
    .insertInto('upkeep_task')
    .values({
      ...own,
      id: ids.task,
      canner_id: null,
      device: id('kettle'),
      name: 'Descaled',
      every_months: 6,
    })
    .execute();
  await db
    .insertInto('upkeep_event')
    .values({
      ...own,
      id: id('descaled'),
      kind: 'own',
      canner_id: null,
      task_id: ids.task,
      done_on: '2026-06-01',
      note: null,
      recorded_by: null,
      recorded_at: 1,
      undone_at: null,
      gauge_off_at_5_psi: null,
      gauge_off_at_10_psi: null,
      gauge_off_at_15_psi: null,
    })
    .execute();
  await db
    .insertInto('session_pause')
    .values({ ...own, id: ids.pause, from_on: '2027-08-01', until_on: '2027-08-15', each_year: 1 })
    .execute();
  await db
    .insertInto('shop_pack')
    .values({ ...own, item_id: id('oats'), id: ids.pack, units: 5, price_cents: 900 })
    .execute();
  await db
    .insertInto('recipe')
    .values({
      ...own,
      id: ids.recipe,
      item_id: ids.item,
      name: jamName,
      based_on: 'plum-jam',
      process_food: 'plum-jam',
      process_style: 'added pectin (liquid or powder); sterile jars',
      process_pack: 'hot',
      canner_id: ids.canner,
      jar_kind: 'half-pint/regular',
      yield_low: 8,
      yield_high: 9,
      hands_on_minutes: 70,
    })
    .execute();
  await db
    .insertInto('stage_event')
    .values({
      ...own,
      seq: nextSeq('stage_event', own.household_id),
      batch_id: ids.batch,
      recipe_id: ids.recipe,
      batches: 1,
      kind: 'begun',
      position: 1,
      begun_at: '2026-08-16T20:00',
      recorded_at: 0,
    })
    .execute();
  await db
    .insertInto('name_denial')
    .values({ ...own, recipe_id: ids.recipe, name: jamName, other_food: 'pumpkin', denied_at: 0 })
    .execute();
  await db
    .insertInto('recipe_produce')
    .values({ ...own, recipe_id: ids.recipe, crop: 'plum', lb: 5 })
    .execute();
  await db
    .insertInto('supply')
    .values({
      ...own,
      id: ids.supply,
      name: `${prefix} sugar`,
      unit: 'lb',
      pack_quantity: 5,
      pack_price_cents: 400,
    })
    .execute();
  await db
    .insertInto('recipe_supply')
    .values({ ...own, recipe_id: ids.recipe, supply_id: ids.supply, quantity: 7 })
    .execute();
  await db
    .insertInto('material')
    .values({
      ...own,
      id: ids.material,
      name: `${prefix} pulp`,
      unit: 'qt',
      keeps_days_cold: 3,
      keeps_months_frozen: 8,
    })
    .execute();
  await db
    .insertInto('material_event')
    .values({
      ...own,
      seq: nextSeq('material_event', own.household_id),
      subject: ids.material,
      kind: 'left-over',
      quantity: 4,
      unit: 'qt',
      use_by: '2026-08-30',
      occurred_on: '2026-08-16',
      recorded_at: 0,
    })
    .execute();
  await db
    .insertInto('source')
    .values({ ...own, id: ids.source, crop: 'plum', name: `${prefix} tree`, kind: 'garden' })
    .execute();
  await db
    .insertInto('harvest_window')
    .values({
      ...own,
      source_id: ids.source,
      year: 2026,
      begins_on: '2026-08-10',
      ends_on: '2026-09-14',
      lb_per_week: 20,
    })
    .execute();
  await db
    .insertInto('jar_holding')
    .values({ ...own, jar_kind: 'half-pint/regular', owned: 60, price_cents: 1399 })
    .execute();
  await db
    .insertInto('lid_box')
    .values({ ...own, id: id('lids'), mouth: 'regular', lids: 40, bought_on: '2026-05-01' })
    .execute();
  await db
    .insertInto('lot')
    .values({
      ...own,
      id: ids.lot,
      item_id: ids.item,
      batch_code: ids.lot,
      jar_kind: 'half-pint/regular',
      origin: 'put-up',
      made_on: '2026-08-01',
      ready_from: '2026-08-01',
      best_quality_until: '2027-08-01',
      recipe_id: ids.recipe,
      recorded_at: 0,
    })
    .execute();
  await db
    .insertInto('jar_event')
    .values({
      ...own,
      seq: nextSeq('jar_event', own.household_id),
      entry_id: id('made'),
      lot_id: ids.lot,
      kind: 'put up',
      units: 5000,
      occurred_on: '2026-08-01',
      recorded_at: 0,
    })
    .execute();
  await db
    .insertInto('jar_conflict')
    .values({
      ...own,
      id: ids.conflict,
      item_id: ids.item,
      lot_id: ids.lot,
      kind: 'taken',
      units: 1,
      occurred_on: '2026-08-16',
      recorded_at: 0,
    })
    .execute();
  await db
    .insertInto('letter')
    .values({
      ...own,
      id: ids.letter,
      about: 'week 2026-W34',
      recipient: `${prefix}@example.org`,
      subject: `${prefix} plum jam this week`,
      plain: `${prefix} plum jam`,
      html: `<p>${prefix} plum jam</p>`,
      notices_json: '[]',
      written_at: 0,
    })
    .execute();
  await keepPlanOf(db, householdId, { [furnishedWeek]: [{ recipe: ids.recipe, batches: 1 }] });
  return ids;
}

/** The passphrase of every member. */
export const memberPassphrase = 'brass kettle and wet boots';
let hash: Promise<string> | null = null;
const memberHash = (): Promise<string> => {
  hash ??= hashPassphrase(memberPassphrase, []).then(worked);
  return hash;
};

/** Somebody of the household, already signed in; answers the token. */
export async function member(
  db: Database,
  household: HouseholdId,
  person: { readonly id: string; readonly role: Role },
  at: number,
): Promise<string> {
  const known = await db.selectFrom('person').select('id').where('id', '=', person.id).executeTakeFirst();
  if (!known)
    await db
      .insertInto('person')
      .values({
        id: person.id,
        name: person.id,
        name_key: person.id,
        passphrase_hash: await memberHash(),
        created_at: 0,
      })
      .execute();
  await db
    .insertInto('membership')
    .values({ household_id: household, person_id: person.id, role: person.role, since_at: 0 })
    .execute();
  return beginSignIn(db, person.id, at);
}

/**
 * What only the pages can make: a canning day that has begun with its loads and one printed sheet, a notice, a list half
 * brought in, a calendar address, an invitation, and a connected thing that took something.
 */
export async function furnishByPages(
  app: FastifyInstance,
  household: HouseholdId,
  ids: AddressIds,
  token: string,
): Promise<AddressIds> {
  const { db } = app;
  // The plan was written by hand; what it is said to be made from are the facts as they stand.
  const { year } = await loadPlanningYear(db, household, asDate('2026-08-17'), app.reference);
  const ofHousehold = db.selectFrom('plan').selectAll().where('household_id', '=', household);
  const plan = await ofHousehold.executeTakeFirstOrThrow();
  await db.deleteFrom('plan').where('household_id', '=', household).execute();
  await db
    .insertInto('plan')
    .values({ ...plan, id: `${plan.id}-of-its-facts`, input_json: JSON.stringify(year) })
    .execute();
  const owner = new Visitor(app, { 'sign-in': token });
  const dayPath = `/canning-day/${furnishedWeek}/${furnishedDay}`;
  await owner.submitOn(`/canning-day/${furnishedWeek}`, { form: dayPath, fill: { ask: 'begin' } });
  const day = await owner.submitOn(`/canning-day/${furnishedWeek}?day=${furnishedDay}`, {
    form: `${dayPath}/sheets`,
  });
  const { _csrf = '' } = formOf((await owner.open('/files')).body, '/files/lists').values;
  const list = await owner.upload('/files/lists', { _csrf, kind: 'stock' }, 'item,units\nplum jam,3\n');
  await owner.submitOn('/calendar', { form: '/calendar/address' });
  const feed = await db
    .selectFrom('calendar_feed')
    .select('token')
    .where('household_id', '=', household)
    .executeTakeFirst();
  const [notice] = await db
    .selectFrom('notice')
    .select('id')
    .where('household_id', '=', household)
    .limit(1)
    .execute();
  const connected = await connectThing(
    db,
    household,
    { name: 'Fridge display', may: 'read and take', endsOn: null },
    { personId: null, now: app.now() },
  );
  const { token: accessToken, id: thing } = worked(connected);
  const left = await app.inject({
    method: 'POST',
    url: '/api/v1/takes',
    headers: { authorization: `Bearer ${accessToken}`, 'idempotency-key': 'furnished-take' },
    payload: { item: ids.item, batch: ids.lot },
  });
  const made = {
    thing,
    accessToken,
    take: String(left.json<{ readonly take?: string }>().take ?? ''),
    load: `${ids.recipe}.1.1`,
    number: day.location.split('/').at(-1) ?? '',
    id: list.location.split('/').at(-1) ?? '',
    notice: notice?.id ?? '',
    token: feed?.token ?? '',
    invitation: await invite(db, household, 'reader', app.now()),
  };
  for (const [name, id] of Object.entries(made))
    if (id === '') throw new Error(`expected ${household} to have one ${name}; the pages made none`);
  return { ...ids, ...made };
}
