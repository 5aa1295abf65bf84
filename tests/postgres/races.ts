import { randomUUID } from 'node:crypto';
import { acceptInvitation, invite } from '../../server/access/invitations.ts';
import { addMember, closeHousehold, removeMember } from '../../server/access/members.ts';
import { failureLimits, guessed } from '../../server/access/sign-in-check.ts';
import { type Database, openDatabase } from '../../server/database/database.ts';
import { doDueJobs } from '../../server/jobs/job-table.ts';
import { createHousehold, type Founder } from '../../server/records/household/create-household.ts';
import { jobRow } from '../../server/records/job-row.ts';
import { nextSeq } from '../../server/records/next-seq.ts';
import { entryVersions } from '../../server/records/notices/calendar-feed.ts';
import { keepNotices } from '../../server/records/notices/notices.ts';
import { take } from '../../server/records/shelf/take.ts';
import { householdFacts } from '../../server/year/household-facts.ts';
import type { HouseholdId, ItemId } from '../../shared/ids.ts';
import { oneOf } from '../../shared/schemas/shelf/take.ts';
import { asDate } from '../../shared/week.ts';

// What two processes do in the same moment to one household, each with connections of its own. A round answers what came out
// wrong, in words; null where all is as it would be had one waited for the other.

export interface Processes {
  readonly all: readonly Database[];
  /** One for each of so many who act at once. */
  of(howMany: number): readonly Database[];
  close(): Promise<void>;
}

/** As many programs with the same database open. */
export async function processesOn(address: string, howMany = 4): Promise<Processes> {
  const all: Database[] = [];
  for (let at = 0; at < howMany; at += 1) all.push(await openDatabase(address));
  return {
    all,
    of: (many) => Array.from({ length: many }, (_, at) => all[at % all.length] as Database),
    close: async () => {
      for (const db of all) await db.destroy();
    },
  };
}

const now = Date.UTC(2026, 7, 17, 18);
const today = asDate('2026-08-17');

async function newHousehold(db: Database): Promise<HouseholdId> {
  const id = randomUUID() as HouseholdId;
  await db
    .insertInto('household')
    .values({ id, name: 'Sorrel Row', time_zone: 'UTC', region: 'CO', created_at: now })
    .execute();
  return id;
}

async function newPerson(db: Database): Promise<string> {
  const id = randomUUID();
  await db
    .insertInto('person')
    .values({ id, name: `person ${id}`.slice(0, 60), name_key: id, passphrase_hash: 'none', created_at: now })
    .execute();
  return id;
}

const ownersOf = async (db: Database, id: HouseholdId): Promise<number> =>
  (
    await db
      .selectFrom('membership')
      .select('person_id')
      .where('household_id', '=', id)
      .where('role', '=', 'owner')
      .execute()
  ).length;

type Race = (processes: Processes) => Promise<string | null>;

/** Two owners remove each other. */
const removing: Race = async ({ of }) => {
  const [one, other] = of(2) as [Database, Database];
  const id = await newHousehold(one);
  const people = [await newPerson(one), await newPerson(one)] as const;
  for (const person of people)
    await one.transaction().execute((trx) => addMember(trx, id, person, 'owner', now));
  await Promise.all([removeMember(one, id, people[0]), removeMember(other, id, people[1])]);
  const owners = await ownersOf(one, id);
  return owners === 1 ? null : `${owners} owners are left`;
};

/** An open household is closed by two people. */
const closing: Race = async ({ of }) => {
  const [one, other] = of(2) as [Database, Database];
  const id = await newHousehold(one);
  const said = (name: string) => ({
    name: `${name} ${id}`.slice(0, 50),
    passphrase: 'brass kettle and wet boots',
  });
  const answers = await Promise.all([
    closeHousehold(one, id, said('Ada'), now),
    closeHousehold(other, id, said('Bea'), now),
  ]);
  const owners = await ownersOf(one, id);
  const closed = answers.filter(({ ok }) => ok).length;
  return owners === 1 && closed === 1 ? null : `${owners} owners, ${closed} told that they are it`;
};

