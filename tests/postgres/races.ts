import { randomUUID } from 'node:crypto';
import {
  ColumnNode,
  InsertQueryNode,
  type Kysely,
  PrimitiveValueListNode,
  sql,
  UpdateQueryNode,
  ValueNode,
  ValuesNode,
} from 'kysely';
import { acceptInvitation, invite } from '../../server/access/invitations.ts';
import { addMember, closeHousehold, removeMember } from '../../server/access/members.ts';
import { failureLimits, guessed } from '../../server/access/sign-in-check.ts';
import { type Database, openDatabase } from '../../server/database/database.ts';
import type { Tables } from '../../server/database/tables.ts';
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
  /** The same, and whoever begins a first transaction waits for the others to come that far. */
  together(howMany: number): readonly Database[];
  close(): Promise<void>;
}

/** What the program holds to, and what shows that a race would come out wrong without it. */
export type TakenOut =
  | 'nothing'
  | 'the household’s row is held'
  | 'a snapshot or alone'
  | 'the key of a form is kept'
  | 'a job is leased';

/** As many programs with the same database open. */
export async function processesOn(
  address: string,
  { howMany = 4, without = 'nothing' }: { readonly howMany?: number; readonly without?: TakenOut } = {},
): Promise<Processes> {
  const opened: Database[] = [];
  for (let at = 0; at < howMany; at += 1) opened.push(await openDatabase(address));
  const all = opened.map((db) => takenOut[without](db));
  const of = (many: number) => Array.from({ length: many }, (_, at) => all[at % all.length] as Database);
  return {
    all,
    of,
    together: (many) => {
      let come = 0;
      let go = (): void => {};
      const everybody = new Promise<void>((resolve) => {
        go = resolve;
      });
      return of(many).map((db) => {
        let isFirst = true;
        return beginning(db, (builder) => ({
          ...builder,
          execute: async (work) => {
            if (isFirst) {
              isFirst = false;
              come += 1;
              if (come === many) go();
              await everybody;
            }
            return builder.execute(work);
          },
        }));
      });
    },
    close: async () => {
      for (const db of opened) await db.destroy();
    },
  };
}

/** What the program asks of a transaction that begins. */
interface Beginning {
  setIsolationLevel(level: never): Beginning;
  setAccessMode(mode: never): Beginning;
  execute<T>(work: (trx: never) => Promise<T>): Promise<T>;
}

/** The same database, whose transactions begin in another way. */
function beginning(db: Database, otherwise: (builder: Beginning) => Beginning): Database {
  const builderOf = (builder: Beginning): Beginning =>
    otherwise({
      setIsolationLevel: (level) => builderOf(builder.setIsolationLevel(level)),
      setAccessMode: (mode) => builderOf(builder.setAccessMode(mode)),
      execute: (work) => builder.execute(work),
    });
  return new Proxy(db, {
    get: (target, name) => {
      if (name === 'transaction') return () => builderOf(target.transaction() as unknown as Beginning);
      const own: unknown = Reflect.get(target, name, target);
      return typeof own === 'function' ? own.bind(target) : own;
    },
  });
}

/** Says that the household’s row was held, and holds nothing. */
function holdsNoHousehold(db: Database): Kysely<Tables> {
  const nothing = db
    .updateTable('household')
    .set({ facts_version: 0 })
    .where(sql<boolean>`false`)
    .toOperationNode();
  const said = new WeakSet<object>();
  return db.withPlugin({
    transformQuery: ({ node, queryId }) => {
      if (!UpdateQueryNode.is(node) || node.updates?.length !== 1) return node;
      if (!JSON.stringify([node.table, node.updates]).includes('"facts_version"')) return node;
      said.add(queryId);
      return nothing;
    },
    transformResult: async ({ result, queryId }) =>
      said.has(queryId) ? { ...result, numAffectedRows: 1n } : result,
  });
}

/** Keeps each form under a key that nobody sends. */
const keepsOtherKeys = (db: Database): Database =>
  db.withPlugin({
    transformQuery: ({ node }) => {
      if (!InsertQueryNode.is(node) || node.into?.table.identifier.name !== 'household_setup') return node;
      const at = node.columns?.findIndex(({ column }) => column.name === 'key') ?? -1;
      if (at < 0 || node.values === undefined || !ValuesNode.is(node.values)) return node;
      const values = ValuesNode.create(
        node.values.values.map((row) =>
          PrimitiveValueListNode.is(row)
            ? PrimitiveValueListNode.create(
                row.values.map((value, place) => (place === at ? randomUUID() : value)),
              )
            : row,
        ),
      );
      return { ...node, values };
    },
    transformResult: async ({ result }) => result,
  });

/** Leases every job until long ago, so that it is anybody’s at once, and bars nobody from its household. */
function leasesNothing(db: Database): Database {
  const instead: Readonly<Record<string, unknown>> = { leased_until: 0, turn_at: 0, solves_for: null };
  return db.withPlugin({
    transformQuery: ({ node }) => {
      if (!UpdateQueryNode.is(node) || node.returning === undefined) return node;
      const updates = node.updates?.map((update) => {
        const name = ColumnNode.is(update.column) ? update.column.column.name : '';
        return name in instead ? { ...update, value: ValueNode.create(instead[name]) } : update;
      });
      return { ...node, ...(updates === undefined ? {} : { updates }) };
    },
    transformResult: async ({ result }) => result,
  });
}

