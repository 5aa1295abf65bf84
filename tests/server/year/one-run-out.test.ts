import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { lettersDue } from '../../../server/mail/letters-due.ts';
import { householdById } from '../../../server/queries/household/household.ts';
import { setMailWish } from '../../../server/records/notices/notice-settings.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { type YearPicture, yearPicture } from '../../../server/year/year-picture.ts';
import type { ItemId } from '../../../shared/ids.ts';
import {
  addDays,
  addWeeks,
  asDate,
  type CalendarDate,
  mondayOf,
  type WeekKey,
  weekOf,
} from '../../../shared/week.ts';
import { plainReader, readOut } from '../../../src/notices/marks.ts';
import { defaultNoticeSettings } from '../../../src/notices/notice.ts';
import { weekOfWords } from '../../../src/notices/notice-words.ts';
import type { ItemYear } from '../../../src/planning/year/item-year.ts';
import { weekWords } from '../../../src/shelf/run-out-words.ts';
import { formatWeek } from '../../../views/words/format.ts';
import { readingOf } from '../../../views/words/reading.ts';
import { confirmWithoutLetter } from '../../builders/confirmed-address.ts';
import { eatingQuinceYard, itemsEaten } from '../../builders/eating-quince-yard.ts';
import { worked } from '../../builders/outcomes.ts';
import { keepPlanOfNothing } from '../../builders/plan-of-nothing.ts';
import { quinceYard, quinceYardHousehold, shelve } from '../../builders/quince-yard.ts';
import { typedCommand } from '../../builders/typed-command.ts';
import { Visitor, wordsOf } from '../../builders/visitor.ts';

// A household stops believing a planner the first time two of its screens disagree about when something runs out. Generated
// households, on generated days, with and without a plan: whoever says when an item runs out says the same week, and a heading
// counts what stands below it. RUN_OUT_HOUSEHOLDS=200 looks at more of them.

const households = Number(process.env.RUN_OUT_HOUSEHOLDS ?? 6);
const reference = loadReferenceTables();

const anItem = fc.record({
  stock: fc.nat(15),
  perWeek: fc.constantFrom(0, 0.05, 0.2, 0.5, 1, 2),
  comes: fc.array(fc.record({ week: fc.nat(51), units: fc.integer({ min: 1, max: 15 }) }), { maxLength: 3 }),
});
const aHousehold = fc.record({
  daysLater: fc.nat(363),
  isPlanned: fc.boolean(),
  weekStartsOn: fc.constantFrom('sunday' as const, 'monday' as const),
  kept: fc.tuple(anItem, anItem, anItem, anItem),
});
type Household = typeof aHousehold extends fc.Arbitrary<infer Value> ? Value : never;

let folder: string;
let looked = 0;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'one-run-out-'));
  await (await quinceYardHousehold(join(folder, 'empty.sqlite'))).db.destroy();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** A notice of what runs out is written so many days ahead, unless the household says otherwise. */
const noticedDaysAhead = defaultNoticeSettings.leadDays['runs out'] ?? 0;

const noonOf = (day: CalendarDate): number => Date.parse(`${day}T19:00:00Z`);

/** The household as it is said to be, in a file of its own. */
async function settle(file: string, { daysLater, isPlanned, weekStartsOn, kept }: Household) {
  const day = addDays(asDate('2026-08-17'), daysLater);
  const db = await eatingQuinceYard(
    join(folder, 'empty.sqlite'),
    file,
    kept.map(({ perWeek }) => perWeek),
  );
  await db.updateTable('household').set({ week_starts_on: weekStartsOn }).execute();
  for (const [place, { stock }] of kept.entries()) {
    const itemId = itemsEaten[place] as ItemId;
    if (stock > 0)
      await shelve(db, {
        id: `${itemId}-lot`,
        itemId,
        units: stock,
        madeOn: '2026-08-14',
        bestQualityUntil: '2028-08-14',
      });
  }
  if (isPlanned)
    await keepPlanOfNothing(
      db,
      quinceYard,
      day,
      {},
      {},
      {
        comes: (itemId, week) =>
          kept[itemsEaten.indexOf(itemId as ItemId)]?.comes.find((one) => one.week === week)?.units ?? 0,
      },
    );
  worked(
    await setMailWish({ db, householdId: quinceYard, key: 'letters-are-wanted', at: 1, today: day }, {
      address: 'pantry@example.org',
      weekly: true,
      weekday: '1',
      urgent: false,
    } as unknown as Parameters<typeof setMailWish>[1]),
  );
  await confirmWithoutLetter(db);
  return { db, day };
}