/** One invitation is used by two people. */
const inviting: Race = async ({ of }) => {
  const [one, other] = of(2) as [Database, Database];
  const id = await newHousehold(one);
  const token = await invite(one, id, 'owner', now);
  const people = [await newPerson(one), await newPerson(one)] as const;
  await Promise.all([
    acceptInvitation(one, token, { personId: people[0] }, now + 1),
    acceptInvitation(other, token, { personId: people[1] }, now + 1),
  ]);
  const owners = await ownersOf(one, id);
  return owners === 1 ? null : `${owners} came in by one invitation`;
};

/** The form that sets a household up is sent twice: by somebody signed in, or by a new owner. */
const settingUp =
  (isNew: boolean): Race =>
  async ({ of }) => {
    const [one, other] = of(2) as [Database, Database];
    // There may be twelve households; these rounds are not about that.
    await one.deleteFrom('household').execute();
    const key = `set up ${randomUUID()}`;
    const name = `Row ${key}`;
    const founder: Founder = isNew
      ? { name: `owner ${key}`.slice(0, 60), passphraseHash: 'none' }
      : { personId: await newPerson(one) };
    const asked = {
      name,
      people: 2,
      timeZone: 'UTC',
      units: 'us',
      weekStartsOn: 'monday',
      region: null,
    } as const;
    const answers = await Promise.all(
      [one, other].map((db) => createHousehold(db, { key, at: now, founder }, asked)),
    );
    const made = await one.selectFrom('household').select('id').where('name', '=', name).execute();
    const fitting = answers.filter(({ ok }) => ok).length;
    return made.length === 1 && fitting === 2 ? null : `${made.length} households, ${fitting} of two answers`;
  };

/** Notices of a day are kept by two processes. */
const keepingNotices: Race = async ({ of }) => {
  const id = await newHousehold(of(1)[0] as Database);
  const current = ['plum', 'pear', 'quince'].map((subject) => ({
    kind: 'best by near' as const,
    subject: `lot:${subject}`,
    reason: `The ${subject} jam is best eaten soon.`,
    dueOn: today,
  }));
  await Promise.all(of(4).map((db) => keepNotices(db, id, current, { at: now, today })));
  const kept = await (of(1)[0] as Database)
    .selectFrom('notice')
    .select(['subject', 'seq'])
    .where('household_id', '=', id)
    .execute();
  const numbers = new Set(kept.map(({ seq }) => seq));
  return kept.length === 3 && numbers.size === 3
    ? null
    : `${kept.length} notices under ${numbers.size} numbers`;
};

/** A calendar is asked for the first time by several. */
const calendars: Race = async ({ of }) => {
  const id = await newHousehold(of(1)[0] as Database);
  const entries = ['one', 'two', 'three'].map((uid) => ({ uid, content: `entry ${uid}` }));
  const answers = await Promise.all(of(3).map((db) => entryVersions(db, id, entries, now)));
  const wrong = answers.filter((versions) => entries.some(({ uid }) => versions.get(uid)?.sequence !== 0));
  return wrong.length === 0 ? null : `${wrong.length} of three answers count a change`;
};

/** Plans of two households are due, and several runners look. */
const jobs: Race = async ({ of }) => {
  const first = of(1)[0] as Database;
  await first.deleteFrom('job').execute();
  const households = [randomUUID(), randomUUID()] as HouseholdId[];
  const subjects = households.flatMap((household) => [1, 2, 3].map((one) => `${household} ${one}`));
  for (const subject of subjects) {
    const household = subject.split(' ')[0] as HouseholdId;
    const job = { kind: 'replan', subject, household, lane: 'night', forOn: today, dueAt: now } as const;
    await first.insertInto('job').values(jobRow(job, now)).execute();
  }
  const done: string[] = [];
  const solving = new Map<string, number>();
  let most = 0;
  const rule = {
    kinds: ['replan' as const],
    lanes: ['night' as const],
    waitsMs: [1000],
    failureWords: () => 'failed',
  };
  const work = () => async (subject: string) => {
    const [household = ''] = subject.split(' ');
    const running = (solving.get(household) ?? 0) + 1;
    solving.set(household, running);
    most = Math.max(most, running);
    await new Promise((resolve) => setImmediate(resolve));
    done.push(subject);
    solving.set(household, running - 1);
  };
  const look = (db: Database) => doDueJobs({ db, now: () => now, rule, work, goesOn: () => true });
  for (let turn = 0; turn < 4; turn += 1) await Promise.all(of(4).map(look));
  const twice = done.length - new Set(done).size;
  const missed = subjects.filter((subject) => !done.includes(subject)).length;
  return twice === 0 && missed === 0 && most === 1
    ? null
    : `${twice} done twice, ${missed} not, ${most} of a household at once`;
};

