import { describe, expect, test } from 'vitest';
import { asJarKind } from '../../../shared/jar.ts';
import { asCents } from '../../../shared/money.ts';
import type { WeekKey } from '../../../shared/week.ts';
import { type More, worthOfMore } from '../../../src/planning/explanation/worth-of-more.ts';
import { buildModel } from '../../../src/planning/model/build-model.ts';
import type { Model } from '../../../src/planning/model/model.ts';
import type { PlannedRecipe, PlanningYear } from '../../../src/planning/planning-year.ts';
import type { Solve, SolveRequest } from '../../../src/planning/solving/solving.ts';
import { jamRecipe, plumJam, plumWeeks, plumYear } from '../plum-year.ts';

const weekAt = (at: number): WeekKey => plumWeeks[at] ?? ('' as never);
const money: More = { what: 'weekly money', cents: 1000 };

/** A solver that answers with these objectives, one after the other, null where it finds none. */
const solving = (...objectives: readonly (number | null)[]) => {
  const asked: { readonly model: Model; readonly request: SolveRequest }[] = [];
  const solve: Solve = async (model, request) => {
    const objective = objectives[asked.length] ?? null;
    asked.push({ model, request });
    return objective === null
      ? { status: 'infeasible', detail: '' }
      : ({ status: 'solved', objective } as Awaited<ReturnType<Solve>>);
  };
  return { asked, solve };
};

describe('the worth of a little more', () => {
  test('is what the year costs less with it, in whole cents, and never below nothing', async () => {
    const more: readonly More[] = [money, { ...money, cents: 2 }, { ...money, cents: 3 }];
    const { asked, solve } = solving(900.6, 500.2, 900.6, 1000);
    expect(await worthOfMore(plumYear(), more, solve)).toEqual([
      { more: more[0], cents: 400 },
      { more: more[1], cents: 0 },
      { more: more[2], cents: 0 },
    ]);
    expect(asked).toHaveLength(4);
    // Exact for the year with batches in parts.
    for (const { request } of asked) expect(request).toMatchObject({ relaxed: true, gap: 0 });
    expect(asked[0]?.model).toEqual(buildModel(plumYear()).model);
  });

  test('is not told of what could not be worked out, nor of anything where the year itself could not', async () => {
    const more: readonly More[] = [money, { what: 'dozen jars', kind: 'quart/wide' }];
    expect(await worthOfMore(plumYear(), more, solving(900, null, 800).solve)).toEqual([
      { more: more[1], cents: 100 },
    ]);
    const never = solving(null);
    expect(await worthOfMore(plumYear(), more, never.solve)).toEqual([]);
    expect(never.asked).toHaveLength(1);
  });
});

