import { overnight } from '../../../server/jobs/plan-maker.ts';
import { asCents } from '../../../shared/money.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addDays, mondayOf } from '../../../shared/week.ts';
import { entry } from '../../../src/planning/lookup.ts';
import { makePlan, type PlanBefore, type PlanOptions } from '../../../src/planning/make-plan.ts';
import type { Plan, PlannedWeek } from '../../../src/planning/plan.ts';
import type { Solve } from '../../../src/planning/solving/solving.ts';
import { weeksToKeep } from '../../../src/planning/stored-plan.ts';
import { planningYearOf } from '../../../src/planning/year/household-year.ts';
import { cupboardsSeen, openBook } from './book.ts';
import type { LivedHousehold } from './household.ts';
import { type Lived, type LivedYear, openYear } from './live.ts';
import { type LivedPath, sourcesSeen } from './path.ts';
import { livedWeeks, type World } from './world.ts';

export interface ProgramYear extends Lived {
  /** Batches of the four weeks ahead that a replan put in or took out. */
  readonly churn: number;
  /** Plans the solver did not finish; the plan that needs none was followed. */
  readonly unplanned: number;
}

export interface ProgramSetting {
  readonly reference: ReferenceTables;
  readonly solve: Solve;
  readonly options?: PlanOptions;
  /** Lived weeks; all unless fewer are wanted for a look. */
  readonly weeks?: number;
  readonly onWeek?: (seen: WeekSeen) => void;
}

export interface WeekSeen {
  readonly week: number;
  readonly plan: Plan;
  readonly year: LivedYear;
}

/** Lives a year by the program's plans, made every Monday from what was written down until then and, as overnight, from the plan before. */
export async function liveByProgram(
  household: LivedHousehold,
  path: LivedPath,
  seed: number,
  setting: ProgramSetting,
): Promise<ProgramYear> {
  const { world } = household;
  const year = openYear(world, path);
  const book = openBook(household, seed);
  const basket = openBasket(household, year);
  let earlier: PlannedBefore | null = null;
  let churn = 0;
  let unplanned = 0;
  for (let week = 0; week < livedWeeks; week += 1) {
    if (week < (setting.weeks ?? livedWeeks)) {
      const { plan, made } = await planOf(household, { path, year, book, basket, week, earlier }, setting);
      if (earlier !== null && made !== null) churn += batchesMoved(earlier.plan.weeks, plan.weeks);
      if (made === null) unplanned += 1;
      else earlier = made;
      setting.onWeek?.({ week, plan, year });
      carryOut(world, year, plan.weeks[0]);
      basket.fill(plan.weeks[0], week);
    }
    book.arrivals(year, week);
    book.takes(year.endWeek(), year, week);
  }
  return { ...year.lived(), churn, unplanned };
}

type PlannedBefore = PlanBefore & { readonly plan: Plan };

async function planOf(
  household: LivedHousehold,
  {
    path,
    year,
    book,
    basket,
    week,
    earlier,
  }: {
    readonly path: LivedPath;
    readonly year: LivedYear;
    readonly book: ReturnType<typeof openBook>;
    readonly basket: Basket;
    readonly week: number;
    readonly earlier: PlannedBefore | null;
  },
  { reference, solve, options }: ProgramSetting,
): Promise<{ readonly plan: Plan; readonly made: PlannedBefore | null }> {
  const { facts, world } = household;
  const today = mondayOf(entry(world.weeks, week, 'weeks'));
  const known = planningYearOf(
    {
      ...facts,
      ...book.facts(),
      ...sourcesSeen(household, path, week),
      ...cupboardsSeen(household, year),
      fetched: [...gardenAtHand(household, year), ...basket.atHand()],
      fund: {
        balance: asCents(Math.floor(year.fund())),
        balanceOn: today,
        weekly: asCents(world.fund.weekly),
        spentSince: asCents(0),
      },
    },
    today,
    reference,
  );
  const near =
    earlier === null ? null : weeksToKeep({ plan: earlier.plan, outcome: 'planned' }, known.year.weeks);
  const answer = await makePlan(known.year, solve, {
    earlier: near,
    ...(earlier === null ? {} : { beginsFrom: earlier, secondsLimit: overnight.secondsLimit }),
    ...options,
  });
  return answer.outcome === 'planned'
    ? { plan: answer.plan, made: { year: known.year, plan: answer.plan } }
    : { plan: answer.fallback.plan, made: null };
}

