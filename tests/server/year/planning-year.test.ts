import { beforeEach, describe, expect, test } from 'vitest';
import { setSeasonFund } from '../../../server/records/household/kitchen.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { recordDeclaredUse, setHandTarget } from '../../../server/records/year/targets.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../../server/year/load-year.ts';
import { mostHouseholdsRemembered } from '../../../server/year/remembered-outlooks.ts';
import { yearPicture } from '../../../server/year/year-picture.ts';
import type { HouseholdId, RecipeId } from '../../../shared/ids.ts';
import { asCents } from '../../../shared/money.ts';
import { declaredUseForm } from '../../../shared/schemas/declared-use.ts';
import { oneOf } from '../../../shared/schemas/shelf/take.ts';
import { asDate } from '../../../shared/week.ts';
import { recipesHere } from '../../../src/planning/year/planned-recipes.ts';
import { addTomatoes } from '../../builders/canning-pages.ts';
import { worked } from '../../builders/outcomes.ts';
import {
  type Cast,
  greenBeans,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  shelve,
  today,
  trueGauge,
} from '../../builders/quince-yard.ts';

const reference = loadReferenceTables();

let cast: Cast;
beforeEach(async () => {
  cast = await quinceYardHousehold();
});

const load = () => loadPlanningYear(cast.db, quinceYard, today, reference);
const says = async (itemId: string, amount: string, per = 'week') =>
  worked(await recordDeclaredUse(cast.writer(), declaredUseForm.parse({ itemId, amount, per })));
const planned = async (recipe: string) =>
  (await load()).year.recipes.find(({ id }) => id === recipe)?.processing;
const leftOut = async () =>
  (await load()).recipes.leftOut.map(({ recipeId, reasons }) => [recipeId, reasons[0]?.code]);

