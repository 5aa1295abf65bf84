import { beforeAll, describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { solveInBackground } from '../../../server/solver/plan-year.ts';
import { householdFacts } from '../../../server/year/household-facts.ts';
import { asJarKind } from '../../../shared/jar.ts';
import { asCents } from '../../../shared/money.ts';
import { addDays, asDate, type CalendarDate, mondayOf } from '../../../shared/week.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import { makePlan } from '../../../src/planning/make-plan.ts';
import { planningParameters } from '../../../src/planning/model/parameters.ts';
import { planningSets } from '../../../src/planning/model/sets.ts';
import { planningYearOf } from '../../../src/planning/year/household-year.ts';
import { recipeBook } from '../../../src/preserving/recipes/recipe-book.ts';
import { quinceYard, quinceYardHousehold } from '../../builders/quince-yard.ts';
import { checkPlan } from '../../planning/independent-checker.ts';

const reference = loadReferenceTables();
const staged = recipeBook(reference).filter(({ stages }) => stages.length > 0);
const asOf = asDate('2026-05-06');

let facts: HouseholdFacts;
beforeAll(async () => {
  const { db } = await quinceYardHousehold();
  facts = await householdFacts(db, quinceYard, asOf);
});

interface Window {
  readonly from: CalendarDate;
  readonly to: CalendarDate;
  readonly keepsDays: number;
}

/** Quince Yard keeping every recipe of several days in the book, all made of one crop of one window. */
function keepingAll({ from, to, keepsDays }: Window, sessionWeekday: number): HouseholdFacts {
  const [item] = facts.items;
  const [recipe] = facts.recipes;
  const [source] = facts.sources;
  if (item === undefined || recipe === undefined || source === undefined) throw new Error('an empty yard');
  const ways = staged.flatMap((tested) =>
    ['kettle', 'pressure-pot'].flatMap((cannerId) =>
      tested.processes.slice(0, 1).map((process) => ({ tested, cannerId, process })),
    ),
  );
  const jarKind = asJarKind('pint', 'regular');
  const idOf = (key: string, cannerId: string) => `${key}-${cannerId}`.replaceAll('_', '-');
  const cropOf = (tested: (typeof staged)[number]) =>
    tested.produce.find(({ cropKey }) => cropKey !== null)?.cropKey?.replaceAll('_', '-');
  return {
    ...facts,
    hours: { ...facts.hours, sessionWeekday, sessionsPerWeek: 1, hoursPerSession: 8 },
    items: ways.map(({ tested, cannerId }) => ({
      ...item,
      id: idOf(tested.key, cannerId) as typeof item.id,
      name: tested.name,
      usualJar: jarKind,
      retiredOn: null,
    })),
    declaredUses: new Map(),
    recipes: ways.map(
      ({ tested, cannerId, process }) =>
        ({
          ...recipe,
          id: idOf(tested.key, cannerId),
          itemId: idOf(tested.key, cannerId),
          name: tested.name,
          basedOn: tested.key,
          jarKind,
          process: {
            food: process.foodKey,
            style: process.style,
            pack: process.pack,
            cannerId,
            jarKind,
          },
          season: null,
          crock: null,
          readyAfterDays: 0,
          supplies: [],
          gives: [],
          uses: [],
          produce: cropOf(tested) === undefined ? [] : [{ crop: cropOf(tested), lb: 5, mayBeFrozen: false }],
        }) as unknown as Recipe,
    ),
    sources: [...new Set(staged.flatMap((tested) => cropOf(tested) ?? []))].map((crop) => ({
      ...source,
      id: `of-${crop}` as typeof source.id,
      crop: crop as typeof source.crop,
      useByDays: keepsDays,
      windows: [
        {
          year: 2026,
          beginsOn: from,
          endsOn: addDays(to, 1),
          mostActive: null,
          lbPerWeek: 70,
          firstPickedOn: null,
        } as unknown as (typeof source.windows)[number],
      ],
    })),
  };
}

const windows: readonly Window[] = [
  { from: asDate('2026-07-02'), to: asDate('2026-07-29'), keepsDays: 3 },
  { from: asDate('2026-08-10'), to: asDate('2026-08-16'), keepsDays: 2 },
  { from: asDate('2026-10-17'), to: asDate('2026-11-11'), keepsDays: 16 },
];

describe('recipes of several days in a household', () => {
  test.each(windows.map((window, at) => [at, window] as const))(
    'window %i: whatever the canning day, no batch is begun before its produce is picked or after it has kept',
    (_, window) => {
      const seen = new Set<string>();
      for (let weekday = 1; weekday <= 7; weekday += 1) {
        const { year } = planningYearOf(keepingAll(window, weekday), asOf, reference);
        const sets = planningSets(year);
        const { mostBatches } = planningParameters(sets);
        sets.recipes.forEach((recipe, at) => {
          const { stages } = recipe;
          if (stages === undefined || recipe.produce.length === 0) return;
          (mostBatches[at] ?? []).forEach((most, week) => {
            const monday = year.weeks[week - stages.weeks];
            if (most === 0) return;
            const begun = monday === undefined ? asOf : addDays(mondayOf(monday), stages.daysFromMonday);
            seen.add(recipe.id);
            expect([recipe.id, weekday, begun >= window.from && begun >= asOf]).toEqual([
              recipe.id,
              weekday,
              true,
            ]);
            expect(begun <= addDays(window.to, window.keepsDays), `${recipe.id} ${begun}`).toBe(true);
          });
        });
      }
      expect(seen.size).toBeGreaterThan(8);
    },
  );

  test('a year of them, some begun already, is planned as a stranger with a pencil would check it', async () => {
    const window = { from: asDate('2026-07-02'), to: asDate('2026-09-16'), keepsDays: 8 };
    const all = keepingAll(window, 6);
    const begun = [{ position: 1, way: 'at 70 to 75 F', begunAt: '2026-04-24T10:00' }];
    const kraut = all.recipes.find(({ basedOn }) => basedOn === 'sauerkraut')?.id;
    if (kraut === undefined) throw new Error('the book has sauerkraut');
    const { year } = planningYearOf(
      {
        ...all,
        preparations: {
          batches: [{ id: 'kraut-1', recipeId: kraut, batches: 2, begun, isThrownAway: false }],
          filled: [],
        },
      },
      asOf,
      reference,
    );
    const eaten = {
      ...year,
      fund: { ...year.fund, opening: asCents(500_000) },
      items: year.items.map((item, at) => ({
        ...item,
        useByWeek: year.weeks.map(() =>
          at % 4 === 0 || `${item.id}` === `${year.begun?.[0]?.recipeId}` ? 0.4 : 0,
        ),
      })),
    };

    const answer = await makePlan(eaten, solveInBackground, { gap: 0.05, secondsLimit: 20 });

    if (answer.outcome !== 'planned') throw new Error(answer.outcome);
    expect(checkPlan(answer.plan, eaten)).toEqual([]);
    const sessions = answer.plan.weeks.flatMap(({ week, sessions: inWeek }) =>
      inWeek.map((session) => ({ week, session })),
    );
    // Three weeks at 70 to 75 °F from April 24: USDA Complete Guide 6, p6-8 (read).
    const ofKraut = sessions.filter(({ session }) => session.begun?.id === 'kraut-1');
    expect(ofKraut.reduce((sum, { session }) => sum + session.batches, 0)).toBe(2);
    for (const { week } of ofKraut) expect(addDays(mondayOf(week), 5) >= asDate('2026-05-15')).toBe(true);
    expect(sessions.some(({ session }) => session.begin !== undefined)).toBe(true);
  });
});
