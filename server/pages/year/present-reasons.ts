import { asCents } from '../../../shared/money.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import { addWeeks, type WeekKey } from '../../../shared/week.ts';
import type { PlanContent } from '../../../src/planning/answer/standing-plan.ts';
import { batchReasons } from '../../../src/planning/explanation/batch-reasons.ts';
import type { MoveCost } from '../../../src/planning/explanation/move-cost.ts';
import { wishReasons } from '../../../src/planning/explanation/wish-reasons.ts';
import type { Worth } from '../../../src/planning/explanation/worth-of-more.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';
import type { BatchWhyProps, MovesAnswer } from '../../../views/pages/year/batch-why.tsx';
import type { WorthAnswer } from '../../../views/pages/year/worth.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatJarKind, formatMoney, formatQuantity, formatWeek } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { sentenceCase } from '../../../views/words/sentences.ts';
import type { YearReader } from '../shared/present-board.ts';
import { reasonWords, wishReasonWords } from './reason-words.ts';

/** A batch whose move was asked about, and what came of it. */
export interface MovesAsked {
  readonly recipe: string;
  readonly week: string;
  readonly answer: MovesAnswer;
}

/** Why each batch of an item that is still ahead is planned, and why then. */
export function presentBatchWhys(
  { picture, reading }: YearReader,
  itemId: string,
  formKeys: (() => FormKeys) | null,
  asked: MovesAsked | null,
): readonly BatchWhyProps[] {
  const { plan, loaded } = picture;
  const [thisWeek] = loaded.year.weeks;
  if (plan === null || plan.outcome !== 'planned' || thisWeek === undefined) return [];
  const own = new Map(
    plan.year.recipes.filter((recipe) => recipe.itemId === itemId).map((recipe) => [recipe.id, recipe]),
  );
  return (
    reasonsOf({ plan: plan.plan, year: plan.year, paths: plan.paths })
      .filter(({ recipe, week }) => own.has(recipe) && week >= thisWeek)
      // A recipe filled into two jar sizes in one week is moved, and explained, as one.
      .filter(
        ({ recipe, week }, at, all) =>
          all.findIndex((one) => one.recipe === recipe && one.week === week) === at,
      )
      .map(({ recipe, week, batches, reasons }) => ({
        id: `why-${recipe}-${week.toLowerCase()}`,
        title: `${sentenceCase(formatWeek(week, reading))}: ${own.get(recipe)?.name ?? recipe}, ${formatQuantity(batches, 'batch', reading)}`,
        reasons:
          reasons.length > 0
            ? reasons.map((reason) => reasonWords(reason, reading))
            : ['No single reason: it is the cheapest plan that serves all wishes together.'],
        action: `/year/${itemId}/moves`,
        recipe,
        week,
        keys: formKeys?.() ?? null,
        answer: asked !== null && asked.recipe === recipe && asked.week === week ? asked.answer : null,
      }))
  );
}

const reasonsOf = whileTheSame('plan', ({ plan, year, paths }: PlanContent) =>
  batchReasons(year, plan, paths),
);
const wishReasonsOf = whileTheSame('plan', ({ plan, year }: Pick<PlanContent, 'plan' | 'year'>) =>
  wishReasons(year, plan),
);

/** What a week earlier and a week later would cost, in words. */
export function presentMoves(
  week: WeekKey,
  costs: { readonly earlier: MoveCost; readonly later: MoveCost },
  reading: Reading,
): MovesAnswer {
  const words = (cost: MoveCost, to: WeekKey, when: string) =>
    `${when}, ${formatWeek(to, reading)}: ${costWords(cost, reading)}`;
  return [
    words(costs.earlier, addWeeks(week, -1), 'A week earlier'),
    words(costs.later, addWeeks(week, 1), 'A week later'),
  ];
}

function costWords(cost: MoveCost, reading: Reading): string {
  switch (cost.outcome) {
    case 'possible':
      return Math.abs(cost.cents) < 1
        ? 'would cost nothing.'
        : `would ${cost.cents > 0 ? 'cost' : 'save'} ${money(Math.abs(cost.cents), reading)} over the year, everything else staying where it is.`;
    case 'cannot be made then':
      return 'it cannot be made then: no produce, no session, or no canner.';
    case 'does not fit':
      return 'it does not fit beside what else is planned then.';
    case 'not worked out':
      return 'could not be worked out in the time allowed.';
  }
}

/** Reasons behind what gave way, by what it is. */
export function whyByWish(plan: StoredPlan | null, reading: Reading): ReadonlyMap<string, readonly string[]> {
  if (plan === null || plan.outcome !== 'planned') return new Map();
  return new Map(
    wishReasonsOf({ plan: plan.plan, year: plan.year }).map(({ wish, reasons }) => [
      `${wish.rung} ${wish.what}`,
      reasons.map((reason) => wishReasonWords(reason, reading)),
    ]),
  );
}

/** What a little more of each would be worth, the most first. */
export function presentWorth(found: readonly Worth[], plan: StoredPlan, reading: Reading): WorthAnswer {
  return [...found]
    .sort((one, other) => other.cents - one.cents)
    .map(({ more, cents }) => ({
      words: moreWords(more, plan, reading),
      value: cents < 1 ? 'nothing' : money(cents, reading),
    }));
}

function moreWords(more: Worth['more'], { year }: StoredPlan, reading: Reading): string {
  switch (more.what) {
    case 'hour':
      return `One more hour in the ${formatWeek(more.week, reading)}`;
    case 'load':
      return `One more load in ${year.canners.find(({ id }) => id === more.cannerId)?.name ?? more.cannerId} in the ${formatWeek(more.week, reading)}`;
    case 'dozen jars': {
      const kind = year.jars.find((holding) => holding.kind === more.kind)?.kind;
      return `A dozen more jars, ${kind === undefined ? more.kind : formatJarKind(kind)}`;
    }
    case 'weekly money':
      return `${money(more.cents, reading)} more a week`;
  }
}

const money = (cents: number, reading: Reading): string => formatMoney(asCents(Math.round(cents)), reading);