/** What our own garden gave in the weeks before and still keeps. */
const gardenAtHand = (household: LivedHousehold, year: LivedYear): LivedHousehold['facts']['fetched'] =>
  year
    .kitchen()
    .flatMap((picked) =>
      entry(household.facts.sources, picked.source, 'sources').pricePerLb > 0
        ? []
        : [fetchedOf(household, picked)],
    );

function fetchedOf(
  { facts, world, startsOn }: Pick<LivedHousehold, 'facts' | 'world' | 'startsOn'>,
  { source, week, lb }: { readonly source: number; readonly week: number; readonly lb: number },
): LivedHousehold['facts']['fetched'][number] {
  const { id, crop } = entry(facts.sources, source, 'sources');
  const on = addDays(startsOn, 7 * week);
  const keptWeeks = entry(world.sources, source, 'sources').carryWeeks;
  return { sourceId: id, crop, on, useBy: addDays(on, 7 * keptWeeks + 6), lb, lbLeft: lb };
}

/** Produce that a plan had fetched from a market or an orchard for a session of a later week. */
interface Basket {
  fill(planned: PlannedWeek | undefined, week: number): void;
  atHand(): LivedHousehold['facts']['fetched'];
}

/**
 * Fetched as planned, as far as there was any, and at hand until it is used or no longer keeps. The books ask its price when it is
 * used, of every rule alike.
 */
export function openBasket(
  household: Pick<LivedHousehold, 'facts' | 'world' | 'startsOn'>,
  year: LivedYear,
): Basket {
  let fetched: { readonly source: number; readonly week: number; lb: number; lastSeen: number }[] = [];

  function fill(planned: PlannedWeek | undefined, week: number): void {
    household.facts.sources.forEach(({ id, pricePerLb }, source) => {
      if (pricePerLb <= 0) return;
      const asked = (planned?.purchases ?? [])
        .filter(({ kind, what }) => kind === 'produce' && what === id)
        .reduce((sum, { quantity }) => sum + quantity, 0);
      const { given, left } = year.offered(source);
      const lb = Math.min(left, asked - (given - left));
      if (lb > 1e-9) fetched.push({ source, week, lb, lastSeen: left });
    });
  }

  function atHand(): LivedHousehold['facts']['fetched'] {
    const kitchen = year.kitchen();
    for (const one of fetched) {
      const left = kitchen.find(({ source, week }) => source === one.source && week === one.week)?.lb ?? 0;
      one.lb -= one.lastSeen - left;
      one.lastSeen = left;
    }
    fetched = fetched.filter(({ lb }) => lb > 1e-9);
    return fetched.map((one) => fetchedOf(household, one));
  }

  return { fill, atHand };
}

/** What the plan has for this week, as far as it can be done: first what is bought, then one session's work after the other. */
function carryOut(world: World, year: LivedYear, planned: PlannedWeek | undefined): void {
  for (const { what, kind, packs } of planned?.purchases ?? []) {
    if (kind !== 'item' || packs === null) continue;
    const item = world.items.findIndex(({ id }) => id === what);
    const pack = world.items[item]?.packs.findIndex(({ id }) => id === packs.id) ?? -1;
    if (item < 0 || pack < 0) continue;
    for (let count = packs.count; count > 0; count -= 1) if (year.buy(item, pack, count)) break;
  }
  for (const { recipe, batches } of planned?.sessions ?? []) {
    const at = world.recipes.findIndex(({ id }) => id === recipe);
    if (at < 0) throw new Error(`expected only recipes that may be canned here; found ${recipe}`);
    for (let count = batches; count > 0; count -= 1) if (year.make(at, count)) break;
  }
}

/** Weeks ahead in which a moved batch counts. */
const nearWeeks = 4;

/** Batches put into or taken out of the near weeks that both plans hold, whichever are more. */
export function batchesMoved(before: readonly PlannedWeek[], after: readonly PlannedWeek[]): number {
  let added = 0;
  let removed = 0;
  for (const { week, sessions } of after.slice(0, nearWeeks)) {
    const last = before.find((one) => one.week === week);
    if (last === undefined) continue;
    const change = new Map<string, number>();
    for (const { recipe, batches } of sessions) change.set(recipe, (change.get(recipe) ?? 0) + batches);
    for (const { recipe, batches } of last.sessions) change.set(recipe, (change.get(recipe) ?? 0) - batches);
    for (const batches of change.values()) {
      added += Math.max(0, batches);
      removed += Math.max(0, -batches);
    }
  }
  return Math.max(added, removed);
}
