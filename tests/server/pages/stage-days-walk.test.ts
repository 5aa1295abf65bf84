import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { run as canningDayCommand } from '../../../server/commands/canning-day.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { lettersDue } from '../../../server/mail/letters-due.ts';
import { householdById } from '../../../server/queries/household/household.ts';
import { noticesNow } from '../../../server/records/notices/standing-notices.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import type { HouseholdId } from '../../../shared/ids.ts';
import { addDays, asDate, type CalendarDate, weekOf } from '../../../shared/week.ts';
import { keepPlanOf } from '../../builders/planned-week.ts';
import { plansNothing } from '../../builders/plans-nothing.ts';
import { Visitor, wordsOf } from '../../builders/visitor.ts';

// Sorrel Lane, a household near the sea: sauerkraut and 14-day pickles in crocks, dried beans and grape juice. Loads on
// Saturdays: beans and juice on August 22, pickles on August 29, kraut on September 5. What is done when is written down
// late, early, or not until the day after.

const reference = loadReferenceTables();
const folder = mkdtempSync(join(tmpdir(), 'sorrel-'));
const file = join(folder, 'sorrel-lane.sqlite');
const timeZone = 'America/New_York';
const soaked = 'soaked overnight';
const warm = 'at 70 to 75 F';

let db: Database;
let app: FastifyInstance;
let visitor: Visitor;
let household: HouseholdId;
let feed = '';
let at = 0;
let keys = 0;
const today = (): CalendarDate => asDate(new Date(at - 4 * 3_600_000).toISOString().slice(0, 10));
/** Clocks of that summer are four hours behind UTC. */
const goTo = (time: string): void => {
  at = Date.parse(`${time}:00Z`) + 4 * 3_600_000;
};

const recipeOf = { kraut: 'sauerkraut', pickles: '14-day-sweet-pickles', beans: 'beans', juice: 'juice' };

beforeAll(async () => {
  goTo('2026-08-10T12:00');
  db = await openDatabase(file);
  app = await buildApp({
    db,
    reference,
    now: () => at,
    planJob: plansNothing,
  });
  visitor = new Visitor(app);
  const fill = { region: 'NJ', altitude: '40', name: 'Sorrel Lane', timeZone };
  const first = await visitor.submitOn('/start', { form: '/start', fill });
  if (first.status !== 303) await visitor.submit(first, { form: '/start', fill });
  for (const recipe of [recipeOf.kraut, recipeOf.pickles])
    await visitor.submitOn(`/items/new?recipe=${recipe}`, { form: '/items' });
  const [own] = await db.selectFrom('household').select('id').execute();
  household = own?.id as HouseholdId;
  await db
    .insertInto('canner')
    .values({
      household_id: household,
      id: 'tall-pot',
      name: 'Tall pot',
      method: 'pressure',
      gauge: 'weighted',
      quart_jars: 7,
      pint_jars: 9,
      half_pint_jars: 18,
    })
    .execute();
  await keepOwn('beans', 'beans-dried', 'shelled; dried; in water', 'hot', 'pressure');
  await keepOwn('juice', 'grape-juice', 'grape', 'hot', 'boiling-water');
  await keepPlanOf(db, household, {
    '2026-W34': [
      { recipe: 'beans', batches: 1 },
      { recipe: 'juice', batches: 1 },
    ],
    '2026-W35': [{ recipe: recipeOf.pickles, batches: 1 }],
    '2026-W36': [{ recipe: recipeOf.kraut, batches: 1 }],
  });
  await visitor.submitOn('/calendar', { form: '/calendar/address' });
  feed = /\/calendar\/[A-Za-z0-9_-]+\.ics/.exec((await visitor.open('/calendar')).body)?.[0] ?? '';
  await db
    .insertInto('mail_wish')
    .values({
      household_id: household,
      address: 'kitchen@sorrel.example',
      weekly: 1,
      weekday: 1,
      confirmed_at: 0,
    })
    .execute();
});
afterAll(async () => {
  await app.close();
  await db.destroy();
  rmSync(folder, { recursive: true, force: true });
});