/** Many guesses at one name come at once. */
const guessing: Race = async ({ of }) => {
  const counted = [[`account ${randomUUID()}`, failureLimits.account]] as const;
  const answers = await Promise.all(of(24).map((db) => guessed(db, counted, now, async () => false)));
  const looked = answers.filter((answer) => answer !== null).length;
  return looked <= failureLimits.account ? null : `${looked} guesses were looked at`;
};

/** Facts are read while jars are taken: what is left and what the events come to are of one moment. */
const reading: Race = async ({ of }) => {
  const [one, other] = of(2) as [Database, Database];
  const { id, item } = await shelved(one);
  let torn = 0;
  let taking = true;
  const takes = (async () => {
    for (let at = 0; at < 4; at += 1)
      await take({ db: other, householdId: id, key: `take ${at} ${id}`, at: now + at, today }, oneOf(item));
    taking = false;
  })();
  while (taking) {
    const { lots, events } = await householdFacts(one, id, today);
    const sum = events.reduce((total, { units }) => total + units, 0);
    const left = lots.reduce((total, { unitsLeft }) => total + unitsLeft, 0);
    if (sum !== left) torn += 1;
  }
  await takes;
  return torn === 0 ? null : `${torn} readings were torn`;
};

async function shelved(db: Database): Promise<{ readonly id: HouseholdId; readonly item: ItemId }> {
  const id = await newHousehold(db);
  const item = 'plum-jam' as ItemId;
  await db
    .insertInto('item')
    .values({
      household_id: id,
      id: item,
      name: 'Plum jam',
      kind: 'preserve',
      family: 'stone-fruit',
      unit: 'jar',
      usual_jar: 'pint/regular',
      keeping: 'canned',
    })
    .execute();
  await db
    .insertInto('lot')
    .values({
      household_id: id,
      id: 'first',
      item_id: item,
      batch_code: 'P1',
      jar_kind: 'pint/regular',
      origin: 'put-up',
      made_on: '2026-08-01',
      ready_from: '2026-08-01',
      best_quality_until: '2027-08-01',
      recorded_at: now,
    })
    .execute();
  await db
    .insertInto('jar_event')
    .values({
      household_id: id,
      seq: nextSeq('jar_event', id),
      entry_id: 'made',
      lot_id: 'first',
      kind: 'put up',
      units: 200,
      occurred_on: '2026-08-01',
      recorded_at: now,
    })
    .execute();
  return { id, item };
}

export const races: Readonly<Record<string, Race>> = {
  'two owners remove each other': removing,
  'an open household is closed by two people': closing,
  'one invitation is used by two people': inviting,
  'a form that sets up is sent twice by somebody signed in': settingUp(false),
  'a form that sets up is sent twice by a new owner': settingUp(true),
  'notices are kept by four processes': keepingNotices,
  'a calendar is first asked for by three': calendars,
  'plans of two households are due and four runners look': jobs,
  'many guesses come at once': guessing,
  'facts are read while jars are taken': reading,
};

/** Goes through a race so many times; answers what came out wrong, each with how often, a thrown fault by its words. */
export async function raced(
  race: Race,
  processes: Processes,
  times: number,
): Promise<Readonly<Record<string, number>>> {
  const bad: Record<string, number> = {};
  for (let round = 0; round < times; round += 1) {
    const wrong = await race(processes).catch(
      (cause: unknown) => `threw: ${cause instanceof Error ? cause.message : cause}`,
    );
    if (wrong !== null) bad[wrong] = (bad[wrong] ?? 0) + 1;
  }
  return bad;
}
