import { afterEach, expect, test } from 'vitest';
import { buildApp } from '../../../../server/app.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { asCents } from '../../../../shared/money.ts';
import { addDays, asDate, type CalendarDate, weekHolding } from '../../../../shared/week.ts';
import { formatWeek } from '../../../../views/words/format.ts';
import { readingOf } from '../../../../views/words/reading.ts';
import { keepPlanOfNothing } from '../../../builders/plan-of-nothing.ts';
import { type Cast, oats, quinceYard, quinceYardHousehold } from '../../../builders/quince-yard.ts';
import { Visitor, wordsOf } from '../../../builders/visitor.ts';

// Thirty Sundays from June 28, 2026 on, for a household that begins its weeks on either day. Every week of the plan buys oats, so
// that a page which begins with the week before would say so.

const reference = loadReferenceTables();
let cast: Cast | null = null;
afterEach(async () => cast?.db.destroy());

const sundays = Array.from({ length: 30 }, (_, at) => addDays(asDate('2026-06-28'), 7 * at));
const noonOf = (day: CalendarDate) => Date.parse(`${day}T18:00:00Z`);

test.each(['monday', 'sunday'] as const)(
  'where weeks begin on %s no page shows last week as this week',
  async (startsOn) => {
    cast = await quinceYardHousehold();
    const { db } = cast;
    const clock = { at: noonOf(sundays[0] ?? asDate('2026-06-28')) };
    await db.updateTable('household').set({ week_starts_on: startsOn }).execute();
    const app = await buildApp({ db, reference, now: () => clock.at });
    const visitor = new Visitor(app);
    const line = {
      what: oats,
      kind: 'item',
      quantity: 2,
      unit: 'lb',
      packs: null,
      cost: asCents(349),
    } as const;
    const first = sundays[0] ?? asDate('2026-06-28');
    const weeks = Object.fromEntries(
      Array.from({ length: 31 }, (_, at) => [
        weekHolding(addDays(first, 7 * at), startsOn),
        { purchases: [line], spend: asCents(349) },
      ]),
    );
    await keepPlanOfNothing(db, quinceYard, first, weeks);

    for (const sunday of sundays) {
      clock.at = noonOf(sunday);
      // A Sunday is the first day of its week, or the last: counted here by the day alone.
      const begins = startsOn === 'sunday' ? sunday : addDays(sunday, -6);
      const before = addDays(begins, -7);
      const reading = readingOf({ locale: 'en-US', units: 'us', weekStartsOn: startsOn }, sunday);
      const name = (day: CalendarDate) => formatWeek(weekHolding(addDays(day, 1), startsOn), reading);
      for (const page of ['/', '/buying']) {
        const words = wordsOf((await visitor.open(page)).body);
        expect([page, sunday, words.toLowerCase().includes(name(begins).toLowerCase())]).toEqual([
          page,
          sunday,
          true,
        ]);
        expect([page, sunday, words.toLowerCase().includes(`${name(before).toLowerCase()} `)]).toEqual([
          page,
          sunday,
          false,
        ]);
      }
    }
    await app.close();
  },
);