/** What the book has no batch of: a recipe of the household's own after a printed process. */
async function keepOwn(id: string, food: string, style: string, pack: string, method: string): Promise<void> {
  const rows = reference.processTimes.filter((row) => row.foodKey === food);
  const row = rows.find((one) => one.style === style && one.pack === pack) ?? rows[0];
  const canner = await db
    .selectFrom('canner')
    .select('id')
    .where('method', '=', method as never)
    .executeTakeFirst();
  const own = { household_id: household };
  await db
    .insertInto('item')
    .values({
      ...own,
      id,
      name: id,
      kind: 'preserve',
      keeping: 'canned',
      family: 'pickles',
      unit: 'jar',
      usual_jar: 'pint/regular',
      best_quality_days: 365,
    })
    .execute();
  await db
    .insertInto('recipe')
    .values({
      ...own,
      id,
      item_id: id,
      name: id,
      based_on: food,
      process_food: food,
      process_style: row?.style ?? style,
      process_pack: row?.pack ?? pack,
      canner_id: canner?.id ?? '',
      jar_kind: 'pint/regular',
      yield_low: 7,
      yield_high: 8,
      hands_on_minutes: 60,
    })
    .execute();
}

const send = async (url: string, values: Record<string, string>) => {
  keys += 1;
  return visitor.post(await visitor.open('/stages'), url, { key: `walk-of-a-month-${keys}`, ...values });
};
/** Writes down that a recipe's first stage was done. */
const begin = (recipe: string, begunAt: string, way = '') =>
  send('/stages', { recipe, position: '1', way, begunAt, batches: '1' });
const next = (recipe: string, position: number, begunAt: string, way = '') =>
  send(`/stages/${recipe}-begun`, { position: String(position), way, begunAt });

interface Task {
  readonly on: string;
  readonly what: string;
  readonly when: string;
}
const dayWords = (on: string): string =>
  new Intl.DateTimeFormat('en-US', {
    timeZone: 'UTC',
    weekday: 'short',
    month: 'short',
    day: 'numeric',
  }).format(new Date(`${on}T12:00:00Z`));
const tasksInOrder = (tasks: readonly Task[]): readonly string[] =>
  tasks.map(({ on, what, when }) => `${on} | ${what} | ${when}`).toSorted();

/** Stages in the calendar feed, read by a parser that is not ours; what is done already left out. */
async function inCalendar(): Promise<readonly Task[]> {
  const calendar = new ICAL.Component(ICAL.parse((await visitor.open(feed)).body));
  return calendar.getAllSubcomponents('vevent').flatMap((one): Task[] => {
    const event = new ICAL.Event(one);
    const lines = event.description.split('\n');
    const isStage = lines.some((line) => line.startsWith('1 batch')) && /^[^:]+: /.test(event.summary);
    if (!isStage || event.summary.startsWith('Can: ') || lines.includes('written down')) return [];
    return [
      {
        on: dayWords(event.startDate.toString()),
        what: event.summary,
        when: lines[0]?.startsWith('1 batch') ? '' : (lines[0] ?? ''),
      },
    ];
  });
}

const parts = (html: string, pattern: RegExp): readonly string[] =>
  [...html.matchAll(pattern)].map(([, part = '']) => part);

async function onPaper(): Promise<readonly Task[]> {
  const { body } = await visitor.open('/stages/paper');
  return parts(body, /<article[^>]*class="stages-paper"[^>]*>([\s\S]*?)<\/article>/g).flatMap((section) => {
    const name = wordsOf(/<h2[^>]*>([\s\S]*?)<\/h2>/.exec(section)?.[1] ?? '').trim();
    return parts(section, /<li>([\s\S]*?)<\/li>/g).flatMap((line): Task[] => {
      const words = wordsOf(line).trim();
      const found = /^☐ (\w+, \w+ \d+) (.+?)((?: · .+)?) at _+$/.exec(words);
      const [, on = '', what = '', more = ''] = found ?? [];
      if (/^(fill jars and process|Check the seals|ready to eat)/i.test(what) || found === null) return [];
      return [{ on, what: `${name}: ${what.trim()}`, when: timesIn(more) }];
    });
  });
}
const timesIn = (words: string): string =>
  /\d+:\d\d [AP]M(?: to \d+:\d\d [AP]M)?/.exec(words.split('·')[1] ?? '')?.[0] ?? '';

