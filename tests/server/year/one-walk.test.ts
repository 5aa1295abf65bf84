import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { householdById } from '../../../server/queries/household/household.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { amountOf } from '../../../server/words/shelf-units.ts';
import { yearPicture } from '../../../server/year/year-picture.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { addDays, asDate, type CalendarDate } from '../../../shared/week.ts';
import { gaveWayUnits } from '../../../src/planning/year/year-walk.ts';
import { formatNumber } from '../../../views/words/format.ts';
import { readingOf } from '../../../views/words/reading.ts';
import { eatingQuinceYard, itemsEaten } from '../../builders/eating-quince-yard.ts';
import { keepPlanOfNothing } from '../../builders/plan-of-nothing.ts';
import { oats, plumJam, quinceYard, quinceYardHousehold, shelve } from '../../builders/quince-yard.ts';
import { Visitor, wordsOf } from '../../builders/visitor.ts';

// What a year needs, what stands, what is planned and what is missing is one walk (`walkOfItem`): generated households, with jars of
// several sizes, with targets set by hand, with and without a plan. Targets, the year, the glut, the look back and the notices say its
// figures and no others. WALK_HOUSEHOLDS=50 looks at more of them, WALK_SEED=7 at others.

const households = Number(process.env.WALK_HOUSEHOLDS ?? 4);
const reference = loadReferenceTables();
const otherJar = ['pint/regular', 'quart/regular', 'pint/wide', null];

const anItem = fc.record({
  own: fc.nat(15),
  other: fc.nat(3),
  perWeek: fc.constantFrom(0, 0.05, 0.2, 0.5, 1, 2),
  byHand: fc.option(fc.integer({ min: 0, max: 60 }), { freq: 3 }),
  comes: fc.array(fc.record({ week: fc.nat(51), units: fc.integer({ min: 1, max: 20 }) }), { maxLength: 2 }),
});
const aHousehold = fc.record({
  daysLater: fc.nat(363),
  isPlanned: fc.boolean(),
  kept: fc.tuple(anItem, anItem, anItem, anItem),
});
type Household = typeof aHousehold extends fc.Arbitrary<infer Value> ? Value : never;

let folder: string;
let looked = 0;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'one-walk-'));
  await (await quinceYardHousehold(join(folder, 'empty.sqlite'))).db.destroy();
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const noonOf = (day: CalendarDate): number => Date.parse(`${day}T19:00:00Z`);

async function settle(file: string, { daysLater, isPlanned, kept }: Household) {
  const day = addDays(asDate('2026-08-17'), daysLater);
  const db = await eatingQuinceYard(
    join(folder, 'empty.sqlite'),
    file,
    kept.map(({ perWeek }) => perWeek),
  );
  const own = { household_id: quinceYard };
  for (const [place, said] of kept.entries()) {
    const itemId = itemsEaten[place] as ItemId;
    if (said.byHand !== null)
      await db
        .insertInto('hand_target')
        .values({ ...own, item_id: itemId, units: said.byHand, set_on: '2026-08-12' })
        .execute();
    const lot = { itemId, madeOn: '2026-08-14', bestQualityUntil: '2028-08-14' };
    const usual = ['half-pint/regular', 'pint/regular', 'quart/wide', null][place] ?? null;
    if (said.own > 0) await shelve(db, { ...lot, id: `${itemId}-own`, units: said.own, jarKind: usual });
    if (said.other > 0)
      await shelve(db, {
        ...lot,
        id: `${itemId}-other`,
        units: said.other,
        jarKind: otherJar[place] ?? null,
      });
  }
  if (isPlanned)
    await keepPlanOfNothing(
      db,
      quinceYard,
      day,
      {},
      { gaveWay: itemsEaten.map((what) => ({ rung: 'use' as const, what, amount: 5, unit: 'units' })) },
      {
        comes: (itemId, week) =>
          kept[itemsEaten.indexOf(itemId as ItemId)]?.comes.find((one) => one.week === week)?.units ?? 0,
      },
    );
  return { db, day };
}