describe('recipes as they can be made here', () => {
  // Green beans, raw pack, pints, weighted gauge above 1,000 ft: 20 minutes at 15 psi. USDA Complete Guide to Home
  // Canning, 2015, Guide 4, p4-8 (read).
  test('carry the one published schedule for the canner, the jar and the altitude', async () => {
    expect(await planned('green-beans-batch')).toMatchObject({
      cannerId: 'pressure-pot',
      lowAcid: true,
      minutes: 20,
      psi: 15,
      jarsPerLoad: 9,
    });
  });

  // Plum jam, half-pints, 1,001 to 6,000 ft: 10 minutes. USDA Complete Guide, 2015, Guide 7 (read).
  test('a jam is processed in boiling water, twelve half-pints to the load of this kettle', async () => {
    expect(await planned('plum-jam-batch')).toMatchObject({
      lowAcid: false,
      minutes: 10,
      psi: null,
      jarsPerLoad: 12,
      // Heat up at most 30, process 10, wait 5 minutes: USDA Complete Guide 1, p1-18 (read).
      loadMinutes: 45,
    });
  });

  // Crushed tomatoes, pints, weighted gauge above 1,000 ft: 20 minutes at 10 psi or 15 at 15. USDA Complete Guide, 2015,
  // Guide 3, p3-8 (read). Heat up 15, vent 10, rise 5, fall 60, wait 10 minutes at most: Guide 1, p1-20 and p1-22 (read).
  test('where several schedules are printed the plan counts on the longest load, and chooses none', async () => {
    await addTomatoes(cast);
    await cast.db
      .updateTable('recipe')
      .set({ canner_id: 'pressure-pot' })
      .where('id', '=', 'tomato-batch')
      .execute();
    await says('tomatoes', '1');

    expect(await planned('tomato-batch')).toMatchObject({ minutes: 20, psi: 10, loadMinutes: 120 });
    expect((await load()).recipes.schedules.get('tomato-batch' as RecipeId)).toMatchObject([
      { minutes: 20, psi: 10 },
      { minutes: 15, psi: 15 },
    ]);
  });

  test('without an altitude nothing is canned, and the reason is given', async () => {
    await cast.db.updateTable('household').set({ altitude_ft: null }).execute();

    expect(await leftOut()).toEqual([
      ['green-beans-batch', 'altitude-unknown'],
      ['plum-jam-batch', 'altitude-unknown'],
    ]);
  });

  test('a low-acid food is never planned in boiling water', async () => {
    await cast.db
      .updateTable('recipe')
      .set({ canner_id: 'kettle' })
      .where('id', '=', 'green-beans-batch')
      .execute();

    expect(await leftOut()).toEqual([['green-beans-batch', 'low-acid-needs-pressure']]);
  });

  test('without the pressure canner green beans drop out of the plan', async () => {
    await cast.db
      .updateTable('canner')
      .set({ retired_on: '2026-08-01' })
      .where('id', '=', 'pressure-pot')
      .execute();

    expect(await leftOut()).toEqual([['green-beans-batch', 'canner-gone']]);
  });

  test('a canner that holds no such jar is said to hold none', async () => {
    await cast.db.updateTable('canner').set({ half_pint_jars: 0 }).where('id', '=', 'kettle').execute();

    expect(await leftOut()).toEqual([['plum-jam-batch', 'jar-does-not-fit']]);
  });

  test('a dial gauge that was never checked has no schedules', async () => {
    await cast.db.updateTable('canner').set({ gauge: 'dial' }).where('id', '=', 'pressure-pot').execute();

    expect(await leftOut()).toEqual([['green-beans-batch', 'dial-gauge-unchecked']]);
  });

  // Before, every pressure recipe left the plan on the 366th day, and nothing said so.
  test('a dial gauge’s yearly check is counted on by the plan, from the week after this one, and by nothing else', async () => {
    const checked = (gauge_checked_on: string) =>
      cast.db
        .updateTable('canner')
        .set({ gauge: 'dial', gauge_checked_on, ...trueGauge })
        .where('id', '=', 'pressure-pot')
        .execute();
    const weeksAllowed = async () => {
      const { year } = await load();
      const allowed = year.recipes.find(({ id }) => id === 'green-beans-batch')?.allowedByWeek ?? [];
      return year.weeks.filter((_, at) => allowed[at]);
    };

    await checked('2026-05-01');
    const inDateNow = await weeksAllowed();
    await checked('2025-06-14');
    const ranOut = await weeksAllowed();

    expect(inDateNow).toHaveLength(52);
    expect(ranOut).toHaveLength(51);
    expect(ranOut[0]).toBe('2026-W35');
    // What is asked of a day at the stove counts on nothing.
    const { facts } = await load();
    const [beans] = recipesHere(
      facts.recipes.filter(({ id }) => id === 'green-beans-batch'),
      { ...facts, weeks: [], asOf: asDate('2026-08-22'), sessionWeekday: 6, reference },
    ).leftOut;
    expect(beans?.reasons.map(({ code }) => code)).toEqual(['dial-gauge-unchecked']);
  });

  test.each([
    ['was never checked', { gauge_checked_on: null, ...trueGauge }, 'dial-gauge-unchecked'],
    ['has a check without figures', { gauge_checked_on: '2025-06-14' }, 'gauge-figures-missing'],
    [
      'was found to read high',
      { gauge_checked_on: '2025-06-14', ...trueGauge, gauge_off_at_10_psi: 1 },
      'dial-gauge-reads-high',
    ],
    [
      'was found 3 psi off',
      { gauge_checked_on: '2025-06-14', ...trueGauge, gauge_off_at_15_psi: -3 },
      'dial-gauge-off',
    ],
  ] as const)('no check is counted on of a dial gauge that %s', async (_, gauge, code) => {
    await cast.db
      .updateTable('canner')
      .set({
        gauge: 'dial',
        gauge_off_at_5_psi: null,
        gauge_off_at_10_psi: null,
        gauge_off_at_15_psi: null,
        ...gauge,
      })
      .where('id', '=', 'pressure-pot')
      .execute();

    const { recipes } = await load();

    expect(recipes.leftOut.flatMap(({ reasons }) => reasons.map((reason) => reason.code))).toContain(code);
  });

  test('a dial gauge checked this spring is in date for a year, to the day, where only what is recorded counts', async () => {
    await cast.db
      .updateTable('canner')
      .set({ gauge: 'dial', gauge_checked_on: '2026-05-01', ...trueGauge })
      .where('id', '=', 'pressure-pot')
      .execute();

    const { facts, year } = await load();
    const { planned } = recipesHere(facts.recipes, {
      ...facts,
      weeks: year.weeks,
      asOf: year.asOf,
      sessionWeekday: 6,
      reference,
    });

    const allowed = planned.find(({ id }) => id === 'green-beans-batch')?.allowedByWeek ?? [];
    const lastAllowed = year.weeks[allowed.lastIndexOf(true)];
    // The Saturday of 2027-W17 is 1 May 2027, the 365th day.
    expect(lastAllowed).toBe('2027-W17');
  });
});