describe('the year with a little more is', () => {
  const modelOf = async (year: PlanningYear, more: More): Promise<Model> => {
    const { asked, solve } = solving(1, 1);
    await worthOfMore(year, [more], solve);
    const then = asked[1]?.model;
    if (then === undefined) throw new Error('expected a second model');
    return then;
  };
  const time = (change: object) => plumYear({ time: { ...plumYear().time, ...change } });
  const hours = (at: number, there: number, otherwise = 5) =>
    plumWeeks.map((_, week) => (week === at ? there : otherwise));

  test('one with an hour more in its week, shared by the sessions of it', async () => {
    const hour: More = { what: 'hour', week: weekAt(35) };
    expect(await modelOf(plumYear(), hour)).toEqual(
      buildModel(time({ hoursPerSessionByWeek: hours(35, 6) })).model,
    );
    const maxSessionsByWeek = plumWeeks.map(() => 4);
    expect(await modelOf(time({ maxSessionsByWeek }), hour)).toEqual(
      buildModel(time({ maxSessionsByWeek, hoursPerSessionByWeek: hours(35, 5.25) })).model,
    );
  });

  test('the longest session too, which bounds what one batch may take', async () => {
    // Half an hour to set up: 390 minutes hold three batches of 100, half an hour more holds four.
    const longestSessionByWeek = plumWeeks.map(() => 7);
    const maxSessionsByWeek = plumWeeks.map(() => 2);
    expect(
      await modelOf(time({ maxSessionsByWeek, longestSessionByWeek }), { what: 'hour', week: weekAt(35) }),
    ).toEqual(
      buildModel(
        time({
          maxSessionsByWeek,
          longestSessionByWeek: hours(35, 7.5, 7),
          hoursPerSessionByWeek: hours(35, 5.5),
        }),
      ).model,
    );
  });

  test('one as it was, where nobody cans in that week', async () => {
    const closed = time({ maxSessionsByWeek: plumWeeks.map((_, week) => (week === 35 ? 0 : 1)) });
    expect(await modelOf(closed, { what: 'hour', week: weekAt(35) })).toEqual(buildModel(closed).model);
  });

  test('one with a dozen more empty jars of the kind, owned like the rest', async () => {
    const [pints] = plumYear().jars;
    if (pints === undefined) throw new Error('expected pints');
    const quarts = { ...pints, kind: asJarKind('quart', 'wide') };
    const year = plumYear({ jars: [pints, quarts] });
    expect(await modelOf(year, { what: 'dozen jars', kind: pints.kind })).toEqual(
      buildModel(plumYear({ jars: [{ ...pints, empty: 42, owned: 72 }, quarts] })).model,
    );
    expect(await modelOf(year, { what: 'dozen jars', kind: 'half-pint/regular' })).toEqual(
      buildModel(year).model,
    );
  });

  test('one with so much more set aside in every week', async () => {
    const fund = { ...plumYear().fund, setAsideByWeek: plumWeeks.map(() => asCents(1300)) };
    expect(await modelOf(plumYear(), money)).toEqual(buildModel(plumYear({ fund })).model);
  });

  describe('one with room for a load more', () => {
    /** By how much the upper bounds of rows and columns differ from those of the year as it is. */
    const raised = async (year: PlanningYear, at = 35, cannerId = 'kettle') => {
      const [was, is] = [
        buildModel(year).model,
        await modelOf(year, { what: 'load', week: weekAt(at), cannerId }),
      ];
      const lists = (model: Model) => [...model.columns, ...model.rows];
      expect(lists(is).map(({ name, lower }) => [name, lower])).toEqual(
        lists(was).map(({ name, lower }) => [name, lower]),
      );
      return Object.fromEntries(
        lists(was).flatMap(({ name, upper }, place) => {
          const by = (lists(is)[place]?.upper ?? 0) - upper;
          return by === 0 || Number.isNaN(by) ? [] : [[name, by]];
        }),
      );
    };
    const label = 'jam-of-plums in pint/regular';
    const recipe = (change: Partial<PlannedRecipe>): PlannedRecipe => ({ ...jamRecipe, ...change });
    const processing = jamRecipe.processing as NonNullable<PlannedRecipe['processing']>;

    test('in its canner, its sessions, its week and its year: 50 minutes and a batch', async () => {
      expect(await raised(plumYear())).toEqual({
        [`canner_day[kettle,${weekAt(35)}]`]: 50,
        [`kitchen_hours[${label},${weekAt(35)}]`]: 1,
        [`batches[${label},${weekAt(35)}]`]: 1,
        [`total_batches[${label}]`]: 1,
      });
    });

    test('half a batch of what fills two loads', async () => {
      const year = plumYear({ recipes: [recipe({ yieldHighJars: 16 })] });
      expect(await raised(year)).toMatchObject({
        [`canner_day[kettle,${weekAt(35)}]`]: 50,
        [`kitchen_hours[${label},${weekAt(35)}]`]: 0.5,
        [`total_batches[${label}]`]: 0.5,
      });
    });

    test('as long as the longest load of its recipes takes, and for none of another canner or of no canner', async () => {
      const slow = recipe({
        id: 'slow' as never,
        processing: { ...processing, scheduleKey: 'slow', loadMinutes: 80 },
      });
      const other = recipe({
        id: 'other' as never,
        processing: { ...processing, cannerId: 'pressure' as never, loadMinutes: 120 },
      });
      const dried = recipe({ id: 'dried' as never, jarKind: null, processing: null });
      const year = plumYear({
        items: [plumJam],
        recipes: [slow, jamRecipe, other, dried],
        canners: [...plumYear().canners, { id: 'pressure' as never, name: 'P', method: 'pressure' }],
      });
      const all = await raised(year);
      expect(all[`canner_day[kettle,${weekAt(35)}]`]).toBe(80);
      expect(Object.keys(all).filter((name) => /other|dried|pressure/.test(name))).toEqual([]);
      expect(Object.keys(all).filter((name) => name.startsWith('batches'))).toHaveLength(2);
    });

    test('nothing in a week in which its recipes cannot be made, and of a canner nobody has', async () => {
      expect(Object.keys(await raised(plumYear(), 10))).toEqual([`total_batches[${label}]`]);
      expect(await raised(plumYear(), 35, 'gone')).toEqual({});
    });
  });
});