async function onThisWeek(): Promise<readonly Task[]> {
  const { body } = await visitor.open('/');
  return body
    .split('<li class="batch-day">')
    .slice(1)
    .flatMap((day) => {
      const on =
        /\w+, \w+ \d+/.exec(wordsOf(/batch-day-title">([\s\S]*?)<\/p>/.exec(day)?.[1] ?? ''))?.[0] ?? '';
      return parts(day, /batch-day-line is-(?:due|ahead|missed)"><p>([\s\S]*?)<\/p>/g).flatMap(
        (line): Task[] => {
          const words = wordsOf(line).trim().replace(/^☐ */, '');
          const when = /(?: (\d+:\d\d [AP]M(?: to \d+:\d\d [AP]M)?))$/.exec(words)?.[1] ?? '';
          const what = (when === '' ? words : words.slice(0, -when.length)).trim();
          return /^(Check the seals|.*: ready to eat)/.test(what) ? [] : [{ on, what, when }];
        },
      );
    });
}

const asText = ({ on, what, when }: Task): string => `${on}${when === '' ? '' : `, ${when}`}: ${what}`;

async function letterText(): Promise<string> {
  await db.deleteFrom('letter').execute();
  const letters = await lettersDue({
    db,
    reference,
    household: await householdById(db, household),
    at,
    address: 'http://127.0.0.1:8137',
  });
  return letters
    .map(({ plain }) => plain)
    .join('\n')
    .replace(/\s+/g, ' ');
}

async function inCommand(
  on: string,
): Promise<readonly { what: string; on: string; state: string; kind: string }[]> {
  const out = vi.spyOn(console, 'log').mockImplementation(() => {});
  const complaint = vi.spyOn(console, 'error').mockImplementation(() => {});
  try {
    await canningDayCommand(['--database', file, '--as-of', today(), '--week', weekOf(asDate(on)), '--json']);
    const { days } = JSON.parse(out.mock.calls.map((line) => line.join(' ')).join('\n'));
    return days.flatMap((day: { beforeAndAfter: object[] }) => day.beforeAndAfter);
  } finally {
    out.mockRestore();
    complaint.mockRestore();
  }
}

/** Every screen of the day tells the same tasks; answers those of all days ahead. */
async function sameEverywhere(): Promise<readonly string[]> {
  const calendar = await inCalendar();
  expect(tasksInOrder(await onPaper()), `paper on ${today()}`).toEqual(tasksInOrder(calendar));
  const week = await onThisWeek();
  const all = tasksInOrder(calendar);
  for (const task of tasksInOrder(week)) expect(all, `This week on ${today()}`).toContain(task);
  const near = Array.from({ length: 7 }, (_, more) => dayWords(addDays(today(), more)));
  for (const task of calendar.filter(({ on }) => near.includes(on)))
    expect(tasksInOrder(week), `This week on ${today()}`).toContain(tasksInOrder([task])[0]);
  const stages = wordsOf((await visitor.open('/stages')).body);
  for (const task of calendar) {
    const [, what = ''] = /^[^:]+: (.*)$/.exec(task.what) ?? [];
    expect(stages, `/stages on ${today()}`).toContain(asText({ ...task, what }));
  }
  const letter = await letterText();
  const sevenDays = Array.from({ length: 7 }, (_, more) => dayWords(addDays(today(), more)));
  for (const task of calendar)
    if (sevenDays.includes(task.on)) expect(letter, `letter on ${today()}`).toContain(asText(task));
  const notices = await noticesNow(db, household, { at, today: today() }, reference);
  const due = notices.filter(({ kind }) => kind === 'stage due').map(({ reason }) => reason.toLowerCase());
  for (const { on, what } of calendar.filter((task) => task.on === dayWords(today()))) {
    const words = what.toLowerCase();
    if (!words.startsWith('beans: drain'))
      expect(
        due.some((reason) => reason.includes(words.slice(words.indexOf(': ') + 2))),
        `notice of ${on}: ${what}`,
      ).toBe(true);
  }
  for (const load of ['2026-08-22', '2026-08-29', '2026-09-05'].filter((on) => on >= today())) {
    const lines = await inCommand(load);
    for (const line of lines.filter(({ kind, state }) => kind === 'stage' && state !== 'done')) {
      const told = calendar.some(
        ({ on, what }) => on === dayWords(line.on) && what.toLowerCase().endsWith(line.what.toLowerCase()),
      );
      expect(told, `command on ${today()}: ${line.on} ${line.what}`).toBe(true);
    }
  }
  return calendar.map(asText);
}

const startLoad = async (on: string, recipe: string) => {
  const path = `/canning-day/${weekOf(asDate(on))}/${on}`;
  await visitor
    .submitOn(`/canning-day?day=${on}`, { form: path, fill: { ask: 'begin' } })
    .catch(() => undefined);
  return send(`${path}/loads/${recipe}.1.1/ticks`, { tick: 'rim:yes' });
};
const listed = async (recipe: string): Promise<readonly string[]> =>
  (await sameEverywhere()).filter((words) => words.includes(recipe));

describe('the days of crocks and bowls, walked through', () => {
  test('kraut begun in time, pickles a day late, and the days after them', async () => {
    goTo('2026-08-10T12:00');
    expect((await begin(recipeOf.kraut, '', warm)).status).toBe(303);
    await sameEverywhere();
    goTo('2026-08-16T12:00');
    expect((await listed('14-day'))[0]).toMatch(/^Sun, Aug 16\b.*: 14-day sweet pickles: day 1: scald/i);
    // A day late: the load moves with it.
    goTo('2026-08-17T12:00');
    expect((await begin(recipeOf.pickles, '')).status).toBe(303);
    const moved = await listed('14-day');
    expect(moved.some((words) => words.startsWith('Wed, Aug 19') && /day 3/i.test(words))).toBe(true);
    expect(wordsOf((await visitor.open('/stages/paper')).body)).toContain('the nearest day is Sun, Aug 30');
  });

  test('beans and juice are begun on Friday, in the time the list says, and canned on Saturday', async () => {
    goTo('2026-08-19T12:00');
    expect((await next(recipeOf.pickles, 2, '')).status).toBe(303);
    // The next is not done before its day.
    expect((await next(recipeOf.pickles, 3, '')).status).toBe(422);
    goTo('2026-08-20T09:30');
    await sameEverywhere();
    goTo('2026-08-21T08:00');
    expect((await next(recipeOf.pickles, 3, '')).status).toBe(303);
    expect((await begin('juice', '')).status).toBe(303);
    expect(await listed('beans')).toEqual([
      'Fri, Aug 21, 3:00 PM to 9:00 PM: beans: cover the sorted beans with cold water and soak',
    ]);
    goTo('2026-08-21T20:00');
    // Written down later than it was done.
    expect((await begin('beans', '2026-08-21T19:30', soaked)).status).toBe(303);
    await sameEverywhere();
    goTo('2026-08-22T07:00');
    expect([
      (await startLoad('2026-08-22', 'beans')).status,
      (await startLoad('2026-08-22', 'juice')).status,
    ]).toEqual([422, 422]);
    goTo('2026-08-22T09:00');
    expect([
      (await startLoad('2026-08-22', 'beans')).status,
      (await startLoad('2026-08-22', 'juice')).status,
    ]).toEqual([303, 303]);
    await sameEverywhere();
  });

  test('a day forgotten and written down the next morning; each day after it as before', async () => {
    goTo('2026-08-23T18:00');
    expect((await next(recipeOf.pickles, 4, '')).status).toBe(303);
    for (const [position, day] of [
      [5, 24],
      [6, 25],
    ] as const) {
      goTo(`2026-08-${day}T12:00`);
      await sameEverywhere();
      expect((await next(recipeOf.pickles, position, '')).status).toBe(303);
    }
    // Of the 26th nothing is written down until the 27th.
    goTo('2026-08-27T08:00');
    await sameEverywhere();
    expect((await next(recipeOf.pickles, 7, '2026-08-26T21:00')).status).toBe(303);
    expect((await next(recipeOf.pickles, 8, '')).status).toBe(303);
    for (const [position, day] of [
      [9, 28],
      [10, 29],
    ] as const) {
      goTo(`2026-08-${day}T12:00`);
      await sameEverywhere();
      if (day === 29) expect((await startLoad('2026-08-29', recipeOf.pickles)).status).toBe(422);
      expect((await next(recipeOf.pickles, position, '')).status).toBe(303);
    }
    goTo('2026-08-30T09:00');
    await sameEverywhere();
  });

  test('kraut may be canned from three weeks after it was packed', async () => {
    goTo('2026-08-31T11:00');
    await sameEverywhere();
    goTo('2026-09-01T12:00');
    const notices = await noticesNow(db, household, { at, today: today() }, reference);
    expect(
      notices
        .filter(({ kind }) => kind === 'may be canned')
        .map(({ reason }) => reason)
        .join(),
    ).toContain('Sauerkraut may be canned now');
    goTo('2026-09-05T09:00');
    await sameEverywhere();
    expect((await startLoad('2026-09-05', recipeOf.kraut)).status).toBe(303);
  });
});
