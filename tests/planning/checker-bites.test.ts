import { beforeAll, describe, expect, it } from 'vitest';
import { planYear } from '../../server/solver/plan-year.ts';
import { asJarKind } from '../../shared/jar.ts';
import { asCents } from '../../shared/money.ts';
import type { Plan } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { generatedHousehold } from './generated-household.ts';
import { checkPlan } from './independent-checker.ts';
import { stagedYear } from './staged-year.ts';

/** A plan that keeps every rule, and the household's year it keeps them for. */
interface Kept {
  readonly plan: Plan;
  readonly year: PlanningYear;
}
type Week = Plan['weeks'][number];
type Session = Week['sessions'][number];
type Line = Week['purchases'][number];

/** A rule broken once: which, how, and what the checker has to say of it. */
type Broken = readonly [rule: string, broken: (kept: Kept) => Kept, says: RegExp];

const firstWeek = ({ plan }: Kept, is: (week: Week) => boolean): number => {
  const at = plan.weeks.findIndex(is);
  if (at < 0) throw new Error('expected a week to break the rule in');
  return at;
};
const inWeek = (kept: Kept, at: number, change: (week: Week) => Week): Kept => ({
  ...kept,
  plan: { ...kept.plan, weeks: kept.plan.weeks.map((week, own) => (own === at ? change(week) : week)) },
});
const busy = (kept: Kept, is: (session: Session) => boolean = () => true) =>
  firstWeek(kept, ({ sessions }) => sessions.some(is));
const withSession = (
  kept: Kept,
  change: (session: Session) => Session,
  is: (session: Session) => boolean = () => true,
): Kept => {
  let isDone = false;
  return inWeek(kept, busy(kept, is), (week) => ({
    ...week,
    sessions: week.sessions.map((session) => {
      if (isDone || !is(session)) return session;
      isDone = true;
      return change(session);
    }),
  }));
};
const withYear = (kept: Kept, change: Partial<PlanningYear>): Kept => ({
  ...kept,
  year: { ...kept.year, ...change },
});
/** Without what is bought of a kind, here or in the whole year, its money put right. */
const unbought = (kept: Kept, is: (line: Line) => boolean): Kept => {
  let fund: number = kept.year.fund.opening;
  return {
    ...kept,
    plan: {
      ...kept.plan,
      weeks: kept.plan.weeks.map((week, at) => {
        const purchases = week.purchases.filter((line) => !is(line));
        const spend = asCents(purchases.reduce((sum, { cost }) => sum + cost, 0));
        fund += (kept.year.fund.setAsideByWeek[at] ?? 0) - spend;
        return { ...week, purchases, spend, fundAfter: asCents(fund) };
      }),
    },
  };
};
const wayOf = ({ year }: Kept, session: Session) => {
  const way = year.recipes.find(({ id }) => id === session.recipe);
  if (way === undefined) throw new Error(session.recipe);
  return way;
};
const canned = (session: Session) => session.canner !== null;
const withWay = (
  kept: Kept,
  change: (way: PlanningYear['recipes'][number]) => Partial<PlanningYear['recipes'][number]>,
  is: (session: Session) => boolean = canned,
): Kept => {
  const session = kept.plan.weeks[busy(kept, is)]?.sessions.find(is);
  return withYear(kept, {
    recipes: kept.year.recipes.map((way) => (way.id === session?.recipe ? { ...way, ...change(way) } : way)),
  });
};