describe('sources and seasons', () => {
  test('a harvest that was written down for this year comes again next year', async () => {
    const { year } = await load();

    const plums = year.sources.find(({ id }) => id === 'plum-tree');
    const weeksWithPlums = year.weeks.filter((_, at) => (plums?.lbByWeek[at] ?? 0) > 0);
    // 10 August to 13 September, a Sunday, with which a week begins here; 2027 begins again on a Tuesday.
    expect(weeksWithPlums).toEqual(['2026-W34', '2026-W35', '2026-W36', '2026-W37', '2026-W38', '2027-W32']);
    expect(plums?.lbByWeek.slice(0, 4)).toEqual([20, 20, 20, 20]);
  });

  test('what can be made now must last to the next season, not to the next week of this one', async () => {
    const { supplyByItem } = await load();

    expect(supplyByItem.get(plumJam)).toMatchObject({
      by: 'made',
      nextSupplyWeek: '2026-W34',
      nextSeasonWeek: '2027-W32',
    });
  });
});

describe('items', () => {
  test('open with what is on the shelf in units of the usual jar; what is set aside does not count', async () => {
    await shelve(cast.db, {
      id: 'half-pints',
      itemId: plumJam,
      units: 5,
      madeOn: '2026-01-10',
      bestQualityUntil: '2027-01-10',
    });
    await shelve(cast.db, {
      id: 'pints',
      itemId: plumJam,
      units: 2,
      madeOn: '2026-02-10',
      bestQualityUntil: '2027-02-10',
      jarKind: 'pint/regular',
    });
    await shelve(cast.db, {
      id: 'doubtful',
      itemId: plumJam,
      units: 9,
      madeOn: '2026-03-10',
      bestQualityUntil: '2027-03-10',
      setAside: 'acid forgotten',
    });

    const { year } = await load();

    const jam = year.items.find(({ id }) => id === plumJam);
    expect(jam?.openingLots.map(({ lotId, units, jars }) => [lotId, units, jars])).toEqual([
      ['half-pints', 5, 5],
      ['pints', 4, 2],
    ]);
  });

  test('what nobody says they eat is not planned for', async () => {
    const { year, targetByItem } = await load();

    expect(year.items.find(({ id }) => id === plumJam)?.useByWeek.every((units) => units === 0)).toBe(true);
    expect(targetByItem.has(plumJam)).toBe(false);
  });

  test('a target set by hand is what the year is planned for', async () => {
    await says(plumJam, '1');
    worked(await setHandTarget(cast.writer(), { itemId: plumJam, units: 30 }));

    const { year } = await load();

    const jam = year.items.find(({ id }) => id === plumJam);
    const use = jam?.useByWeek.reduce((sum, units) => sum + units, 0) ?? 0;
    expect(jam?.yearlyTarget).toBe(30);
    expect(use + (jam?.reserveUnits ?? 0)).toBeCloseTo(30, 9);
  });

  test('jars that were taken move the forecast away from what was said', async () => {
    await says(plumJam, '1');
    await shelve(cast.db, {
      id: 'july',
      itemId: plumJam,
      units: 40,
      madeOn: '2026-06-01',
      bestQualityUntil: '2027-06-01',
    });
    for (const day of ['06-20', '07-01', '07-10', '07-20', '08-01', '08-10'])
      worked(await take(cast.writer(), { ...oneOf(plumJam, `2026-${day}` as never), units: 4 }));

    const { useByItem } = await load();

    const forecast = useByItem.get(plumJam)?.forecast;
    expect(forecast?.evidence.takings).toBe(24);
    expect(forecast?.perWeek ?? 0).toBeGreaterThan(1.4);
  });
});