/** The first week by whose end nothing is left in half of the years while it is eaten, written out anew. */
function firstWeekWithout({ projection, supply }: ItemYear, isPlanned: boolean): WeekKey | null {
  const weeks = projection?.weeks ?? [];
  for (let at = 0; at < weeks.length; at += 1) {
    let end = at;
    while (end < weeks.length && weeks[end]?.closing.p50 === 0 && weeks[end]?.in === 0) end += 1;
    const stretch = weeks.slice(at, end);
    const wanted = stretch.reduce((sum, { unmet }) => sum + unmet, 0) > 1e-6;
    const again = isPlanned
      ? weeks[end]?.week
      : [weeks[end]?.week, supply.nextSupplyWeek].filter((week) => week != null).toSorted()[0];
    const first = stretch[0]?.week;
    if (first !== undefined && wanted && (again == null || again > addWeeks(first, 1))) return first;
    if (end > at) at = end - 1;
  }
  return null;
}

/** What follows a name up to the next one, of the rows of a table or list. */
const rowOf = (body: string, start: '<li', mark: string): string =>
  wordsOf(`<${body.split(start).find((row) => row.includes(mark)) ?? ''}`.split(/<\/tr>|<\/li>/)[0] ?? '');

/** `none for 9 weeks from mid April`, taken apart. */
const saidGap = (words: string) =>
  /none for (\d+) weeks?(?: or more)?(?: from ((?:early|mid|late|this|next) \w+(?: \d{4})?))?/i.exec(words);
const saidLasts = (words: string) =>
  /Lasts ((?:to (?:early|mid|late) \w+(?: \d{4})?)|through (?:this|next) week)/.exec(words)?.[1];