const ofAnyYear: readonly Broken[] = [
  ['a plan of another day', (kept) => withYear(kept, { asOf: '2020-01-01' as never }), /plan stands on/],
  [
    'a week left out',
    ({ plan, year }) => ({ year, plan: { ...plan, weeks: plan.weeks.slice(1) } }),
    /plan has \d+ weeks/,
  ],
  [
    'a batch and a half',
    (kept) => withSession(kept, (session) => ({ ...session, batches: session.batches + 0.5 })),
    /not a number of whole batches/,
  ],
  [
    'a week it may not be made in',
    (kept) => withWay(kept, () => ({ allowedByWeek: kept.year.weeks.map(() => false) })),
    /not allowed in this week/,
  ],
  [
    'what a person ruled out',
    (kept) => {
      const at = busy(kept);
      const recipeId = kept.plan.weeks[at]?.sessions[0]?.recipe as never;
      return withYear(kept, {
        kept: [{ recipeId, week: kept.year.weeks[at] as never, decision: 'ruled-out' }],
      });
    },
    /ruled out by the person/,
  ],
  ['a canner nobody has', (kept) => withYear(kept, { canners: [] }), /canner is not in this kitchen/],
  [
    'low-acid food without pressure',
    (kept) =>
      withYear(kept, {
        canners: kept.year.canners.map((canner) => ({ ...canner, method: 'boiling-water' })),
        recipes: kept.year.recipes.map((way) => ({
          ...way,
          processing: way.processing === null ? null : { ...way.processing, lowAcid: true },
        })),
      }),
    /low-acid food without a pressure canner/,
  ],
  [
    'another canner than its own',
    (kept) => withSession(kept, (session) => ({ ...session, canner: 'steamer' as never }), canned),
    /canner steamer/,
  ],
  [
    'more units than the batches give',
    (kept) => withSession(kept, (session) => ({ ...session, units: session.units + 1 })),
    /units \d+/,
  ],
  [
    'fewer jars than the batches fill',
    (kept) =>
      withSession(
        kept,
        (session) => ({
          ...session,
          jars: session.jars.map((jars) => ({ ...jars, count: jars.count - 1 })),
        }),
        ({ jars }) => jars.length > 0,
      ),
    /: jars \d+/,
  ],
  [
    'more of a crop than its source gives',
    (kept) =>
      withYear(kept, {
        sources: kept.year.sources.map((source) => ({
          ...source,
          lbByWeek: source.lbByWeek.map((lb) => lb / 8),
        })),
      }),
    /the source gives/,
  ],
  [
    'produce used that never came',
    (kept) => unbought(kept, ({ kind }) => kind === 'produce'),
    /came and .* went/,
  ],
  [
    'work that is not printed',
    (kept) => withWay(kept, ({ handsOnMinutes }) => ({ handsOnMinutes: handsOnMinutes + 30 })),
    /minutes printed|kitchen minutes/,
  ],
  [
    'more minutes than are said',
    (kept) => inWeek(kept, busy(kept), (week) => ({ ...week, kitchenMinutes: week.kitchenMinutes - 1 })),
    /kitchen minutes printed/,
  ],
  [
    'more sessions than a week has',
    (kept) =>
      withYear(kept, {
        time: { ...kept.year.time, maxSessionsByWeek: kept.year.time.maxSessionsByWeek.map(() => 0) },
      }),
    /sessions, 0 allowed/,
  ],
  [
    'more work than the sessions hold',
    (kept) =>
      withYear(kept, {
        time: { ...kept.year.time, hoursPerSessionByWeek: kept.year.time.hoursPerSessionByWeek.map(() => 1) },
      }),
    /minutes of work in 60|minutes of work in/,
  ],
  [
    'a week away in which something is canned and bought',
    (kept) => withYear(kept, { time: { ...kept.year.time, awayByWeek: kept.year.weeks.map(() => true) } }),
    /canned while nobody is at home/,
  ],
  [
    'more jars than the loads hold',
    (kept) => withSession(kept, (session) => ({ ...session, loads: 0 }), canned),
    /jars in 0 loads/,
  ],
  [
    'loads longer than the day',
    (kept) =>
      withWay(kept, ({ processing }) => ({
        processing: processing === null ? null : { ...processing, loadMinutes: 2000 },
      })),
    /minutes of loads in/,
  ],
  [
    'a price that is not on the list',
    (kept) =>
      inWeek(
        kept,
        firstWeek(kept, ({ purchases }) => purchases.length > 0),
        (week) => ({
          ...week,
          purchases: week.purchases.map((line, at) =>
            at === 0 ? { ...line, cost: asCents(line.cost + 7) } : line,
          ),
        }),
      ),
    /by the price list/,
  ],
  [
    'a bill added up wrong',
    (kept) => inWeek(kept, 0, (week) => ({ ...week, spend: asCents(week.spend + 1) })),
    /spends \d+ printed/,
  ],
  [
    'a fund added up wrong',
    (kept) => inWeek(kept, 3, (week) => ({ ...week, fundAfter: asCents(week.fundAfter + 5) })),
    /fund \d+ printed/,
  ],
  [
    'a fund overdrawn and not said',
    (kept) => withYear(kept, { fund: { ...kept.year.fund, opening: asCents(-1_000_000) } }),
    /cents and not said/,
  ],
  [
    'supplies used that are not in the house',
    (kept) =>
      withYear(
        unbought(kept, ({ kind }) => kind === 'supply'),
        {
          supplies: kept.year.supplies.map((supply) => ({ ...supply, onHand: 0 })),
        },
      ),
    /used, 0 in the house/,
  ],
  [
    'jars filled that are neither empty nor bought',
    (kept) =>
      withYear(
        unbought(kept, ({ kind }) => kind === 'jars'),
        {
          jars: kept.year.jars.map((jars) => ({ ...jars, empty: 0 })),
          items: kept.year.items.map((item) => ({ ...item, useByWeek: item.useByWeek.map(() => 0) })),
        },
      ),
    /jars filled, 0 at most there/,
  ],
  [
    'jars of a kind nobody said anything about',
    (kept) =>
      withYear(kept, {
        jars: kept.year.jars.map((jars) => ({ ...jars, kind: asJarKind('half-gallon', 'wide') })),
      }),
    /nobody said how many there are/,
  ],
  [
    'lids used twice',
    (kept) =>
      withYear(
        unbought(kept, ({ kind }) => kind === 'lids'),
        {
          lids: kept.year.lids.map((lids) => ({ ...lids, onHand: 0 })),
        },
      ),
    /lids: \d+ used, 0 in the house/,
  ],
  ['lids of a mouth nobody knows', (kept) => withYear(kept, { lids: [] }), /no lid for them is known/],
  [
    'use that is not served and not said',
    (kept) =>
      withYear(kept, {
        items: kept.year.items.map((item) => ({ ...item, useByWeek: item.useByWeek.map((use) => use + 2) })),
      }),
    /units of use not served/,
  ],
  [
    'a reserve of what is bought that is not held and not said',
    (kept) =>
      withYear(kept, {
        items: kept.year.items.map((item) =>
          item.packs.length > 0 ? { ...item, reserveUnits: item.reserveUnits + 40 } : item,
        ),
      }),
    /units of reserve missing/,
  ],
  [
    'a batch that was pinned and is not made',
    (kept) => {
      const recipeId = kept.year.recipes[0]?.id as never;
      return withYear(kept, {
        kept: [{ recipeId, week: kept.year.weeks[0] as never, decision: 'pinned', batches: 9 }],
      });
    },
    /pinned, \d+ planned/,
  ],
  [
    'a bound above the plan it bounds',
    ({ plan, year }) => ({ year, plan: { ...plan, bound: (plan.objective.total ?? 0) + 100 } }),
    /bound .* above the objective/,
  ],
  [
    'a gap that is not the gap',
    ({ plan, year }) => ({ year, plan: { ...plan, gap: plan.gap + 0.01 } }),
    /gap .* printed/,
  ],
  [
    'terms that do not add up',
    ({ plan, year }) => ({
      year,
      plan: { ...plan, objective: { ...plan.objective, total: (plan.objective.total ?? 0) + 5 } },
    }),
    /its terms add up to/,
  ],
  [
    'first jars missed and not said',
    ({ plan, year }) => ({
      year,
      plan: {
        ...plan,
        rungs: plan.rungs.map((rung) =>
          rung.name === 'first jars' ? { ...rung, missed: rung.missed + 9 } : rung,
        ),
      },
    }),
    /first jars/,
  ],
  [
    'a garden crop left and not said',
    (kept) =>
      withYear(kept, {
        sources: kept.year.sources.map((source) =>
          source.kind === 'garden' ? { ...source, lbByWeek: source.lbByWeek.map((lb) => lb + 3) } : source,
        ),
      }),
    /lb left, .* said/,
  ],
];

