import type { EmergencyAdviceRow } from '../../shared/schemas/reference/emergency-advice.ts';
import { addMonths, type CalendarDate } from '../../shared/week.ts';
import type { Household } from '../household/household.ts';
import { type Item, keptForEmergency } from '../household/item.ts';
import { type LotOnShelf, unitsStanding } from '../household/lot.ts';

/** What a public guide advises to keep, with what it was read from. */
export interface EmergencyAdvice {
  readonly gallonsPerPersonAndDay: number;
  readonly leastDays: number;
  readonly wishedDays: number;
  readonly replaceWaterMonths: number;
  readonly foodDays: number;
}

/** The figures of the table; RangeError where one is missing. */
export function emergencyAdvice(rows: readonly EmergencyAdviceRow[]): EmergencyAdvice {
  const of = (key: string): number => {
    const row = rows.find((candidate) => candidate.key === key);
    if (row === undefined) throw new RangeError(`emergencyAdvice: expected a figure for ${key}`);
    return row.value;
  };
  return {
    gallonsPerPersonAndDay: of('water-per-person'),
    leastDays: of('least-days'),
    wishedDays: of('wished-days'),
    replaceWaterMonths: of('replace-water'),
    foodDays: of('food-days'),
  };
}

/** One item of the emergency shelf. */
export interface EmergencyItem {
  readonly item: Item;
  readonly wanted: number;
  /** Of those, units that stand today. */
  readonly standing: number;
  /** Servings in what stands; null where nobody said how many one unit holds. */
  readonly servings: number | null;
}

export interface EmergencyShelf {
  readonly items: readonly EmergencyItem[];
  /** Servings that stand for an emergency, of the items whose servings are said. */
  readonly servings: number;
  /** Of these for each person and day wished for; null while no days are said. */
  readonly servingsPerPersonAndDay: number | null;
  readonly water: {
    /** Gallons for all people and days; null while no days are said. */
    readonly wanted: number | null;
    readonly kept: number;
    readonly missing: number | null;
    /** The day by which water the household filled is replaced; null where it does not say when that was. */
    readonly replaceBy: CalendarDate | null;
  };
}

/**
 * What a household keeps for an emergency beside what its days ask for. Food is said in servings, since no guide read prints how
 * many a day takes.
 *
 * Example: 4 people for 14 days at 1 gallon: 56 gallons; 20 kept, 36 missing. 12 jars of 4 servings: 48, so 0.86 for each and day.
 */
export function emergencyShelf(
  { people, emergencyDays, waterGallons, waterFilledOn }: Household,
  items: readonly Item[],
  lots: readonly LotOnShelf[],
  advice: EmergencyAdvice,
): EmergencyShelf {
  const kept = items.flatMap((item): EmergencyItem[] => {
    const wanted = keptForEmergency(item);
    if (wanted <= 0) return [];
    const own = lots.filter(({ itemId }) => itemId === item.id);
    const standing = Math.min(wanted, unitsStanding(item, own));
    return [
      {
        item,
        wanted,
        standing,
        servings: item.servingsPerUnit === null ? null : standing * item.servingsPerUnit,
      },
    ];
  });
  const servings = kept.reduce((sum, { servings: own }) => sum + (own ?? 0), 0);
  const wanted = emergencyDays === null ? null : people * emergencyDays * advice.gallonsPerPersonAndDay;
  const water = waterGallons ?? 0;
  return {
    items: kept,
    servings,
    servingsPerPersonAndDay: emergencyDays === null ? null : servings / (people * emergencyDays),
    water: {
      wanted,
      kept: water,
      missing: wanted === null ? null : Math.max(0, wanted - water),
      replaceBy:
        waterFilledOn === null || water <= 0 ? null : addMonths(waterFilledOn, advice.replaceWaterMonths),
    },
  };
}