async function everyPlaceAgrees(household: Household): Promise<void> {
  looked += 1;
  const file = join(folder, `pantry-${looked}.sqlite`);
  const { db, day } = await settle(file, household);
  let ticks = 0;
  const now = () => {
    ticks += 1;
    return noonOf(day) + ticks;
  };
  const app = await buildApp({ db, reference, now });
  await app.ready();
  try {
    const visitor = new Visitor(app);
    const picture: YearPicture = await yearPicture(db, quinceYard, day, reference);
    const reading = readingOf(await householdById(db, quinceYard), day);
    const open = async (url: string) => (await visitor.open(url)).body;
    const [year, shelf, notices, door] = [
      await open('/year'),
      await open('/shelf'),
      wordsOf(await open('/notices')),
      await open('/shelf/sheet'),
    ];
    const letters = await lettersDue({
      db,
      reference,
      household: await householdById(db, quinceYard),
      at: noonOf(day),
      address: 'https://pantry.example.org',
    });
    const letter = letters.map(({ plain }) => plain.replace(/\s+/g, ' ')).join(' ');
    const { printed } = await typedCommand(file)('notices', '--as-of', day);

    const runOut = new Map<string, WeekKey>();
    for (const itemYear of picture.items) {
      const { item, runOut: gone, unitsOnShelf } = itemYear;
      const begins = firstWeekWithout(itemYear, household.isPlanned);
      if (begins !== null) runOut.set(item.id, begins);

      const ofItem = await open(`/year/${item.id}`);
      // What is bare today has no week in which it runs out: it is none now.
      const [, drawn] = /<title>Likely none (now|from the week of [^<]+?), for \d/.exec(ofItem) ?? [];
      const isBareToday = unitsOnShelf <= 0 && begins === itemYear.projection?.weeks[0]?.week;
      expect(drawn ?? null).toBe(
        begins === null ? null : isBareToday ? 'now' : `from the ${formatWeek(begins, reading)}`,
      );

      const rows = [rowOf(year, '<li', `/year/${item.id}"`), rowOf(shelf, '<li', `"item-${item.id}"`)];
      for (const row of rows) {
        const gap = saidGap(row);
        expect(gap !== null).toBe(begins !== null);
        if (begins !== null && gap !== null && unitsOnShelf > 0)
          expect([gap[2] ?? null, saidLasts(row)]).toContain(
            gap[2] === undefined ? weekWords(day, begins).until : weekWords(day, begins).to,
          );
      }
      // Where nothing comes before it, the gap is that of the jars that stand: it names no week of its own.
      const [first] = itemYear.gaps;
      const comesBefore = itemYear.projection?.weeks.slice(0, first?.from ?? 0).some((week) => week.in > 0);
      if (first !== undefined && unitsOnShelf > 0 && comesBefore === false)
        for (const row of rows) expect(saidGap(row)?.[2], row).toBeUndefined();
      expect(saidGap(rows[0] ?? '')?.[0].toLowerCase()).toBe(saidGap(rows[1] ?? '')?.[0].toLowerCase());
      if (unitsOnShelf > 0 && gone !== null && gone.p50 !== null) {
        const lasts = weekWords(day, gone.p50).until;
        expect(rows.map(saidLasts)).toEqual([lasts, lasts]);
        expect(weekWords(day, addWeeks(weekOf(day), weeksLeftOn(door, item.name))).until).toBe(lasts);
      }

      const next = itemYear.supply.nextSupplyWeek;
      const isToBeTold =
        begins !== null &&
        unitsOnShelf > 0 &&
        mondayOf(begins) <= addDays(day, noticedDaysAhead) &&
        (next === null || begins < next);
      for (const told of [notices, letter, printed]) {
        const weeks = [
          ...told.matchAll(
            new RegExp(`${item.name} will likely run out in (the week of \\w+ \\d+, \\d+)`, 'g'),
          ),
        ].map(([, week]) => week);
        for (const week of weeks)
          expect(week).toBe(
            begins === null ? null : readOut(weekOfWords(begins, reading.weekStartsOn), plainReader),
          );
        if (isToBeTold) expect(weeks, `${item.name} on ${day}`).not.toEqual([]);
      }
    }

    const preserves = picture.items.filter(({ item }) => item.kind === 'preserve');
    const out = (kept: readonly ItemYear[]) => kept.filter(({ item }) => runOut.has(item.id)).length;
    const staples = picture.items.filter(({ item }) => item.kind === 'staple');
    for (const heading of [year, shelf].map(headingOf)) {
      expect(saidOf(heading, 'your', 'preserve')).toBe(out(preserves));
      expect(saidOf(heading, 'the', 'thing')).toBe(out(staples));
    }
    expect(year.match(/<li class="year-row[^"]* goes-bare"/g)?.length ?? 0).toBe(runOut.size);
    expect(shelf.split('shelf-lasts').filter((row) => saidGap(wordsOf(`<p ${row}`)) !== null)).toHaveLength(
      runOut.size,
    );
  } finally {
    await app.close();
    await db.destroy();
  }
}

/** `3 of your 23 preserves`, `all 7 of your preserves`, `your only preserve`. */
const saidOf = (heading: string, whose: string, one: string): number =>
  heading.includes(`${whose} only ${one}`)
    ? 1
    : Number(new RegExp(`(\\d+) of ${whose} (?:\\d+ )?${one}`).exec(heading)?.[1] ?? 0);

const headingOf = (body: string): string =>
  wordsOf(/<p class="page-line">[\s\S]*?<\/p>/.exec(body)?.[0] ?? '');

/** Weeks left by the sheet at the pantry door. */
const weeksLeftOn = (door: string, name: string): number => {
  const line = door.split('<tr').find((row) => row.includes(name)) ?? '';
  return Number(wordsOf(`<td${line.split('<td')[3] ?? ''}`));
};

test('words, picture, shelf, notices, letter, door sheet and command say one week, and headings count their rows', async () => {
  await fc.assert(fc.asyncProperty(aHousehold, everyPlaceAgrees), {
    numRuns: households,
    endOnFailure: true,
  });
});