const ofRichYear: readonly Broken[] = [
  [
    'what is frozen and may not be',
    (kept) =>
      withYear(kept, {
        freezable: [],
        materials: kept.year.materials.map((material) => ({ ...material, keepsMonthsFrozen: null })),
      }),
    /frozen, and it may not be/,
  ],
  [
    'what waits longer than it keeps',
    (kept) =>
      withYear(kept, {
        sources: kept.year.sources.map((source) => ({ ...source, useByDays: 1 })),
        materials: kept.year.materials.map((material) => ({ ...material, keepsDaysCold: 1 })),
      }),
    /waits, .* can wait/,
  ],
  [
    'thawed for what wants it fresh',
    (kept) => {
      const isFresh = (session: Session) =>
        wayOf(kept, session).produce.some(({ mayBeFrozen }) => !mayBeFrozen);
      const at = busy(kept, isFresh);
      const session = kept.plan.weeks[at]?.sessions.find(isFresh) as Session;
      const [need] = wayOf(kept, session).produce;
      const thawed = {
        what: need?.crop ?? '',
        unit: 'lb',
        freeze: 0,
        thaw: 500,
        waiting: 0,
        frozen: 0,
        lost: 0,
      };
      return inWeek(kept, at, (week) => ({ ...week, materials: [thawed, ...week.materials] }));
    },
    /thawed for recipes that want it fresh/,
  ],
  [
    'a freezer too full',
    (kept) => withYear(kept, { storage: { ...kept.year.storage, freezerQuarts: 0 } }),
    /quarts in a freezer of 0/,
  ],
  [
    'more frozen in a week than the freezer can',
    (kept) => withYear(kept, { storage: { ...kept.year.storage, freezerQuartsPerDay: 0 } }),
    /quarts frozen in a week/,
  ],
  [
    'a crock that holds two batches',
    (kept) => withYear(kept, { storage: { ...kept.year.storage, crockQuarts: 1 } }),
    /quarts in crocks of 1/,
  ],
  [
    'a crock in which what was put up before stands',
    (kept) =>
      withYear(kept, {
        storage: {
          ...kept.year.storage,
          crockQuartsTakenByWeek: kept.year.weeks.map(() => kept.year.storage.crockQuarts),
        },
      }),
    /quarts in crocks of/,
  ],
  [
    'frozen stock that went in nowhere',
    (kept) =>
      inWeek(
        kept,
        firstWeek(kept, ({ materials }) => materials.some(({ frozen }) => frozen > 0)),
        (week) => ({
          ...week,
          materials: week.materials.map((move) => ({ ...move, frozen: move.frozen + 5 })),
        }),
      ),
    /frozen, less went in/,
  ],
];

