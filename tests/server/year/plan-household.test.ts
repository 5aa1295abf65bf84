import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { keepPlan } from '../../../server/jobs/keep-plan.ts';
import { newestPlan } from '../../../server/queries/year/plans.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { savePack } from '../../../server/records/year/packs.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { planYear } from '../../../server/solver/plan-year.ts';
import { planHousehold } from '../../../server/year/plan-household.ts';
import { packForm } from '../../../shared/schemas/item.ts';
import { oneOf } from '../../../shared/schemas/shelf/take.ts';
import type { PlanOptions, PlanYear } from '../../../src/planning/make-plan.ts';
import { steadyWeeks } from '../../../src/planning/model/rules.ts';
import type { Plan } from '../../../src/planning/plan.ts';
import { weeksToKeep } from '../../../src/planning/stored-plan.ts';
import { worked } from '../../builders/outcomes.ts';
import { planCosting } from '../../builders/plan-answers.ts';
import { settledQuinceYard } from '../../builders/planned-quince-yard.ts';
import { greenBeans, plumJam, quinceYard, today } from '../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';

const reference = loadReferenceTables();
const noon = Date.parse(`${today}T18:00:00Z`);

let pages: QuinceYardPages;
let plansMade = 0;
beforeEach(async () => {
  pages = await settledQuinceYard();
});
afterEach(() => pages.close());

/** Plans Quince Yard as it stands and keeps the plan. */
const plan = async (): Promise<Plan> => {
  plansMade += 1;
  const { loaded, answer } = await planHousehold(pages.db, quinceYard, today, reference, planYear, {
    gap: 0.05,
  });
  if (answer.outcome !== 'planned') throw new Error(`expected a plan; found ${answer.outcome}`);
  const { version: factsVersion } = loaded.facts;
  await keepPlan(pages.db, quinceYard, { year: loaded.year, factsVersion, answer, at: noon + plansMade });
  return answer.plan;
};

const canned = ({ weeks }: Plan, howMany: number) =>
  weeks
    .slice(0, howMany)
    .flatMap(({ week, sessions }) => sessions.map(({ recipe, batches }) => ({ week, recipe, batches })));

describe('planning a household again', () => {
  test('with nothing changed agrees with the plan before', async () => {
    const first = await plan();
    const again = await plan();

    expect(canned(first, steadyWeeks)).not.toEqual([]);
    expect(canned(again, first.weeks.length)).toEqual(canned(first, first.weeks.length));
  });

  test('after a jar is taken leaves the near weeks as they were', async () => {
    const first = await plan();
    worked(await take(pages.writer(), oneOf(greenBeans)));
    const again = await plan();

    expect(canned(again, steadyWeeks)).toEqual(canned(first, steadyWeeks));
  });
});

describe('planning a household overnight', () => {
  const asked = async (goesOn: boolean): Promise<PlanOptions> => {
    let given: PlanOptions = {};
    const listening: PlanYear = async (_, options = {}) => {
      given = options;
      return { outcome: 'cancelled', detail: '', fallback: { plan: planCosting(1), paths: [] } };
    };
    await planHousehold(pages.db, quinceYard, today, reference, listening, {
      goesOn: goesOn ? { secondsLimit: 15, beginsFromEarlier: true } : null,
    });
    return given;
  };

  test('begins from the last plan and the year it was made of, and by day near it alone', async () => {
    const last = await plan();
    const kept = await newestPlan(pages.db, quinceYard);

    expect(await asked(true)).toMatchObject({
      secondsLimit: 15,
      earlier: last.weeks,
      beginsFrom: { plan: last, year: { items: kept?.year.items } },
    });
    const byDay = await asked(false);
    expect(byDay.earlier).toEqual(last.weeks);
    expect(byDay).not.toHaveProperty('beginsFrom');
  });

  test('begins from nothing where there is no plan', async () => {
    await pages.db.deleteFrom('plan').execute();

    expect(await asked(true)).toMatchObject({ earlier: null });
    expect(await asked(true)).not.toHaveProperty('beginsFrom');
  });
});

describe('something put up here that a store has, too', () => {
  const store = packForm.parse({ itemId: plumJam, units: '1', price: '3.19' });
  const boughtOf = (made: Plan, item: string) =>
    made.weeks
      .flatMap(({ purchases }) => purchases)
      .filter(({ kind, what }) => kind === 'item' && what === item)
      .reduce((sum, { quantity }) => sum + quantity, 0);
  const nothingPutUp = () =>
    pages.db.updateTable('recipe').set({ canner_id: null }).where('item_id', '=', plumJam).execute();

  test('is not bought where its price is only written down to compare, though none can be made', async () => {
    await nothingPutUp();
    worked(await savePack(pages.writer(), store));

    expect(boughtOf(await plan(), plumJam)).toBe(0);
  });

  test('is bought where the plan may, and none can be made', async () => {
    await nothingPutUp();
    worked(await savePack(pages.writer(), { ...store, mayBuy: true }));

    const made = await plan();

    expect(boughtOf(made, plumJam)).toBeGreaterThan(0);
    expect(made.gaveWay.filter(({ rung, what }) => rung === 'use' && what === plumJam)).toEqual([]);
  });
});

describe('the weeks planned before', () => {
  test('are stayed near only where a plan was worked out and reaches over the near weeks', async () => {
    await plan();
    const kept = await newestPlan(pages.db, quinceYard);
    if (kept === null) throw new Error('expected a kept plan');
    const { weeks } = kept.plan;
    const keys = weeks.map(({ week }) => week);

    expect(weeksToKeep(kept, keys)).toBe(weeks);
    expect(weeksToKeep({ ...kept, outcome: 'solver crashed' }, keys)).toBeNull();
    expect(weeksToKeep({ ...kept, plan: { ...kept.plan, weeks: weeks.slice(0, 2) } }, keys)).toBeNull();
    expect(weeksToKeep(null, keys)).toBeNull();
  });
});
