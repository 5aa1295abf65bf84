import { compare } from '../../../shared/compare.ts';
import { found } from '../lookup.ts';
import { type PlannedItem, reserveHeld } from '../planning-year.ts';

/** An item as the model plans it: what is kept for an emergency stands beside it, out of its reach. */
export interface ItemAboveEmergency extends Omit<PlannedItem, 'emergencyUnits'> {
  /** Units for an emergency: what stands of them, and what is still to come. Left out where none are kept. */
  readonly emergency?: { readonly standing: number; readonly missing: number };
}

/**
 * Takes what is kept for an emergency out of an item, so that no plan can use it up: of the opening lots those that keep longest
 * stay for it, whatever is eaten before. What is missing of it is handed over by the year's end on top of all else, and wanted at
 * every look at the reserve until then (`heldWithinYear`).
 *
 * Example: 4 units until March and 6 until August, 5 for an emergency: the plan sees 4 and 1. With 3 kept and 5 wanted it sees
 * none, and 2 are to come.
 */
export function aboveEmergency({ emergencyUnits, ...item }: PlannedItem): ItemAboveEmergency {
  if (emergencyUnits === undefined || emergencyUnits <= 0) return item;
  const { above, missing } = setAsideLongest(item.openingLots, emergencyUnits);
  const whole = new Map(item.openingLots.map(({ lotId, units }) => [lotId, units]));
  return {
    ...item,
    openingLots: above.map((lot) => ({
      ...lot,
      jars: (lot.jars * lot.units) / found(whole, lot.lotId, 'whole'),
    })),
    yearEndUnits: item.yearEndUnits + missing,
    emergency: { standing: emergencyUnits - missing, missing },
  };
}

/** Units that should stand at each look at the reserve within the year: the reserve, and what an emergency shelf still lacks. */
export const heldWithinYear = ({ emergency, ...item }: ItemAboveEmergency): number =>
  reserveHeld(item) + (emergency === undefined ? 0 : emergency.missing);

interface KeptUntil {
  readonly lotId: string;
  readonly units: number;
  /** A date or a week, as all of the list have it. */
  readonly bestQualityUntil: string;
}

/**
 * Sets so many units aside from lots, those that keep longest first; `missing` is what they have too few of. The lots above come in
 * the order they were given, empty ones left out.
 */
export function setAsideLongest<Lot extends KeptUntil>(
  lots: readonly Lot[],
  units: number,
): { readonly above: readonly Lot[]; readonly missing: number } {
  const longestFirst = lots.toSorted(
    (one, other) => compare(other.bestQualityUntil, one.bestQualityUntil) || compare(other.lotId, one.lotId),
  );
  let missing = units;
  const left = new Map<string, number>();
  for (const lot of longestFirst) {
    const taken = Math.min(missing, lot.units);
    missing -= taken;
    left.set(lot.lotId, lot.units - taken);
  }
  return {
    above: lots.flatMap((lot) => {
      const units = left.get(lot.lotId);
      return units === undefined || units <= 1e-9 ? [] : [{ ...lot, units }];
    }),
    missing: missing < 1e-9 ? 0 : missing,
  };
}

/** What comes once an emergency shelf lacks some: the first to come fill it, the rest is there to be eaten. */
export function afterFilling<Coming extends { readonly units: number }>(
  coming: readonly Coming[],
  missing: number,
): readonly Coming[] {
  let lacks = missing;
  return coming.flatMap((one) => {
    const filled = Math.min(lacks, one.units);
    lacks -= filled;
    return one.units - filled > 1e-9 ? [{ ...one, units: one.units - filled }] : [];
  });
}
