import { readBuying } from '../answer/read-back.ts';
import { cell, entry, noneBeyond } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import type { CanningDecision } from '../model/planning-stage.ts';
import type { BuyingDecision } from '../solving/decision.ts';
import { cheapestPack, mayBuy, packsFor } from './buy-as-needed.ts';
import { roundedPacks } from './round-packs.ts';
import { wantedAtEndOf } from './wanted-at-end.ts';

/**
 * Whole packs around a canning plan without any search: what canning needs is bought as the solution has it, each pack rounded
 * up and as late as will do; what is eaten is bought in the week it runs short in, before what its reserve is short of, in the
 * pack cheapest per unit that week, as long as the fund can still pay for all that canning needs later.
 *
 * `values` are those of any stage whose batches are `canning`; the weeks in which it buys what is eaten are not looked at.
 */
export function roundUpPacks(
  built: BuiltModel,
  values: ArrayLike<number>,
  canning: CanningDecision,
): BuyingDecision {
  const { sets, parameters } = built;
  const { year, weekIndexes, items } = sets;
  const counts = roundedPacks(built, values, 'late');
  const whole = Float64Array.from({ length: built.model.columns.length }, (_, column) => {
    const packs = counts.get(column);
    return packs === undefined ? entry(values, column, 'values') : packs[0];
  });
  const buying = readBuying(built, whole);
  const packs = items.map((item) => item.packs.map(() => weekIndexes.map(() => 0)));
  const toSpend = leftForEating(built, buying);
  const made = weekIndexes.map((week) => items.map((_, at) => madeReady(built, canning, at, week)));
  const shelf = items.map(() => 0);
  let spent = 0;

  const buyFor = (at: number, week: number, wanted: number): void => {
    const item = entry(items, at, 'items');
    const choice = mayBuy(year, item.id, week) ? cheapestPack(item, week) : null;
    if (choice === null) return;
    const count = packsFor(
      wanted - entry(shelf, at, 'shelf'),
      choice,
      entry(toSpend, week, 'toSpend') - spent,
    );
    const weeks = entry(entry(packs, at, 'packs'), choice.at, 'packs');
    weeks[week] = entry(weeks, week, 'weeks') + count;
    spent += count * choice.price;
    shelf[at] = entry(shelf, at, 'shelf') + count * choice.units;
  };

  for (const week of weekIndexes) {
    const use = items.map((_, at) => cell(parameters.useByWeek, at, week, 'useByWeek'));
    items.forEach((_, at) => {
      const opening = entry(parameters.opening, at, 'opening');
      shelf[at] =
        entry(shelf, at, 'shelf') +
        entry(opening.readyByWeek, week, 'readyByWeek') +
        cell(made, week, at, 'made');
      buyFor(at, week, entry(use, at, 'use'));
    });
    items.forEach((_, at) => {
      const { reserve, handedOver } = wantedAtEndOf(built, at, week);
      buyFor(at, week, entry(use, at, 'use') + reserve + handedOver);
      shelf[at] = Math.max(0, entry(shelf, at, 'shelf') - entry(use, at, 'use'));
    });
  }
  return { ...buying, packs };
}

function madeReady({ sets }: BuiltModel, canning: CanningDecision, item: number, week: number): number {
  return entry(sets.recipesByItem, item, 'recipesByItem').reduce((sum, recipe) => {
    const { yieldLowUnits, readyAfterWeeks } = entry(sets.recipes, recipe, 'recipes');
    return (
      sum + yieldLowUnits * noneBeyond(entry(canning.batches, recipe, 'batches'), week - readyAfterWeeks)
    );
  }, 0);
}

/** By week: cents that may have been spent on what is eaten by then, so that no later week lacks what canning needs. */
function leftForEating({ sets }: BuiltModel, buying: BuyingDecision): number[] {
  const { year, sources, weekIndexes } = sets;
  let balance = year.fund.opening as number;
  const after = weekIndexes.map((week) => {
    const produce = sources.reduce(
      (sum, { priceCentsPerLbByWeek }, at) =>
        sum +
        Math.ceil(
          cell(buying.produceLb, at, week, 'produceLb') *
            entry(priceCentsPerLbByWeek, week, 'priceCentsPerLbByWeek'),
        ),
      0,
    );
    const supplies = year.supplies.reduce(
      (sum, { packPrice }, at) => sum + packPrice * cell(buying.supplyPacks, at, week, 'supplyPacks'),
      0,
    );
    const jars = year.jars.reduce(
      (sum, { packPrice }, at) => sum + packPrice * cell(buying.jarPacks, at, week, 'jarPacks'),
      0,
    );
    const lids = year.lids.reduce(
      (sum, { boxPrice }, at) => sum + boxPrice * cell(buying.lidBoxes, at, week, 'lidBoxes'),
      0,
    );
    balance += entry(year.fund.setAsideByWeek, week, 'setAsideByWeek') - produce - supplies - jars - lids;
    return balance;
  });
  for (let week = after.length - 2; week >= 0; week -= 1)
    after[week] = Math.min(entry(after, week, 'after'), entry(after, week + 1, 'after'));
  return after;
}