const staged = (session: Session) => session.begin !== undefined;
const ofStagedYear: readonly Broken[] = [
  [
    'stages done in a week in which they cannot be',
    (kept) =>
      withYear(kept, {
        recipes: kept.year.recipes.map((way) =>
          way.stages === undefined
            ? way
            : { ...way, stages: { ...way.stages, possibleByWeek: kept.year.weeks.map(() => false) } },
        ),
      }),
    /its stages cannot be done/,
  ],
  [
    'a batch begun in another week than its load allows',
    (kept) =>
      withSession(
        kept,
        (session) => ({ ...session, begin: { week: '1999-W01' as never, on: '1999-01-04' as never } }),
        staged,
      ),
    /begun in 1999-W01 printed/,
  ],
  [
    'a batch begun before the plan begins',
    (kept) =>
      withWay(
        kept,
        ({ stages }) => (stages === undefined ? {} : { stages: { ...stages, weeks: 40 } }),
        staged,
      ),
    /begun before the plan begins/,
  ],
  [
    'work before the load that is not printed',
    (kept) =>
      inWeek(
        kept,
        firstWeek(kept, ({ stageWork = [] }) => stageWork.length > 0),
        ({ stageWork: _, ...week }) => week,
      ),
    /minutes for later loads printed/,
  ],
  [
    'stages of what has none',
    (kept) => withWay(kept, () => ({ stages: undefined }) as never, staged),
    /begun before, and it has no stages/,
  ],
  [
    'batches begun that are forgotten',
    (kept) =>
      withYear(kept, {
        begun: [
          {
            id: 'forgotten',
            recipeId: wayOf(kept, kept.plan.weeks[busy(kept)]?.sessions[0] as Session).id,
            jarKind: null,
            batches: 2,
            begunOn: kept.year.asOf,
            mayLoadByWeek: kept.year.weeks.map(() => true),
          },
        ],
      }),
    /forgotten: 2 begun, 0 loaded/,
  ],
];

