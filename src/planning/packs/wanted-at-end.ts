import { entry } from '../lookup.ts';
import type { BuiltModel } from '../model/build-model.ts';
import { heldWithinYear } from '../model/emergency-shelf.ts';
import { reserveHeld } from '../planning-year.ts';

/** Units of an item (by its place in the sets) that should stand at a week's end. */
export interface WantedAtEnd {
  /** Nought in weeks at which the reserve is not looked at. */
  readonly reserve: number;
  /** What the last week hands over; what an emergency shelf lacks is in it then, and in the reserve before. */
  readonly handedOver: number;
}

export function wantedAtEndOf(
  { sets, parameters }: Pick<BuiltModel, 'sets' | 'parameters'>,
  at: number,
  week: number,
): WantedAtEnd {
  const item = entry(sets.items, at, 'items');
  if (week === sets.weekCount - 1) return { reserve: reserveHeld(item), handedOver: item.yearEndUnits };
  const isLookedAt = entry(parameters.reserveWeeks, at, 'reserveWeeks').includes(week);
  return { reserve: isLookedAt ? heldWithinYear(item) : 0, handedOver: 0 };
}
