import type { FastifyInstance } from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../../../server/app.ts';
import { type Database, openDatabase } from '../../../../server/database/database.ts';
import { makeDemoHousehold } from '../../../../server/demo/make-demo.ts';
import { householdById } from '../../../../server/queries/household/household.ts';
import { itemsOf } from '../../../../server/queries/household/items.ts';
import { cannersOf, kitchenHoursOf } from '../../../../server/queries/household/kitchen.ts';
import { recipesOf } from '../../../../server/queries/household/recipes.ts';
import { asDate, asWeek, weeksFrom } from '../../../../shared/week.ts';
import { noPreparations } from '../../../../src/household/begun.ts';
import { type SessionKitchen, sessionHere } from '../../../../src/preserving/day/session-here.ts';
import { everyCaution } from '../../../../src/preserving/sheet/cautions.ts';
import { stagesHere } from '../../../../src/preserving/stages/stages-here.ts';
import { reference } from '../../../builders/canning-pages.ts';
import { keepPlanOf, type PlannedWork } from '../../../builders/planned-week.ts';
import { Visitor, wordsOf } from '../../../builders/visitor.ts';

// Every recipe of the demo household in a week of its own, alone and three batches at once, and all of a season together.
const asOf = asDate('2026-08-12');
const saturday = asDate('2026-08-15');

let app: FastifyInstance;
let db: Database;
let kitchen: SessionKitchen;
let workByWeek: Record<string, readonly PlannedWork[]> = {};

beforeAll(async () => {
  db = await openDatabase(':memory:');
  const id = await makeDemoHousehold(db, asOf);
  const recipes = await recipesOf(db, id);
  kitchen = {
    household: await householdById(db, id),
    canners: await cannersOf(db, id),
    items: await itemsOf(db, id),
    recipes,
    hours: await kitchenHoursOf(db, id),
    reference,
    preparations: noPreparations,
    now: Date.parse('2026-08-12T15:00:00Z'),
  };
  const weeks = weeksFrom(asWeek('2026-W34'), recipes.length + 1);
  workByWeek = Object.fromEntries([
    ...recipes.map(({ id: recipe }, at) => [weeks[at] ?? '', [{ recipe, batches: (at % 3) + 1 }]] as const),
    [
      weeks[recipes.length] ?? '',
      ['peach-halves', 'crushed-tomatoes', 'sweet-corn', 'frozen-raspberries-autumn'].map((recipe) => ({
        recipe,
        batches: 1,
      })),
    ],
  ]);
  await keepPlanOf(db, id, workByWeek);
  app = await buildApp({ db, reference, now: () => Date.parse('2026-08-12T15:00:00Z') });
  await app.ready();
});
afterAll(async () => {
  await app.close();
  await db.destroy();
});

const isStaged = (recipe: SessionKitchen['recipes'][number]) => stagesHere(recipe, reference).length > 0;

describe('every canning week of the demo household', () => {
  it('has its page, with minutes for each canned batch, its day, and all cautions', async () => {
    const visitor = new Visitor(app);
    for (const [week, work] of Object.entries(workByWeek)) {
      const { status, body } = await visitor.open(`/canning-day/${week}`);
      const words = wordsOf(body);
      const canned = work.filter(({ recipe }) =>
        kitchen.recipes.some((one) => one.id === recipe && one.process !== null && !isStaged(one)),
      );

      expect({ week, status }).toEqual({ week, status: 200 });
      expect(body.match(/class="schedule-minutes"/g) ?? []).toHaveLength(canned.length);
      if (canned.length > 0) expect(words).toContain('Check every seal');
      for (const { text } of everyCaution) expect(words).toContain(text);
    }
  });

  it('gives no batch another minutes than its printed row', () => {
    for (const work of Object.values(workByWeek)) {
      const here = sessionHere(
        work.map(({ recipe, batches }) => ({
          recipeId: recipe as SessionKitchen['recipes'][number]['id'],
          batches,
        })),
        kitchen,
        saturday,
        { by: 'start', time: '09:00', people: 2, burners: 4, rows: {} },
      );
      for (const { canned, heldBack, recipe } of here.batches) {
        if (canned === null) continue;
        // What is soaked or brined first has no minutes before that is written down.
        expect(canned.ok, recipe.id).toBe(!isStaged(recipe));
        const planned = canned.ok ? canned.value : heldBack;
        if (planned === null) throw new Error(recipe.id);
        const { schedule, loads, dayBatch } = planned;
        const row = reference.processTimes.find(
          (printed) =>
            printed.foodKey === schedule.foodKey &&
            printed.style === schedule.style &&
            printed.jar === schedule.printedJar &&
            printed.pack === schedule.pack &&
            printed.altitudeFromFt === schedule.bandFromFt &&
            printed.minutes === schedule.minutes &&
            printed.psi === schedule.psi,
        );
        expect(row?.basis).toBe('read');
        expect(dayBatch.phases.find(({ name }) => name === 'process')?.minutes).toBe(schedule.minutes);
        // Every jar got ready has its place in a load.
        expect(loads.reduce((sum, { jars }) => sum + jars, 0)).toBe(
          Math.ceil(recipe.yieldHigh) * dayBatch.pots,
        );
      }
    }
  });
});