const ofBegunYear: readonly Broken[] = [
  [
    'begun batches loaded before they may be',
    (kept) =>
      withYear(kept, {
        begun: (kept.year.begun ?? []).map((begun) => ({
          ...begun,
          mayLoadByWeek: begun.mayLoadByWeek.map(() => false),
        })),
      }),
    /not to be loaded now/,
  ],
  ['begun batches that nobody began', (kept) => withYear(kept, { begun: [] }), /no such batches are begun/],
];

const atHand = (source: PlanningYear['sources'][number]) => source.isAtHand === true;
const freshLine = ({ kind, what }: Line) => kind === 'supply' && what === 'vinegar';
const ofYearWithProduceAtHand: readonly Broken[] = [
  [
    'what is at hand used after its last day',
    (kept) =>
      withYear(kept, {
        sources: kept.year.sources.map((source) =>
          atHand(source) ? { ...source, lastUseWeekByWeek: kept.year.weeks.map(() => -1) } : source,
        ),
      }),
    /used that could not wait for it|waits, .* can wait/,
  ],
  [
    'more made than is at hand and fetched',
    (kept) =>
      withYear(kept, {
        sources: kept.year.sources.map((source) =>
          atHand(source) ? { ...source, lbByWeek: source.lbByWeek.map((lb) => lb / 10) } : source,
        ),
      }),
    /at hand, .* went/,
  ],
  [
    'a line that was said not to be bought',
    (kept) => {
      const at = firstWeek(kept, ({ purchases }) => purchases.length > 0);
      const [line] = kept.plan.weeks[at]?.purchases ?? [];
      return withYear(kept, {
        skipped: [{ week: kept.year.weeks[at] as never, kind: line?.kind as never, what: line?.what ?? '' }],
      });
    },
    /bought, and it was said not to be/,
  ],
  [
    'what spoils bought the week before',
    (kept) => {
      const at = firstWeek(kept, ({ purchases }) => purchases.some(freshLine));
      const lines = kept.plan.weeks[at]?.purchases.filter(freshLine) ?? [];
      const without = inWeek(kept, at, (week) => ({
        ...week,
        purchases: week.purchases.filter((line) => !freshLine(line)),
      }));
      return inWeek(without, at === 0 ? 1 : at - 1, (week) => ({
        ...week,
        purchases: [...week.purchases, ...lines],
      }));
    },
    /vinegar: bought fresh, and nothing is made of it|0 bought fresh that week/,
  ],
  [
    'the rest of what spoils used weeks later',
    (kept) => {
      const weeks = kept.plan.weeks.flatMap(({ purchases }, at) => (purchases.some(freshLine) ? [at] : []));
      return inWeek(kept, weeks.at(-1) ?? 0, (week) => ({
        ...week,
        purchases: week.purchases.filter((line) => !freshLine(line)),
      }));
    },
    /vinegar: .* used, 0 bought fresh that week/,
  ],
];

