import type { ItemId } from '../../../shared/ids.ts';
import { cell, entry, orNone } from '../lookup.ts';
import type { PlanningParameters } from '../model/parameters.ts';
import type { PlanningSets } from '../model/sets.ts';
import type { PlannedItem, PlanningYear } from '../planning-year.ts';
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
      const choice = mayBuy(year, item.id, week) ? cheapestPack(item, week) : null;
      const count = choice === null ? 0 : packsFor(use - onShelf, choice, fund);
      if (choice !== null) {
        entry(entry(packs, at, 'packs'), choice.at, 'packs')[week] = count;
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

/** A pack as one week asks for it: its place among those of its item, and cents. */
interface Offer {
  readonly at: number;
  readonly units: number;
  readonly price: number;
}

/** The pack that costs least per unit in a week; null for what is not sold. */
export function cheapestPack({ packs }: Pick<PlannedItem, 'packs'>, week: number): Offer | null {
  const offers = packs.map((pack, at) => ({
    at,
    units: pack.units,
    price: entry(pack.priceByWeek, week, 'priceByWeek'),
  }));
  offers.sort((one, other) => one.price / one.units - other.price / other.units);
  return offers[0] ?? null;
}

/** Whole packs that cover what is short, units, as far as some cents go; none where nothing is short. */
export const packsFor = (short: number, { units, price }: Omit<Offer, 'at'>, cents: number): number =>
  Math.max(0, Math.min(Math.ceil(short / units - 1e-9), Math.floor(cents / Math.max(1, price))));

/** Whether an item may be bought in a week: somebody is at home, and its line is not skipped. */
export const mayBuy = ({ weeks, time, skipped }: PlanningYear, item: ItemId, week: number): boolean =>
  time.awayByWeek?.[week] !== true &&
  skipped?.some((line) => line.kind === 'item' && line.what === item && line.week === weeks[week]) !== true;
