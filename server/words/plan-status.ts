import { counted, wordFor } from '../../shared/counting.ts';
import type { ItemId } from '../../shared/ids.ts';
import { asCents } from '../../shared/money.ts';
import { dateInZone } from '../../shared/week.ts';
import type { PlanSoFar } from '../../src/planning/answer/plan-so-far.ts';
import { isNotWorthABatch } from '../../src/planning/explanation/wish-reasons.ts';
import type { StoredPlan } from '../../src/planning/stored-plan.ts';
import type { FormKeys } from '../../views/parts/form.tsx';
import type { PlanQuality, PlanStanding, PlanStatusProps } from '../../views/parts/plan-status.tsx';
import { formatDay, formatMoney, formatNumber, formatPercent } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { listed } from '../../views/words/sentences.ts';
import type { PlanJobState } from '../queries/year/plan-job-state.ts';

export interface PlanNow {
  readonly plan: StoredPlan | null;
  readonly job: PlanJobState;
  readonly now: number;
  readonly timeZone: string;
  readonly reading: Reading;
}

/** How the plan stands: none, current, out of date, being made, or failed. */
export const presentPlanStatus = (planNow: PlanNow, keys: FormKeys, back: string): PlanStatusProps => ({
  standing: standingOf(planNow),
  quality: planNow.plan === null ? null : qualityOf(planNow.plan, planNow.reading),
  keys,
  back,
});

const standingOf = ({ plan, job, now, timeZone, reading }: PlanNow): PlanStanding => {
  if (job.state === 'running')
    return { state: 'running', progress: progressWords(job, now, reading), nearness: nearness(job) };
  if (job.state === 'checking' && plan !== null) return { state: 'checking' };
  if (job.state === 'failed') return { state: 'failed', words: job.words };
  if (plan === null) return { state: 'none' };
  const madeOn = formatDay(dateInZone(plan.madeAt, timeZone), reading);
  return { state: plan.isOutOfDate ? 'outdated' : 'current', madeOn };
};

const progressWords = (job: PlanJobState & { state: 'running' }, now: number, reading: Reading): string => {
  const seconds = Math.max(0, Math.round((now - job.startedAt) / 1000));
  const since = `${job.note ? `${job.note} ` : ''}${seconds} s so far`;
  if (job.best === null || job.bound === null || job.gap === null)
    return `${since}; no plan yet. It is trying which batches fit which weeks, with your hours, jars and money.`;
  if (job.soFar != null) return `${since}. ${soFarWords(job.soFar, reading)}`;
  return `${since}. There is a plan; at most ${formatPercent(job.gap, reading)} could still be gained. It is trying other weeks and amounts that cost less, take fewer hours or leave you short of less.`;
};

/** What the best plan so far comes to as a household counts it, and what is being tried now. */
function soFarWords({ foods, lasting, jars, minutes, cents }: PlanSoFar, reading: Reading): string {
  const hours = counted(Math.round(minutes / 60), 'hour');
  const sum = `${counted(jars, 'jar')}, ${hours} in the kitchen, ${money(cents, reading)}`;
  const short = foods - lasting;
  return short === 0
    ? `The best plan so far makes all of your ${counted(foods, 'food')} last until more comes: ${sum}. It is trying other weeks and amounts for less work and less money.`
    : `In the best plan so far ${lasting} of your ${counted(foods, 'food')} ${wordFor(lasting, 'lasts', 'last')} until more comes: ${sum}. It is trying other weeks and amounts for ${wordFor(short, 'the one that does', `the ${short} that do`)} not.`;
}

/** How much of the way to a plan that cannot be bettered is gone, 0 to 1; null before the first plan. */
const nearness = ({ best, bound }: PlanJobState & { state: 'running' }): number | null =>
  best === null || bound === null || best <= 0 ? null : Math.min(1, Math.max(0, bound / best));

const roundedUpWords =
  ' There was no time left to look for the best packs: what you put up is worked out, and packs are rounded up. Plan again in a quiet hour for better ones.';

/** From this share on a gap shows little about a plan: the search ended before it could. */
const littleShown = 0.1;

/** How near a plan is to the best there is: what could at most still be gained, or that there was no time to find out. */
export const provenWords = (gap: number, reading: Reading): string => {
  const counting = 'counting money, your hours and what you would run short of';
  if (gap >= littleShown)
    return 'This plan keeps every rule, but there was no time to find out whether a much better one is possible. Plan again in a quiet hour.';
  return isNothing(gap)
    ? `No plan can be noticeably better than this one, ${counting}.`
    : `No plan can be more than ${gapWords(gap, reading)} better than this one, ${counting}.`;
};

const isNothing = (gap: number): boolean => gap < 0.000_05;
const gapWords = (gap: number, reading: Reading): string => formatPercent(gap, reading, gap < 0.01 ? 2 : 1);

/** The gap in plain words. */
const qualityOf = ({ plan, reached, year }: StoredPlan, reading: Reading): PlanQuality => {
  const spend = plan.weeks.reduce((sum, week) => sum + week.spend, 0);
  const groceries = plan.weeks
    .flatMap(({ purchases }) => purchases)
    .reduce((sum, { kind, cost }) => (kind === 'item' ? sum + cost : sum), 0);
  return {
    sentence: `${provenWords(plan.gap, reading)}${plan.packRounding.isRoundedUp ? roundedUpWords : ''}`,
    reached: reached == null ? null : reachedWords(reached, { year, plan }, reading),
    figures: [
      { words: 'Spent for the pantry', value: money(groceries, reading) },
      { words: 'Spent to put up', value: money(spend - groceries, reading) },
      { words: 'Could still gain, at most', value: gapWords(plan.gap, reading) },
      ...(Math.round(plan.packRounding.cost / 100) > 0
        ? [{ words: 'Extra for buying whole packs', value: money(plan.packRounding.cost, reading) }]
        : []),
      { words: 'Time it took', value: `${formatNumber(plan.solveSeconds, reading)} s` },
    ],
  };
};

/** Standard errors by which a chance has to stay under its aim to be called short of it. */
const surelyShort = 2;

/** What was reached by the things that can only be put up, and which stay short of what is wanted. */
function reachedWords(
  { years, items }: NonNullable<StoredPlan['reached']>,
  { year: { items: planned }, plan }: Pick<StoredPlan, 'year' | 'plan'>,
  reading: Reading,
): string {
  const isLetGo = (id: ItemId) =>
    plan.gaveWay.some(
      ({ rung, what, amount }) =>
        rung === 'reserve' &&
        what === id &&
        planned.some((item) => item.id === id && isNotWorthABatch(item, amount)),
    );
  const short = items.filter(({ lasts, standardError, aim }) => lasts < aim - surelyShort * standardError);
  const played = `Tested on ${formatNumber(years, reading)} possible years: ${items.length - short.length} of the ${counted(items.length, 'thing')} that can only be put up last as often as you want, from when you can first make more to the season after that.`;
  if (short.length === 0) return played;
  const words = [...short]
    .sort((one, other) => one.lasts - other.lasts)
    .map(({ item, lasts, aim, isAllMade }) => {
      const name = planned.find(({ id }) => id === item)?.name ?? item;
      const why = isAllMade
        ? ' (every batch its crop allows is planned)'
        : isLetGo(item)
          ? ' (one more batch would mostly be left over)'
          : '';
      return `${name} ${formatPercent(lasts, reading, 0)} instead of ${formatPercent(aim, reading, 0)}${why}`;
    });
  return `${played} Short of that: ${listed(words)}.`;
}

const money = (amount: number, reading: Reading): string => formatMoney(asCents(amount), reading, true);