/** A year that begins with a crop in the kitchen, of which one supply spoils and one line was skipped. */
async function plannedWithProduceAtHand(): Promise<Kept> {
  const usual = generatedHousehold({ seed: 2, preserves: 6, staples: 3 });
  const recipe = usual.recipes.find(({ supplies }) =>
    supplies.some(({ supplyId }) => supplyId === 'vinegar'),
  );
  const [need] = recipe?.produce ?? [];
  const [source] = usual.sources.filter(({ crop }) => crop === need?.crop);
  if (need === undefined || source === undefined) throw new Error('no crop to have at hand');
  const year: PlanningYear = {
    ...usual,
    supplies: usual.supplies.map((supply) =>
      supply.id === 'vinegar' ? { ...supply, onHand: 0, freshDays: 2 } : supply,
    ),
    time: {
      ...usual.time,
      maxSessionsByWeek: usual.time.maxSessionsByWeek.map((sessions, at) => (at < 2 ? 2 : sessions)),
    },
    sources: [
      ...usual.sources,
      {
        ...source,
        id: 'in-the-kitchen' as typeof source.id,
        kind: 'market',
        lbByWeek: usual.weeks.map((_, at) => (at === 0 ? 2 * need.lb : 0)),
        priceCentsPerLbByWeek: usual.weeks.map(() => asCents(0)),
        useByDays: 9,
        lastUseWeekByWeek: usual.weeks.map((_, at) => Math.max(1, at)),
        isAtHand: true,
      },
    ],
  };
  const first = await planned(year);
  const at = first.plan.weeks.findIndex(
    ({ purchases }, week) => week > 1 && purchases.some(({ kind }) => kind === 'supply'),
  );
  const line = first.plan.weeks[at]?.purchases.find(({ kind }) => kind === 'supply');
  return planned({
    ...year,
    skipped: [{ week: year.weeks[at] as never, kind: 'supply', what: line?.what ?? '' }],
  });
}

async function planned(year: PlanningYear): Promise<Kept> {
  const answer = await planYear(year, { gap: 0.03, secondsLimit: 20 });
  if (answer.outcome !== 'planned') throw new Error(answer.detail);
  return { year, plan: answer.plan };
}

/** The first staged year whose plan has what the rules are about. */
async function plannedStaged(has: (plan: Plan) => boolean): Promise<Kept> {
  for (let seed = 2201; seed < 2260; seed += 1) {
    const kept = await planned(stagedYear(seed));
    if (has(kept.plan)) return kept;
  }
  throw new Error('no staged year has it');
}

describe.each([
  ['any year', ofAnyYear, () => planned(generatedHousehold({ seed: 2, preserves: 6, staples: 3 }))],
  [
    'a year with a freezer, crocks and by-products',
    ofRichYear,
    () => planned(generatedHousehold({ seed: 5, preserves: 12, staples: 3, rich: true })),
  ],
  [
    'a year of batches that take weeks',
    ofStagedYear,
    () =>
      plannedStaged(
        ({ weeks }) =>
          weeks.some(({ stageWork = [] }) => stageWork.length > 0) &&
          weeks.every(({ sessions }) => sessions.every(({ begun }) => begun === undefined)),
      ),
  ],
  [
    'a year with batches begun before it',
    ofBegunYear,
    () =>
      plannedStaged(({ weeks }) =>
        weeks.some(({ sessions }) => sessions.some(({ begun }) => begun !== undefined)),
      ),
  ],
  ['a year with produce at hand and a line skipped', ofYearWithProduceAtHand, plannedWithProduceAtHand],
])('the independent checker of %s', (_, rules, making) => {
  let kept: Kept;
  beforeAll(async () => {
    kept = await making();
  });

  it('finds nothing wrong with the plan as printed', () => {
    expect(checkPlan(kept.plan, kept.year)).toEqual([]);
  });

  it.each(rules)('catches %s', (_rule, broken, says) => {
    const { plan, year } = broken(kept);

    expect(checkPlan(plan, year).filter((words) => says.test(words))).not.toEqual([]);
  });
});