const takenOut: Readonly<Record<TakenOut, (db: Database) => Database>> = {
  nothing: (db) => db,
  'the household’s row is held': holdsNoHousehold,
  'a snapshot or alone': (db) =>
    beginning(db, (builder) => ({ ...builder, setIsolationLevel: () => builder })),
  'the key of a form is kept': keepsOtherKeys,
  'a job is leased': leasesNothing,
};

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
const removing: Race = async ({ of, together }) => {
  const first = of(1)[0] as Database;
  const [one, other] = together(2) as [Database, Database];
  const id = await newHousehold(first);
  const people = [await newPerson(first), await newPerson(first)] as const;
  for (const person of people)
    await first.transaction().execute((trx) => addMember(trx, id, person, 'owner', now));
  await Promise.all([removeMember(one, id, people[0]), removeMember(other, id, people[1])]);
  const owners = await ownersOf(first, id);
  return owners === 1 ? null : `${owners} owners are left`;
};

/** An open household is closed by two people. */
const closing: Race = async ({ together }) => {
  const [one, other] = together(2) as [Database, Database];
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
const inviting: Race = async ({ of, together }) => {
  const first = of(1)[0] as Database;
  const [one, other] = together(2) as [Database, Database];
  const id = await newHousehold(first);
  const token = await invite(first, id, 'owner', now);
  const people = [await newPerson(first), await newPerson(first)] as const;
  await Promise.all([
    acceptInvitation(one, token, { personId: people[0] }, now + 1),
    acceptInvitation(other, token, { personId: people[1] }, now + 1),
  ]);
  const owners = await ownersOf(first, id);
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
const keepingNotices: Race = async ({ of, together }) => {
  const id = await newHousehold(of(1)[0] as Database);
  const current = ['plum', 'pear', 'quince'].map((subject) => ({
    kind: 'best by near' as const,
    subject: `lot:${subject}`,
    reason: `The ${subject} jam is best eaten soon.`,
    dueOn: today,
  }));
  await Promise.all(together(4).map((db) => keepNotices(db, id, current, { at: now, today })));
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

/** A calendar whose entries change is read by several in the same moment, each of whom saw another change: each is a version. */
const calendars: Race = async ({ of, together }) => {
  const id = await newHousehold(of(1)[0] as Database);
  const seen = (change: string) =>
    ['one', 'two', 'three'].map((uid) => ({ uid, content: `${uid} ${change}` }));
  const answers = await Promise.all(
    together(3).map((db, at) => entryVersions(db, id, seen(`change ${at}`), now)),
  );
  const wrong = ['one', 'two', 'three'].filter(
    (uid) => new Set(answers.map((versions) => versions.get(uid)?.sequence)).size !== answers.length,
  );
  return wrong.length === 0 ? null : `${wrong.length} entries have one number for two versions`;
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

/** Of one round. */
export const readingsOfRound = 5;

/** Facts are read while jars are taken: what is left and what the events come to are of one moment. */
const reading: Race = async ({ of }) => {
  const [one, other] = of(2) as [Database, Database];
  const { id, item } = await shelved(one);
  let torn = 0;
  for (let at = 0; at < readingsOfRound; at += 1) {
    const taking = take(
      { db: other, householdId: id, key: `take ${at} ${id}`, at: now + at, today },
      oneOf(item),
    );
    const { lots, events } = await householdFacts(one, id, today);
    await taking;
    const sum = events.reduce((total, { units }) => total + units, 0);
    const left = lots.reduce((total, { unitsLeft }) => total + unitsLeft, 0);
    if (sum !== left) torn += 1;
  }
  return torn === 0 ? null : `${torn} of ${readingsOfRound} readings were torn`;
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

/** What each race comes out well by; without it, it does not. */
export const heldBy: Readonly<Record<string, TakenOut>> = {
  'two owners remove each other': 'the household’s row is held',
  'an open household is closed by two people': 'the household’s row is held',
  'one invitation is used by two people': 'the household’s row is held',
  'notices are kept by four processes': 'the household’s row is held',
  'a calendar that changes is read by three': 'the household’s row is held',
  'a form that sets up is sent twice by somebody signed in': 'the key of a form is kept',
  'a form that sets up is sent twice by a new owner': 'the key of a form is kept',
  'plans of two households are due and four runners look': 'a job is leased',
  'many guesses come at once': 'a snapshot or alone',
  'facts are read while jars are taken': 'a snapshot or alone',
};

export const races: Readonly<Record<string, Race>> = {
  'two owners remove each other': removing,
  'an open household is closed by two people': closing,
  'one invitation is used by two people': inviting,
  'a form that sets up is sent twice by somebody signed in': settingUp(false),
  'a form that sets up is sent twice by a new owner': settingUp(true),
  'notices are kept by four processes': keepingNotices,
  'a calendar that changes is read by three': calendars,
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