/** A row of a table, or a board of the year. */
const rowOf = (body: string, mark: string): string => {
  const row = body.split(/<(?:tr|li class="year-row)/).find((one) => one.includes(mark));
  if (row === undefined) throw new Error(`no row leads to ${mark}`);
  return wordsOf(`<${row}`.split(/<\/(?:tr|li)>/)[0] ?? '');
};

const partOfAJar = /\d\.\d+ (?:jars?|pints?|quarts?|half-pints?)\b(?! a (?:week|month|year))/;

async function everyPlaceQuotes(household: Household): Promise<void> {
  looked += 1;
  const { db, day } = await settle(join(folder, `pantry-${looked}.sqlite`), household);
  let ticks = 0;
  const app = await buildApp({
    db,
    reference,
    now: () => {
      ticks += 1;
      return noonOf(day) + ticks;
    },
  });
  await app.ready();
  try {
    const visitor = new Visitor(app);
    const picture = await yearPicture(db, quinceYard, day, reference);
    const reading = readingOf(await householdById(db, quinceYard), day);
    const open = async (url: string) => {
      const { body } = await visitor.open(url);
      expect(wordsOf(body), url).not.toMatch(partOfAJar);
      return body;
    };
    const [targets, year, back, glut, notices] = [
      await open('/targets'),
      await open('/year'),
      await open('/look-back'),
      wordsOf(await open('/glut?crop=plums&amount=40&unit=lb')),
      wordsOf(await open('/notices')),
    ];
    const short: string[] = [];
    for (const { item, walk, gaps, missing: cannotCome, unitsOnShelf } of picture.items) {
      if (walk === null) throw new Error(`no walk of ${item.id}`);
      const amount = (units: number) => amountOf(item, units, reading);
      const figure = (units: number) => formatNumber(units, reading);
      const need = walk.need > 0 ? amount(walk.need) : 'nothing';
      expect(rowOf(targets, `/targets/${item.id}"`)).toContain(` ${need} `);

      const ofTarget = wordsOf(await open(`/targets/${item.id}`));
      if (walk.need > 0) expect(ofTarget).toContain(`A year needs ${amount(walk.need)}.`);
      const ends =
        walk.over > 0
          ? new RegExp(`more than that [^0-9]*${figure(walk.over)} `, 'i')
          : `still missing ${figure(walk.missing)} `;
      const ofItem = wordsOf(await open(`/year/${item.id}`));
      for (const page of [ofTarget, ofItem]) {
        expect(page.toLowerCase()).toMatch(ends);
        expect(page.toLowerCase()).toMatch(new RegExp(`a year needs together ${figure(walk.need)} `));
      }

      // Jars of another size are not said to be so many jars.
      const leftByNotice = new RegExp(
        `${item.name} will likely run out in [^:]*: (.+?) left, (?:and you eat about|some promised)`,
      ).exec(notices)?.[1];
      if (leftByNotice !== undefined) expect(leftByNotice).toBe(amount(unitsOnShelf));

      const made = household.isPlanned ? walk.planned : walk.missing;
      if (cannotCome === null && made > 0) {
        const words = `${item.id === oats ? 'Buy' : 'Make'} ${figure(made)}`;
        expect(rowOf(year, `/year/${item.id}"`)).toContain(words);
        expect(ofItem).toContain(words);
      }
      if (cannotCome === null && household.isPlanned && made > 0 && walk.missing > 0)
        expect(ofItem).toMatch(new RegExp(`${figure(made)}; ${figure(walk.missing)} (is|are) still missing`));

      const accept = /Accept ([\d.,]+ [\w-]+)/.exec(
        wordsOf(back.split(`id="accept-${item.id}"`)[1]?.split(/id="accept-|<\/form>/)[0] ?? ''),
      )?.[1];
      if (accept !== undefined) expect(accept).toBe(amount(walk.needByUse));

      if (item.id === plumJam && /Plum jam \d+ batch/.test(glut)) {
        expect(glut).toContain(
          walk.toCome > 0 ? `The year still needs ${amount(walk.toCome)}, ` : 'The year needs no more of it.',
        );
        if (household.isPlanned && walk.toCome > 0 && walk.missing > 0 && walk.planned > 0)
          expect(glut).toContain(`The plan makes ${figure(walk.planned)}; ${figure(walk.missing)} `);
      }
      const leaves = gaveWayUnits(walk, { rung: 'use', amount: 5 });
      if (leaves >= 1 || gaps.length > 0) short.push(item.name);
    }
    const told = /will be short/.exec(notices) !== null;
    expect(told).toBe(household.isPlanned && short.length > 0);
    if (short.length > 1) expect(notices.includes(`${short.length} `) || !household.isPlanned).toBe(true);
  } finally {
    await app.close();
    await db.destroy();
  }
}

test('targets, year, glut, look back and notices quote one walk, in whole jars', async () => {
  await fc.assert(fc.asyncProperty(aHousehold, everyPlaceQuotes), {
    numRuns: households,
    seed: Number(process.env.WALK_SEED ?? 26),
    endOnFailure: true,
  });
});
