import { cell, entry, orNone } from '../lookup.ts';
import type { PlanningParameters } from '../model/parameters.ts';
import type { PlanningSets } from '../model/sets.ts';
import type { PlannedItem } from '../planning-year.ts';
import type { PlanDecision } from '../solving/decision.ts';

/**
 * The plan that needs no solver: nothing is put up, and what runs short is bought in the pack cheapest per unit that
 * week, as long as the fund holds. It always exists and is never passed off as the best.
 */
export function buyAsNeeded(sets: PlanningSets, parameters: PlanningParameters): PlanDecision {
  const { year, weekIndexes, items } = sets;
  const none = () => weekIndexes.map(() => 0);
  const packs = items.map((item) => item.packs.map(none));
  const shelf = items.map(() => 0);
  let fund: number = year.fund.opening;
  for (const week of weekIndexes) {
    fund += entry(year.fund.setAsideByWeek, week, 'setAsideByWeek');
    items.forEach((item, at) => {
      const use = cell(parameters.useByWeek, at, week, 'useByWeek');
      const onShelf =
        entry(shelf, at, 'shelf') +
        entry(entry(parameters.opening, at, 'opening').readyByWeek, week, 'readyByWeek');
      const short = use - onShelf;
      const isAway = year.time.awayByWeek?.[week] === true;
      const isSkipped =
        year.skipped?.some(
          ({ kind, what, week: key }) => kind === 'item' && what === item.id && key === year.weeks[week],
        ) ?? false;
      const choice = short > 1e-9 && !isAway && !isSkipped ? cheapestPack(item, week) : null;
      const wanted = choice === null ? 0 : Math.ceil(short / choice.units - 1e-9);
      const count = choice === null ? 0 : Math.min(wanted, Math.floor(fund / Math.max(1, choice.price)));
      if (choice !== null && count > 0) {
        const weeks = packs[at]?.[choice.at];
        if (weeks !== undefined) weeks[week] = count;
        fund -= count * choice.price;
      }
      shelf[at] = Math.max(0, onShelf + count * orNone(choice?.units) - use);
    });
  }
  return {
    canning: { batches: sets.recipes.map(none), sessionsByWeek: none() },
    buying: {
      packs,
      produceLb: sets.sources.map(none),
      supplyPacks: year.supplies.map(none),
      jarPacks: year.jars.map(none),
      lidBoxes: year.lids.map(none),
      materials: {
        freeze: sets.rawMaterials.map(none),
        thaw: sets.rawMaterials.map(none),
        waiting: sets.rawMaterials.map(none),
        frozen: sets.rawMaterials.map(none),
        lost: sets.rawMaterials.map(none),
      },
    },
  };
}

/** The pack that costs least per unit in a week; null for what is not sold. */
export function cheapestPack(
  { packs }: PlannedItem,
  week: number,
): { readonly at: number; readonly units: number; readonly price: number } | null {
  const offers = packs.map((pack, at) => ({
    at,
    units: pack.units,
    price: entry(pack.priceByWeek, week, 'priceByWeek'),
  }));
  offers.sort((one, other) => one.price / one.units - other.price / other.units || one.at - other.at);
  return offers[0] ?? null;
}
