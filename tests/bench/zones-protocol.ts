import { sql } from 'kysely';
import { DateTime } from 'luxon';
import { beginSignIn } from '../../server/access/sign-ins.ts';
import { buildApp } from '../../server/app.ts';
import { filled, medlarLane, quinceYard, twoHouseholds } from '../builders/two-households.ts';

// Every page of a household, in time zones at the edges of the map and of summer time, while the clock of the machine goes
// forward and back. No page may break, and nothing of the other household of the file may change.

/** The edges first: 14 hours ahead, 11 behind, halves and quarters of hours, summer time of half an hour. */
export const zones = [
  'Pacific/Kiritimati',
  'Pacific/Pago_Pago',
  'Australia/Lord_Howe',
  'America/St_Johns',
  'Asia/Kathmandu',
  'Pacific/Chatham',
  'America/New_York',
  'Europe/London',
  'Asia/Kolkata',
  'America/Denver',
] as const;

/** What the clock on the wall says, one after the other: a year ahead and back, over a leap day, a leap week and both changes of summer time. */
export const wallTimes = [
  '2026-08-17T23:30',
  '2027-08-18T00:30',
  '2026-08-17T12:00',
  '2028-02-28T23:30',
  '2028-02-29T23:30',
  '2026-03-08T02:30',
  '2026-11-01T01:30',
  '2026-12-31T23:30',
  '2027-01-01T00:30',
  '2026-08-16T23:30',
] as const;

/** What only the inside of the program says; the same letters within a random token mean nothing. */
const inside = /node_modules|SQLITE_|\.tsx?:\d|Invalid DateTime|(?<![\w-])NaN(?![\w-])/;

export interface ZonesReport {
  readonly zones: number;
  readonly times: number;
  readonly pages: number;
  readonly looks: number;
  readonly statuses: Readonly<Record<string, number>>;
  /** Answers of 500 and above, and answers that show something of the inside. */
  readonly broken: readonly string[];
  /** Tables in which something of the other household is no longer as it was. */
  readonly changedOfOthers: readonly string[];
}

export async function lookInEveryZone(howManyZones: number, howManyTimes: number): Promise<ZonesReport> {
  const both = await twoHouseholds();
  const { db, medlar } = both;
  let instant = 0;
  const app = await buildApp({
    db,
    reference: both.app.reference,
    now: () => instant,
    requestsPerMinute: 100_000_000,
  });
  await app.ready();
  const pages = [
    ...new Set(
      app.servedRoutes
        .filter(({ method }) => method === 'GET')
        .map(({ url }) => filled(url, (kind) => medlar[kind] ?? '1')),
    ),
  ];
  const before = await rowsOf(both, quinceYard);
  const statuses: Record<string, number> = {};
  const broken: string[] = [];
  let looks = 0;
  for (const zone of zones.slice(0, howManyZones)) {
    await db.updateTable('household').set({ time_zone: zone }).where('id', '=', medlarLane).execute();
    for (const time of wallTimes.slice(0, howManyTimes)) {
      instant = DateTime.fromISO(time, { zone }).toMillis();
      const token = await beginSignIn(db, 'medlar-owner', instant);
      for (const url of pages) {
        const cookies = { 'sign-in': token, household: medlarLane };
        const { statusCode, body } = await app.inject({ method: 'GET', url, cookies });
        looks += 1;
        statuses[statusCode] = (statuses[statusCode] ?? 0) + 1;
        if (statusCode >= 500 || inside.test(body)) broken.push(`${statusCode} ${url} in ${zone} at ${time}`);
      }
    }
  }
  const after = await rowsOf(both, quinceYard);
  const changedOfOthers = [...before].flatMap(([table, rows]) => (after.get(table) === rows ? [] : [table]));
  await app.close();
  await both.close();
  return {
    zones: Math.min(howManyZones, zones.length),
    times: Math.min(howManyTimes, wallTimes.length),
    pages: pages.length,
    looks,
    statuses,
    broken,
    changedOfOthers,
  };
}

/** Every row of a household, by table. */
async function rowsOf(
  { db }: Awaited<ReturnType<typeof twoHouseholds>>,
  householdId: string,
): Promise<ReadonlyMap<string, string>> {
  const tables = await db.introspection.getTables();
  const rowsByTable = new Map<string, string>();
  for (const { name, columns } of tables) {
    if (!columns.some((column) => column.name === 'household_id')) continue;
    const { rows } = await sql`SELECT * FROM ${sql.table(name)} WHERE household_id = ${householdId}`.execute(
      db,
    );
    rowsByTable.set(name, JSON.stringify(rows.map((row) => JSON.stringify(row)).sort()));
  }
  return rowsByTable;
}