test('the season fund opens with what is in it and grows by the week', async () => {
  worked(await setSeasonFund(cast.writer(), { balance: asCents(5_000), weekly: asCents(700) }));

  const { year } = await load();

  expect(year.fund.opening).toBe(5_000);
  expect(year.fund.setAsideByWeek.slice(0, 3)).toEqual([0, 700, 700]);
});

describe('the whole picture', () => {
  test('is made once for the same facts, and anew after a jar is taken', async () => {
    await says(plumJam, '1');
    await shelve(cast.db, {
      id: 'july',
      itemId: plumJam,
      units: 12,
      madeOn: '2026-07-20',
      bestQualityUntil: '2026-09-05',
    });

    const first = await yearPicture(cast.db, quinceYard, today, reference);
    const same = await yearPicture(cast.db, quinceYard, today, reference);
    worked(await take(cast.writer(), oneOf(plumJam)));
    const after = await yearPicture(cast.db, quinceYard, today, reference);

    expect(same).toBe(first);
    expect(first.itemYearById.get(plumJam)?.unitsOnShelf).toBe(12);
    expect(after.itemYearById.get(plumJam)?.unitsOnShelf).toBe(11);
    const [before] = first.itemYearById.get(plumJam)?.withoutPlan?.weeks ?? [];
    const [later] = after.itemYearById.get(plumJam)?.withoutPlan?.weeks ?? [];
    expect((before?.opening.expected ?? 0) - (later?.opening.expected ?? 0)).toBeCloseTo(1, 9);
  });

  test('is let go once enough other households were looked at since, and made anew for who looks again', async () => {
    const others = Array.from(
      { length: mostHouseholdsRemembered },
      (_, at) => `orchard-${at}` as HouseholdId,
    );
    const own = await cast.db.selectFrom('household').selectAll().where('id', '=', quinceYard).execute();
    await cast.db
      .insertInto('household')
      .values(others.flatMap((id) => own.map((row) => ({ ...row, id }))))
      .execute();
    const pictureOf = (id: HouseholdId) => yearPicture(cast.db, id, today, reference);
    const first = await pictureOf(quinceYard);
    for (const id of others.slice(1)) await pictureOf(id);
    expect(await pictureOf(quinceYard)).toBe(first);

    for (const id of others) await pictureOf(id);

    const again = await pictureOf(quinceYard);
    expect(again).not.toBe(first);
    expect(again.itemYearById).toEqual(first.itemYearById);
  });

  test('gives notice of jars near the end of their best quality, and of an altitude nobody entered', async () => {
    await shelve(cast.db, {
      id: 'spring',
      itemId: greenBeans,
      units: 3,
      madeOn: '2025-09-10',
      bestQualityUntil: '2026-09-10',
      jarKind: 'pint/regular',
    });
    await cast.db.updateTable('household').set({ altitude_ft: null }).execute();

    const { notices } = await yearPicture(cast.db, quinceYard, today, reference);

    expect(notices.map(({ kind, subject }) => [kind, subject])).toEqual(
      expect.arrayContaining([
        ['best by near', 'lot:spring'],
        ['altitude unknown', expect.any(String)],
      ]),
    );
  });
});
